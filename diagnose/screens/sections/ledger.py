"""A cause's ledger as rows of text: what speaks for and against it, and what each line rests on."""

import textwrap
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass

from textual.content import Content

from diagnose.diagnosis import Diagnosis
from diagnose.language import _, pgettext
from diagnose.ranking import Line
from diagnose.reasoning import Step, chain
from diagnose.report.text import origin_said_in
from diagnose.report.words import decibans, percent, with_house
from diagnose.rulebase.rulebase import RuleBase

_RECORDS = {
    "place": "place",
    "plant": "plant_profile",
    "leaf_history": "leaf_history",
    "leaves": "leaf_history",
}
ANSWER = "\N{SINGLE RIGHT-POINTING ANGLE QUOTATION MARK}"
"""Marks the answers, which lead to their questions."""


@dataclass(frozen=True, slots=True)
class Row:
    """One row: its key, its text, whether more lies below it, and the question behind it if it is an answer."""

    key: str
    text: Content
    opens: bool = False
    question: str | None = None


def ledger_rows(diagnosis: Diagnosis, cause: str, opened: Collection[str], width: int) -> list[Row]:
    """Return the rows of a ledger in `width` cells; lines whose key is in `opened` show what they rest on."""
    ranked = diagnosis.ranking.of(cause)
    half = 9 if width >= 84 else 5 if width >= 70 else 4
    scale = max((abs(line.decibans) for line in ranked.lines), default=0) or 1
    rows = []
    for place, line in enumerate(ranked.lines):
        key = f"{place}:{line.rule}"
        below = list(_below(diagnosis, line, width))
        mark = " " if not below else "▾" if key in opened else "▸"
        rows.append(Row(key, _line(line, mark, half, scale, width), bool(below)))
        if key in opened:
            rows += [Row(f"{key}/{n}", row.text, question=row.question) for n, row in enumerate(below)]
    total = _speaks()["total"]
    total = f"  {total:<{_speaks_room()}}{_number(ranked.score_db):>6}"
    said = f"{total}{'':{2 * half + 5}}{percent(ranked.probability)}"
    return [*rows, Row("total", Content.styled(said, "bold"))]


def line_keys(diagnosis: Diagnosis, cause: str) -> set[str]:
    """Return the keys of all lines of a ledger."""
    return {f"{place}:{line.rule}" for place, line in enumerate(diagnosis.ranking.of(cause).lines)}


def signed_bar(value: float, scale: float, half: int) -> str:
    """Return a bar of 2 x half + 1 cells around a middle: to the right for, to the left against."""
    cells = min(max(round(abs(value) / scale * half), 1 if value else 0), half)
    if value < 0:
        return " " * (half - cells) + "━" * cells + "┤" + " " * half
    return " " * half + ("├" if value else "│") + "━" * cells + " " * (half - cells)


def _line(line: Line, mark: str, half: int, scale: float, width: int) -> Content:
    speaks = _speaks()
    said = speaks.get(line.kind, speaks["for" if line.decibans > 0 else "against"])
    text = with_house(line.text, house=line.house)
    room = _speaks_room()
    indent = 2 + room + 6 + 2 + 2 * half + 1 + 2
    first, *rest = textwrap.wrap(text, max(width - indent, 16)) or [""]
    colour = "$for" if line.decibans > 0 else "$against"
    return Content.assemble(
        f"{mark} ",
        (f"{said:<{room}}", colour),
        f"{_number(line.decibans):>6}  ",
        (signed_bar(line.decibans, scale, half), colour),
        f"  {first}",
        *(f"\n{'':{indent}}{more}" for more in rest),
    )


def _speaks() -> dict[str, str]:
    return {
        "prior": pgettext("a line of a ledger", "at first"),
        "discount": pgettext("a line of a ledger", "overlap"),
        "for": pgettext("a line of a ledger", "for"),
        "against": pgettext("a line of a ledger", "against"),
        "total": pgettext("a line of a ledger", "in all"),
    }


def _speaks_room() -> int:
    return max(8, *(len(said) for said in _speaks().values()))


def _number(value: float) -> str:
    return decibans(value).removesuffix(" dB")


def _below(diagnosis: Diagnosis, line: Line, width: int) -> Iterator[Row]:
    for step in chain(diagnosis.base, diagnosis.facts, diagnosis.firings, line):
        yield from _step(diagnosis.base, step, 1, width)
    origin = "; ".join(origin_said_in(diagnosis.base, one) for one in line.origin)
    if line.kind == "evidence":
        said = _("rule {id}; from {origin}").format(id=line.rule, origin=origin)
        yield Row("", _hung(said, 1, width, "$muted"))


def _step(base: RuleBase, step: Step, depth: int, width: int) -> Iterator[Row]:
    question = question_behind(base, step)
    yield Row(
        "",
        _hung(step.text, depth, width, "$foreground", f"{ANSWER} " if question else "- "),
        question=question,
    )
    for below in step.below:
        yield from _step(base, below, depth + 1, width)


def question_behind(base: RuleBase, step: Step) -> str | None:
    """Return the id of the question that an answer came from, None if the step is no answer."""
    if step.kind not in ("answer", "event"):
        return None
    name = step.id.partition(".")[0]
    if name in base.questions:
        return name
    return next((q.id for q in base.questions.values() if q.kind == _RECORDS.get(name)), None)


def _hung(text: str, depth: int, width: int, style: str, bullet: str = "  ") -> Content:
    indent = " " * (2 + 2 * depth)
    lines: Sequence[str] = textwrap.wrap(text, max(width - len(indent) - 2, 16)) or [""]
    return Content.styled(
        "\n".join(f"{indent}{'  ' if n else bullet}{one}" for n, one in enumerate(lines)), style
    )
