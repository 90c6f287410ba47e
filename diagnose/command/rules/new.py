"""`diagnose rules new`: a rule of the grower's own, asked for in plain lines."""

import re
import shlex
import tempfile
from collections.abc import Callable, Sequence
from dataclasses import replace
from pathlib import Path

from diagnose import locations
from diagnose.command.keep.written import refuse_existing, write_new
from diagnose.command.output import Exit, complain, data
from diagnose.command.rules.new_question import new_id, new_question, suggested, term_of
from diagnose.command.rules.prompts import AgainError, ask, pick, sentence, several
from diagnose.diagnosis import read_rules
from diagnose.language import _, gaps, marked, numeral, pgettext
from diagnose.problems import Problem
from diagnose.rulebase.check import severity
from diagnose.rulebase.draft import Draft, NewQuestion, Test, draft_toml, number_test, words_test
from diagnose.rulebase.model import Speaks
from diagnose.rulebase.rulebase import RuleBase
from diagnose.rulebase.strengths import DECIBANS
from diagnose.rulebase.vocabulary import Term, plain_number
from diagnose.rulecheck import check_rules

MOST_TESTS = 6
_SIDES: dict[Speaks, str] = {
    "for": marked("it is more likely then"),
    "against": marked("it is less likely then"),
}
_HELLO = marked("""A rule of your own: something you look at, and what it says about one cause.
'?' lists what may be typed, a word searches. 'stop' leaves, and nothing is written.""")
_NUMBER = re.compile(
    r"(below|above|at least|at most|between)?\s*(-?\d+(?:[.,]\d+)?)(?:\s*(?:to|and|-)\s*(-?\d+(?:[.,]\d+)?))?"
)


def new(file: Path | None, house: Sequence[Path]) -> int:
    """Ask for a rule, check it with all others, and write it to a new file."""
    if file:
        refuse_existing(file, force=False)
    base = read_rules(house)
    data(_(_HELLO))
    draft = _asked(base)
    text = draft_toml(draft)
    faults = _faults(text, house)
    if faults:
        data("\n" + text)
        complain(faults)
        return Exit.FAULTS
    path = file or _free(locations.new_rules() / f"{draft.id}.toml")
    path.parent.mkdir(parents=True, exist_ok=True)
    write_new(path, text.encode(), force=False)
    data("\n" + _("Wrote {file}.").format(file=path))
    data(_("See what it changes: {command}").format(command=f"diagnose rules try {shlex.quote(str(path))}"))
    return Exit.DONE


def _asked(base: RuleBase) -> Draft:
    causes = {cause.id: cause.name for cause in base.causes.values()}
    cause = ask(_("Of which cause does it speak?"), pick(_("causes"), causes))
    sides = {side: _(said) for side, said in _SIDES.items()}
    speaks: Speaks = ask(_("Does it speak for or against it? Type for or against."), pick(_("sides"), sides))
    words = {word: f"{numeral(decibans, 'g')} dB" for word, decibans in DECIBANS.items()}
    strength = ask(
        _("How strongly? From slight to decisive; most things are slight."), pick(_("strengths"), words)
    )
    tests, questions = _tests(base)
    known = [test.term.name for test in tests]
    because = ask(
        _(
            "Say it in one sentence, as it will stand on the ranking. An answer may be filled in: {gaps}."
        ).format(gaps=_gaps(known)),
        _because(known),
    )
    origin = ask(_("Where do you know it from? A book, a page, your own plants:"), sentence(3, 200))
    taken = {entry_id for _table, entry_id in base.standing}
    default = suggested(f"my {cause} {known[0].replace('.', ' ')}", taken)
    rule_id = new_id(_("A short name for the rule (Enter: {name}):").format(name=default), default, taken)
    return Draft(rule_id, cause, speaks, strength, tests, because, origin, questions)


def _tests(base: RuleBase) -> tuple[tuple[Test, ...], tuple[NewQuestion, ...]]:
    terms = dict(base.vocabulary)
    tests: list[Test] = []
    questions: list[NewQuestion] = []
    while len(tests) < MOST_TESTS:
        facts = {
            name: term.meaning for name, term in terms.items() if name not in {t.term.name for t in tests}
        }
        facts["new"] = _("a question of your own")
        prompt = (
            _("What must hold too, at the same time? Enter if nothing.")
            if tests
            else _(
                "What do you look at? A fact's name, or a word to search for; 'new': a question of your own."
            )
        )
        name = ask(prompt, _or_nothing(pick(_("facts"), facts)) if tests else pick(_("facts"), facts))
        if not name:
            break
        if name == "new":
            question = new_question(base)
            questions.append(question)
            terms[question.id] = term_of(question)
            name = question.id
        tests.append(_test(terms[name]))
    return tuple(tests), tuple(questions)


def _test(term: Term) -> Test:
    if term.is_number:
        unit = f" {term.said_unit}" if term.unit else ""
        prompt = _(
            "{meaning} When does it speak? Such as: below 12, above 30, at least 5, 10 to 20 "
            "(possible: {least} to {most}{unit})."
        ).format(
            meaning=term.meaning, least=plain_number(term.least), most=plain_number(term.most), unit=unit
        )
        return ask(prompt, lambda line: _number(line, term))
    numbered = "; ".join(
        f"{number} {word} ({said})" for number, (word, said) in enumerate(term.words.items(), start=1)
    )
    prompt = _("{meaning} On which answers does it speak? {answers}")
    return words_test(term, ask(prompt.format(meaning=term.meaning, answers=numbered), several(term.words)))


def _number(line: str, term: Term) -> Test:
    found = _NUMBER.fullmatch(_in_english(line.lower()))
    if not found or (bool(found[3]) != (found[1] == "between" or not found[1])):
        raise AgainError(_("Such as: below 12, above 30, at least 5, at most 5, 10 to 20."))
    low, high = _float(found[2]), _float(found[3]) if found[3] else None
    operator = (found[1] or "between").replace(" ", "_")
    if not all(term.least <= number <= term.most for number in (low, high) if number is not None):
        raise AgainError(
            _("It lies between {least} and {most}.").format(
                least=plain_number(term.least), most=plain_number(term.most)
            )
        )
    if high is not None and low > high:
        raise AgainError(_("The lower number first."))
    nothing = {"below": low == term.least, "above": low == term.most}
    everything = {"at_least": low == term.least, "at_most": low == term.most}
    if nothing.get(operator) or everything.get(operator) or (low, high) == (term.least, term.most):
        raise AgainError(_("That would hold never or always: choose another border."))
    return number_test(term, operator, low, high)


def _in_english(line: str) -> str:
    """Return what was typed with the words that say how a number is compared in English."""
    said = {
        "below": pgettext("compared", "below"),
        "above": pgettext("compared", "above"),
        "at least": pgettext("compared", "at least"),
        "at most": pgettext("compared", "at most"),
        "between": pgettext("compared", "between"),
        "and": pgettext("compared", "and"),
        "to": pgettext("compared", "to"),
    }
    for english, own in said.items():
        line = re.sub(rf"\b{re.escape(own)}\b", english, line)
    return line


def _float(text: str) -> float:
    return float(text.replace(",", "."))


def _because(known: Sequence[str]) -> Callable[[str], str]:
    def read(line: str) -> str:
        for name in gaps(line):
            if name not in known:
                raise AgainError(
                    _("{gap} is not filled: only {gaps}.").format(gap=_gaps([name]), gaps=_gaps(known))
                )
        return sentence()(line)

    return read


def _gaps(names: Sequence[str]) -> str:
    return ", ".join("{" + name + "}" for name in names)


def _or_nothing(read: Callable[[str], str]) -> Callable[[str], str]:
    return lambda line: read(line) if line else ""


def _faults(text: str, house: Sequence[Path]) -> list[Problem]:
    """Return what the check finds in a new file, run with all other rules."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "new.toml"
        path.write_text(text, encoding="utf-8")
        base = read_rules([*house, path])
        faults = [one for one in check_rules(base) if one.file == str(path) and severity(one) == "fault"]
        return [replace(fault, file=_("the rule above")) for fault in faults]


def _free(path: Path) -> Path:
    """Return the path, or one with a number if there is such a file already."""
    names = (path, *(path.with_stem(f"{path.stem}_{number}") for number in range(2, 1000)))
    return next(name for name in names if not name.exists())
