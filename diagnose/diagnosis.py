"""The one way in: case + rule base -> Diagnosis. Every face calls only this."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

from diagnose import locations
from diagnose.case import Case
from diagnose.engine import EngineLimitError, Firing, RuleEngine
from diagnose.facts import Fact, Gathered, gather
from diagnose.language import SOURCE, spoken, translated_by
from diagnose.measures.places import locate
from diagnose.problems import Problem, untranslated
from diagnose.ranking import Ranking, rank
from diagnose.rulebase.load import load
from diagnose.rulebase.logic import truth
from diagnose.rulebase.model import RECORD_KINDS, Question
from diagnose.rulebase.rulebase import RuleBase
from diagnose.rulebase.translate import language_folders, translated

if TYPE_CHECKING:  # a ranking alone needs none of these: each method imports its own
    from diagnose.plan import Plan
    from diagnose.reasoning.change import WhatIfAnswer, WhatWouldChange
    from diagnose.reasoning.conflicts import Conflicts
    from diagnose.reasoning.firmness import Firmness
    from diagnose.reasoning.mistaken import Mistaken
    from diagnose.reasoning.next_checks import NextChecks
    from diagnose.reasoning.several import Several
    from diagnose.reasoning.suppose import Changes, Supposer, Supposing
    from diagnose.reasoning.versus import Versus
    from diagnose.reasoning.why import Reason
    from diagnose.reasoning.why_not import WhyNot


@dataclass(frozen=True, slots=True)
class Diagnosis:
    """All that is concluded of one case, and everything it was concluded from."""

    base: RuleBase
    gathered: Gathered
    firings: tuple[Firing, ...]
    ranking: Ranking
    unanswered: tuple[Question, ...]
    """Questions that apply and have no answer, in questionnaire order."""
    skipped: tuple[Question, ...]
    """Questions that do not apply to this case; each says why in `skip_because`."""

    @property
    def case(self) -> Case:
        """The case itself."""
        return self.gathered.case

    @property
    def facts(self) -> Mapping[str, Fact]:
        """Known facts by name."""
        return self.gathered.facts

    @property
    def problems(self) -> tuple[Problem, ...]:
        """What could not be used: faulty answers, then rule files left out."""
        return self.gathered.problems + self.base.problems


class Diagnostician:
    """A rule base made ready; diagnoses any number of cases."""

    def __init__(self, base: RuleBase) -> None:
        self.base = base
        self._engine = RuleEngine([*base.rules.values(), *base.evidence.values()])
        self._supposer: Supposer | None = None
        self._last: Supposing | None = None

    def diagnose(self, case: Case) -> Diagnosis:
        """Return the ranking of a case with all its reasons."""
        gathered = gather(case, self.base)
        firings = self._engine.infer(gathered.values)
        findings = {rule.gives for firing in firings if (rule := self.base.rules.get(firing.rule))}
        asked = self.base.asked()
        skipped = {q.id for q in asked if _does_not_apply(q, gathered, findings)}
        return Diagnosis(
            self.base,
            gathered,
            firings,
            rank(self.base, gathered.facts, firings),
            tuple(q for q in asked if q.id not in skipped and not is_answered(q, gathered)),
            tuple(q for q in asked if q.id in skipped),
        )

    def why(self, diagnosis: Diagnosis, cause: str) -> "tuple[Reason, ...]":
        """Return a cause's reasons; their decibans add up to its score exactly."""
        from diagnose.reasoning.why import why

        return why(diagnosis, cause)

    def why_not(self, diagnosis: Diagnosis, cause: str) -> "WhyNot":
        """Return what speaks against a cause, and which open questions could still lift it past the first."""
        from diagnose.reasoning.why_not import why_not

        return why_not(self._supposing(diagnosis), cause, self.next_checks(diagnosis))

    def versus(self, diagnosis: Diagnosis, one: str, other: str) -> "Versus":
        """Return two causes side by side, and what decides between them."""
        from diagnose.reasoning.versus import versus

        return versus(diagnosis, one, other, self.next_checks(diagnosis))

    def next_checks(self, diagnosis: Diagnosis) -> "NextChecks":
        """Return the open questions by what they are expected to tell for their effort."""
        from diagnose.reasoning.next_checks import next_checks

        return next_checks(self._supposing(diagnosis))

    def telling_order(self, diagnosis: Diagnosis) -> tuple[Question, ...]:
        """Return the open questions, most telling first; depends on nothing but the diagnosis."""
        from diagnose.reasoning.next_checks import telling_order

        return telling_order(self._supposing(diagnosis))

    def what_if(self, diagnosis: Diagnosis, changes: "Changes") -> "WhatIfAnswer":
        """Return what other answers (question id -> answer, None for not known) would do; the case is not touched.

        Raises:
            AnswerError: a question does not take its answer.
            KeyError: there is no such question.

        """
        from diagnose.reasoning.change import what_if

        return what_if(self._supposing(diagnosis), changes)

    def what_would_change(self, diagnosis: Diagnosis) -> "WhatWouldChange":
        """Return the smallest sets of answers that, had they been others, would put another cause first."""
        from diagnose.reasoning.change import what_would_change

        return what_would_change(self._supposing(diagnosis))

    def mistaken(self, diagnosis: Diagnosis) -> "tuple[Mistaken, ...]":
        """Return, answer by answer, the worst that could come of its being wrong."""
        from diagnose.reasoning.mistaken import mistaken

        return mistaken(self._supposing(diagnosis))

    def how_firm(self, diagnosis: Diagnosis) -> "Firmness":
        """Return how firm the first place is: under other weights, and without any one answer."""
        from diagnose.reasoning.firmness import how_firm

        return how_firm(self._supposing(diagnosis))

    def several(self, diagnosis: Diagnosis) -> "Several":
        """Return what each probable cause explains, what only one does, and what none does."""
        from diagnose.reasoning.several import several

        return several(diagnosis)

    def conflicts(self, diagnosis: Diagnosis) -> "Conflicts":
        """Return strong evidence both ways, and answers that hardly go together."""
        from diagnose.reasoning.conflicts import conflicts

        return conflicts(diagnosis)

    def close(self) -> None:
        """Give the engines' memory back."""
        self._engine.close()
        if self._supposer is not None:
            self._supposer.close()

    def _supposing(self, diagnosis: Diagnosis) -> "Supposing":
        """Return suppositions about a diagnosis; those about the last one are kept, as all reasons draw on them."""
        if self._supposer is None:
            from diagnose.reasoning.suppose import Supposer

            self._supposer = Supposer(self.base)
        if self._last is None or self._last.known is not diagnosis:
            self._last = self._supposer.about(diagnosis)
        return self._last


def plan_for(diagnosis: Diagnosis) -> "Plan":
    """Return what to do now for a diagnosis: steps with dates, what is held back, when to look again."""
    from diagnose.plan import make_plan

    base = diagnosis.base
    findings = {rule.gives for firing in diagnosis.firings if (rule := base.rules.get(firing.rule))}
    return make_plan(base, diagnosis.gathered, findings, diagnosis.ranking)


def open_rules(house: Sequence[Path] = (), *, leave_out: Path | None = None) -> Diagnostician:
    """Return the built-in rules with the user's folder and the given house folders on top, ready to diagnose.

    House rules that would take the engine out of its limits are all left out, and the problems say so; so is what
    lies at or below `leave_out`, silently.
    """
    base = read_rules(house, leave_out=leave_out)
    try:
        return Diagnostician(base)
    except EngineLimitError as error:
        if not any(standing.house for standing in base.standing.values()):
            raise
        without = _said(load(locations.built_in_rules(), house_too=False), ())
        return Diagnostician(replace(without, problems=base.problems + tuple(error.problems)))


def read_rules(house: Sequence[Path] = (), *, leave_out: Path | None = None) -> RuleBase:
    """Return the built-in rules with the user's folder and the given house folders (or files) on top.

    Their texts are in the language spoken, as far as the folders have translations.
    """
    folders = rule_folders(house)
    return _said(load(locations.built_in_rules(), folders, leave_out=leave_out), folders)


def _said(base: RuleBase, folders: Sequence[Path]) -> RuleBase:
    if spoken() == SOURCE:
        return base
    places = language_folders([locations.built_in_rules(), *folders], spoken())
    messages, broken = translated_by(places)
    return replace(translated(base, messages), problems=base.problems + tuple(map(untranslated, broken)))


def rule_folders(house: Sequence[Path]) -> list[Path]:
    """Return the folders of house rules outside the built-in one: the user's own, if there is one, then the given."""
    own = [locations.user_rules()] if locations.user_rules().is_dir() else []
    return [*own, *house]


def is_answered(question: Question, gathered: Gathered) -> bool:
    """Whether the case holds an answer to a question."""
    if question.kind in RECORD_KINDS:
        case = gathered.case
        return bool(
            {
                "leaf_history": case.leaf_history or case.leaves,
                "place": locate(case.place),
                "plant_profile": case.plant.profile,
            }[question.kind]
        )
    if question.kind == "several":
        return f"{question.id}.{question.choices[0].id}" in gathered.facts
    return question.id in gathered.facts


def _does_not_apply(question: Question, gathered: Gathered, findings: set[str]) -> bool:
    """Skipped only if its condition is known to be false; while that is unknown the question is asked."""
    return question.ask_when is not None and truth(question.ask_when, gathered.values, findings) == "false"
