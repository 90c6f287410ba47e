"""How sure: other weights, the answers it hangs on, what pulls two ways, and what each probable cause explains."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from textual.content import Content

from diagnose.questionnaire.said import answer_said
from diagnose.ranking import RankedCause
from diagnose.reasoning.conflicts import Conflicts
from diagnose.reasoning.firmness import JITTERS, SPREAD, Firmness, Without
from diagnose.reasoning.several import Explains, Several, Sign
from diagnose.report.page import interval_db
from diagnose.report.words import decibans, lower_first, percent
from diagnose.rulebase.strengths import CLOSE_DB, probability
from diagnose.screens.reasoner import Reasoner
from diagnose.screens.sections.entries import Entry, columns, heading, hung, remark, stacked
from diagnose.screens.sections.worked import RowsSection

MOST_ANSWERS, MOST_CAUSES, MOST_SIGNS = 5, 4, 8
_BAR = 20


@dataclass(frozen=True, slots=True)
class Sure:
    """All that this page tells."""

    firm: Firmness
    conflicts: Conflicts
    several: Several


class HowSureSection(RowsSection):
    """Enter goes to the question behind a row."""

    ABOUT_CAUSE = False

    def work(self, reasoner: Reasoner, cause: str) -> Iterator[Sure]:
        """Jitter the weights, leave out each answer, look for conflicts."""
        del cause
        yield Sure(reasoner.how_firm(), reasoner.conflicts(), reasoner.several())

    def entries(self, result: Sure, width: int) -> list[Entry]:
        """Return the four parts."""
        return [
            *self._firm(result.firm, width),
            *self._hangs_on(result.firm, width),
            *self._conflicts(result.conflicts, width),
            *self._several(result.several, width),
        ]

    def _firm(self, firm: Firmness, width: int) -> Iterable[Entry]:
        ranking = self.case_in_hand.diagnosis.ranking
        first, second = ranking.causes[0], ranking.causes[1] if ranking.causes[1:] else None
        yield heading(f"How sure: the first place is {firm.word}", width, first=True)
        said = (
            f"Of {JITTERS:,} rankings with every weight shaken by about {percent(SPREAD)}, "
            f"{percent(firm.stays_first)} keep {lower_first(first.name)} first and {percent(firm.stays_in_two)} "
            "keep it among the first two."
        )
        yield Entry(
            stacked(_share("first", firm.stays_first), _share("first two", firm.stays_in_two)), apart=True
        )
        yield remark(said, width, "$foreground")
        if second is not None:
            close = (
                f", which is too close to call (less than {CLOSE_DB:g} dB)" if firm.lead_db < CLOSE_DB else ""
            )
            lead = f"It leads {lower_first(second.name)} by {decibans(firm.lead_db).lstrip('+')}{close}."
            yield remark(lead, width, "$foreground")
        yield heading("Where each could lie", width)
        yield remark("Nine in ten rankings, were each weight as far off as such estimates are.", width)
        for ranked in ranking.causes[:MOST_CAUSES]:
            yield Entry(Content.styled(_span(ranked, width), "$foreground"), apart=True)

    def _hangs_on(self, firm: Firmness, width: int) -> Iterable[Entry]:
        weighty = [one for one in firm.without if one.lead_db < firm.lead_db][:MOST_ANSWERS]
        yield heading("The answers it hangs on most", width)
        if not weighty:
            yield remark("No single answer: without any one of them the lead would be as large.", width)
        else:
            yield remark("What would be left of the lead without each. Enter goes to the question.", width)
        yield from (self._without(one, width) for one in weighty)

    def _without(self, one: Without, width: int) -> Entry:
        asked = self.case_in_hand
        base, ranking = asked.diagnosis.base, asked.diagnosis.ranking
        answer = answer_said(asked.case, base, one.question, self.desk.settings.units)
        left = f"without it {_left(one.lead_db)}"
        if one.first != ranking.first.id:
            left += f", and {lower_first(base.causes[one.first].name)} would be first"
        text = stacked(
            hung("  ", f"{one.question.text} {answer}", width), hung("    ", left, width, "$muted")
        )
        return Entry(text, question=one.question.id)

    def _conflicts(self, conflicts: Conflicts, width: int) -> Iterable[Entry]:
        yield heading("What pulls two ways", width)
        if not conflicts.contradictions and not conflicts.both_ways:
            yield remark(
                "Nothing: no answers contradict each other, and no cause has strong reasons both ways.", width
            )
        base = self.case_in_hand.diagnosis.base
        for one in conflicts.contradictions:
            questions = [
                fact.partition(".")[0] for fact in one.facts if fact.partition(".")[0] in base.questions
            ]
            behind = next(iter(questions), None)
            house = " (house)" if one.house else ""
            yield Entry(hung("  ", f"Look again: {one.text}{house}", width, indent=4), question=behind)
        for both in conflicts.both_ways:
            both_said = hung("  ", f"{both.cause.name} has strong reasons both ways:", width, indent=4)
            yield Entry(both_said, cause=both.cause.id)
            for line in (*both.lines_for[:2], *both.lines_against[:2]):
                yield remark_at(f"{decibans(line.decibans)}  {line.text}", width)

    def _several(self, several: Several, width: int) -> Iterable[Entry]:
        yield heading("What each likely cause explains", width)
        if not several.probable:
            yield remark("No cause is likelier than not, so none explains much.", width)
        for one in several.probable:
            yield from _explained(one, len(several.probable) > 1, width)
        if several.unexplained:
            yield heading("What none of the likely causes explains", width)
            yield from (_sign(sign, self._behind(sign), width) for sign in several.unexplained[:MOST_SIGNS])
            yield from _more(len(several.unexplained), width)
        if several.silent:
            yield heading(f"Answers that speak for or against no cause: {len(several.silent)}", width)
            yield from (_sign(sign, self._behind(sign), width) for sign in several.silent[:MOST_SIGNS])
            yield from _more(len(several.silent), width)

    def _behind(self, sign: Sign) -> str | None:
        name = sign.id.partition(".")[0]
        return name if sign.kind == "answer" and name in self.case_in_hand.diagnosis.base.questions else None


def remark_at(text: str, width: int) -> Entry:
    """Return a remark that belongs to the row above it."""
    return Entry(hung("      ", text, width, "$muted", indent=14), apart=True)


def _share(what: str, share: float) -> Content:
    full = round(share * _BAR)
    bar = Content.assemble(("━" * full, "$accent"), ("─" * (_BAR - full), "$line"))
    return Content.assemble(f"  {what:<10}", bar, f"  {percent(share)}")


def _span(ranked: RankedCause, width: int) -> str:
    low, high = (percent(probability(score)) for score in interval_db(ranked))
    return columns(f"  {ranked.name}", f"{percent(ranked.probability):>5}  {low:>5} to {high:>5}", width)


def _left(lead_db: float) -> str:
    said = decibans(abs(lead_db)).lstrip("+")
    if not lead_db:
        return "there would be no lead"
    return f"it would {'trail' if lead_db < 0 else 'lead'} by {said}"


def _explained(one: Explains, several: bool, width: int) -> Iterable[Entry]:
    count = f"{len(one.signs)} sign{'' if len(one.signs) == 1 else 's'}"
    only = f", {len(one.alone)} of them explained by no other likely cause" if several else ""
    said = f"{one.cause.name} ({percent(one.cause.probability)}): {count}{only}"
    yield Entry(hung("  ", said, width, indent=4), cause=one.cause.id)
    yield from (
        remark_at(f"- {sign.text}", width) for sign in (one.alone if several else one.signs)[:MOST_SIGNS]
    )


def _sign(sign: Sign, question: str | None, width: int) -> Entry:
    return Entry(hung("  ", sign.text, width, indent=4), question=question, apart=question is None)


def _more(count: int, width: int) -> Iterable[Entry]:
    if count > MOST_SIGNS:
        yield remark(f"  and {count - MOST_SIGNS} more", width)
