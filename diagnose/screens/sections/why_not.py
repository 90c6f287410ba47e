"""Why not another cause: all rivals in a line or two, or the chosen one's ledger beside that of the first."""

from collections.abc import Iterator
from dataclasses import dataclass

from textual.content import Content

from diagnose.ranking import Line, RankedCause
from diagnose.reasoning.versus import Row, Separating, Versus
from diagnose.reasoning.why_not import Lift, WhyNot
from diagnose.report.words import decibans, lower_first, percent
from diagnose.screens.reasoner import Reasoner
from diagnose.screens.sections.entries import Entry, columns, gap, heading, hung, remark, stacked
from diagnose.screens.sections.worked import RowsSection

MOST_LIFTS = 5
_COLUMN, _WIDE_COLUMN, _WIDE = 11, 20, 84


@dataclass(frozen=True, slots=True)
class Overview:
    """Every other cause beside the first."""

    rivals: tuple[Versus, ...]


@dataclass(frozen=True, slots=True)
class Beside:
    """One other cause beside the first, and what could lift it."""

    versus: Versus
    why_not: WhyNot


class WhyNotSection(RowsSection):
    """Enter goes to a cause in the overview, to a question below a comparison."""

    def work(self, reasoner: Reasoner, cause: str) -> Iterator[Overview | Beside]:
        """Compare the chosen cause with the first; the first with all others."""
        ranking = reasoner.diagnosis.ranking
        if cause != ranking.first.id:
            yield Beside(reasoner.first_against(cause), reasoner.why_not(cause))
        else:
            yield Overview(tuple(reasoner.first_against(other.id) for other in ranking.causes[1:]))

    def entries(self, result: Overview | Beside, width: int) -> list[Entry]:
        """Return the rivals, or the two ledgers."""
        if isinstance(result, Overview):
            return self._overview(result, width)
        return self._beside(result, width)

    def _overview(self, result: Overview, width: int) -> list[Entry]:
        first = self.case_in_hand.diagnosis.ranking.first
        rows = [
            heading(f"Why not another cause than {lower_first(first.name)}", width, first=True),
            remark(
                "How far each lies behind, and what keeps it down. Enter puts the two side by side.", width
            ),
            gap(),
        ]
        for versus in result.rivals:
            rival = versus.other
            behind = f"{_plain(versus.difference)} dB behind" if versus.difference else "level"
            head = columns(f"{rival.rank:>2}  {rival.name}", behind, width)
            text = stacked(Content(head), hung("    ", _deciding_said(rival), width, "$muted"))
            rows.append(Entry(text, cause=rival.id))
        return rows

    def _beside(self, result: Beside, width: int) -> list[Entry]:
        versus = result.versus
        one, other = versus.one, versus.other
        rows = [
            heading(f"Why {lower_first(one.name)}, not {lower_first(other.name)}", width, first=True),
            remark(_lead_said(versus), width),
            gap(),
            Entry(_head(one.name, other.name, width), apart=True),
        ]
        rows += [
            Entry(content) for row in versus.rows for content in _row(row, row in versus.deciding, width)
        ]
        rows.append(Entry(Content.styled(_cells("  in all", one.score_db, other.score_db, width), "bold")))
        rows += self._lifts(result.why_not, width)
        telling = [each for each in versus.separating if not each.check.hardly_matters][:MOST_LIFTS]
        if telling:
            rows.append(heading("What would tell the two apart", width))
            rows += [_separating(each, width) for each in telling]
        return rows

    def _lifts(self, why_not: WhyNot, width: int) -> list[Entry]:
        name = lower_first(why_not.ranked.name)
        rows = [heading(f"What could still put {name} first", width), remark(_prospect(why_not), width)]
        taken = why_not.together or why_not.lifts[:MOST_LIFTS]
        return rows + [Entry(_lift(lift, width), question=lift.question.id) for lift in taken]


def _deciding_said(ranked: RankedCause) -> str:
    """Return in a sentence what keeps a cause down: what speaks against it, or how little speaks for it."""
    lines = [line for line in ranked.lines if line.kind == "evidence"]
    against = min(lines, key=lambda line: line.decibans, default=None)
    best = max(lines, key=lambda line: line.decibans, default=None)
    if against is not None and against.decibans < 0:
        return f"against it: {against.text} ({decibans(against.decibans)})"
    if best is not None:
        return (
            f"nothing speaks against it; the most that speaks for it: {best.text} ({decibans(best.decibans)})"
        )
    return "no answer speaks for it or against it"


def _lead_said(versus: Versus) -> str:
    shares = f"{percent(versus.one.probability)} against {percent(versus.other.probability)}"
    lead = f"{versus.one.name} leads by {_plain(versus.difference)} dB ({shares})."
    if not versus.deciding:
        return lead
    count = len(versus.deciding)
    which = "the row marked *" if count == 1 else f"the {count} rows marked *"
    return f"{lead} Without {which} the lead would be gone."


def _prospect(why_not: WhyNot) -> str:
    if why_not.together:
        count = len(why_not.together)
        return "This answer alone would:" if count == 1 else f"These {count} answers together would:"
    if not why_not.lifts:
        return "No open question speaks for it."
    return (
        f"Nothing that is still open: with every answer in its favour it would be "
        f"{_plain(why_not.best_gap_db)} dB behind. What would help most:"
    )


def _separating(each: Separating, width: int) -> Entry:
    question = each.check.question
    apart = hung(
        "    ", f"moves them {each.expected_db:.1f} dB apart or together, on average", width, "$muted"
    )
    return Entry(stacked(hung("  ", question.text, width), apart), question=question.id)


def _lift(lift: Lift, width: int) -> Content:
    stands = f"{_plain(lift.gap_db)} dB {'ahead' if lift.gap_db < 0 else 'behind'}"
    told = f"if {lift.said} ({percent(lift.chance)} likely): {decibans(lift.decibans)}, then {stands}"
    return stacked(hung("  ", lift.question.text, width), hung("    ", told, width, "$muted"))


def _row(row: Row, decides: bool, width: int) -> list[Content]:
    """Return each sentence of a row once, with what it weighs for either cause; what overlap takes off comes last."""
    lines = sorted((*row.one, *row.other), key=lambda line: line.kind == "discount")
    texts = dict.fromkeys(line.text for line in lines)
    return [
        _sentence(text, _of(text, row.one), _of(text, row.other), "* " if decides and not n else "  ", width)
        for n, text in enumerate(texts)
    ]


def _of(text: str, lines: tuple[Line, ...]) -> float:
    return sum(line.decibans for line in lines if line.text == text)


def _sentence(text: str, one: float, other: float, mark: str, width: int) -> Content:
    told = hung(mark, text, width - 2 * _column(width) - 1, indent=2).plain.split("\n")
    return Content("\n".join([_cells(told[0], one, other, width), *told[1:]]))


def _cells(text: str, one: float, other: float, width: int) -> str:
    column = _column(width)
    return f"{text:<{width - 2 * column}}{_number(one):>{column}}{_number(other):>{column}}"


def _head(one: str, other: str, width: int) -> Content:
    column = _column(width)
    names = (name if len(name) < column else f"{name[: column - 2]}…" for name in (one, other))
    return Content.styled(
        " " * (width - 2 * column) + "".join(f"{name:>{column}}" for name in names), "$muted"
    )


def _column(width: int) -> int:
    return _WIDE_COLUMN if width >= _WIDE else _COLUMN


def _number(value: float) -> str:
    return decibans(value).removesuffix(" dB") if value else "-"


def _plain(value: float) -> str:
    return f"{abs(value):.2f}".rstrip("0").rstrip(".")
