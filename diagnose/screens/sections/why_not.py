"""Why not another cause: all rivals in a line or two, or the chosen one's ledger beside that of the first."""

import textwrap
from collections.abc import Iterator
from dataclasses import dataclass

from textual.content import Content

from diagnose.language import _, ngettext, numeral, pgettext
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
        title = _("Why not another cause than {cause}")
        how = _("How far each lies behind, and what keeps it down. Enter puts the two side by side.")
        rows = [
            heading(title.format(cause=lower_first(first.name)), width, first=True),
            remark(how, width),
            gap(),
        ]
        for versus in result.rivals:
            rival = versus.other
            behind = _("{lead} dB behind").format(lead=_plain(versus.difference))
            behind = behind if versus.difference else pgettext("two causes with one score", "level")
            head = columns(f"{rival.rank:>2}  {rival.name}", behind, width)
            text = stacked(Content(head), hung("    ", _deciding_said(rival), width, "$muted"))
            rows.append(Entry(text, cause=rival.id))
        return rows

    def _beside(self, result: Beside, width: int) -> list[Entry]:
        versus = result.versus
        one, other = versus.one, versus.other
        title, total = _("Why {cause}, not {other}"), "  " + _("in all")
        column = _column(width, f"{one.name} {other.name}")
        rows = [
            heading(
                title.format(cause=lower_first(one.name), other=lower_first(other.name)), width, first=True
            ),
            remark(_lead_said(versus), width),
            gap(),
            Entry(_head(one.name, other.name, width, column), apart=True),
        ]
        rows += [
            Entry(content)
            for row in versus.rows
            for content in _row(row, row in versus.deciding, width, column)
        ]
        rows.append(
            Entry(Content.styled(_cells(total, (one.score_db, other.score_db), width, column), "bold"))
        )
        rows += self._lifts(result.why_not, width)
        telling = [each for each in versus.separating if not each.check.hardly_matters][:MOST_LIFTS]
        if telling:
            rows.append(heading(_("What would tell the two apart"), width))
            rows += [_separating(each, width) for each in telling]
        return rows

    def _lifts(self, why_not: WhyNot, width: int) -> list[Entry]:
        title = _("What could still put {cause} first").format(cause=lower_first(why_not.ranked.name))
        rows = [heading(title, width), remark(_prospect(why_not), width)]
        taken = why_not.together or why_not.lifts[:MOST_LIFTS]
        return rows + [Entry(_lift(lift, width), question=lift.question.id) for lift in taken]


def _deciding_said(ranked: RankedCause) -> str:
    """Return in a sentence what keeps a cause down: what speaks against it, or how little speaks for it."""
    lines = [line for line in ranked.lines if line.kind == "evidence"]
    against = min(lines, key=lambda line: line.decibans, default=None)
    best = max(lines, key=lambda line: line.decibans, default=None)
    if against is not None and against.decibans < 0:
        text = _("against it: {what} ({weight})")
        return text.format(what=against.text, weight=decibans(against.decibans))
    if best is not None:
        text = _("nothing speaks against it; the most that speaks for it: {what} ({weight})")
        return text.format(what=best.text, weight=decibans(best.decibans))
    return _("no answer speaks for it or against it")


def _lead_said(versus: Versus) -> str:
    text = _("{cause} leads by {lead} dB ({percent} against {other_percent}).")
    lead = text.format(
        cause=versus.one.name,
        lead=_plain(versus.difference),
        percent=percent(versus.one.probability),
        other_percent=percent(versus.other.probability),
    )
    if not versus.deciding:
        return lead
    count = len(versus.deciding)
    without = ngettext(
        "Without the row marked * the lead would be gone.",
        "Without the {count} rows marked * the lead would be gone.",
        count,
    )
    return f"{lead} {without.format(count=count)}"


def _prospect(why_not: WhyNot) -> str:
    if why_not.together:
        count = len(why_not.together)
        text = ngettext("This answer alone would:", "These {count} answers together would:", count)
        return text.format(count=count)
    if not why_not.lifts:
        return _("No open question speaks for it.")
    return _(
        "Nothing that is still open: with every answer in its favour it would be {lead} dB behind. "
        "What would help most:"
    ).format(lead=_plain(why_not.best_gap_db))


def _separating(each: Separating, width: int) -> Entry:
    question = each.check.question
    text = _("moves them {moves} dB apart or together, on average")
    told = hung("    ", text.format(moves=numeral(each.expected_db, ".1f")), width, "$muted")
    return Entry(stacked(hung("  ", question.text, width), told), question=question.id)


def _lift(lift: Lift, width: int) -> Content:
    text = _("if {answer} ({percent} likely): {weight}, then {lead} dB behind")
    if lift.gap_db < 0:
        text = _("if {answer} ({percent} likely): {weight}, then {lead} dB ahead")
    told = text.format(
        answer=lift.said,
        percent=percent(lift.chance),
        weight=decibans(lift.decibans),
        lead=_plain(lift.gap_db),
    )
    return stacked(hung("  ", lift.question.text, width), hung("    ", told, width, "$muted"))


def _row(row: Row, decides: bool, width: int, column: int) -> list[Content]:
    """Return each sentence of a row once, with what it weighs for either cause; what overlap takes off comes last."""
    lines = sorted((*row.one, *row.other), key=lambda line: line.kind == "discount")
    rows = []
    for n, text in enumerate(dict.fromkeys(line.text for line in lines)):
        mark = "* " if decides and not n else "  "
        first, *more = hung(mark, text, width - 2 * column - 1, indent=2).plain.split("\n")
        cells = _cells(first, (_of(text, row.one), _of(text, row.other)), width, column)
        rows.append(Content("\n".join([cells, *more])))
    return rows


def _of(text: str, lines: tuple[Line, ...]) -> float:
    return sum(line.decibans for line in lines if line.text == text)


def _cells(text: str, weights: tuple[float, float], width: int, column: int) -> str:
    numbers = "".join(f"{_number(weight):>{column}}" for weight in weights)
    return f"{text:<{width - 2 * column}}{numbers}"


def _head(one: str, other: str, width: int, column: int) -> Content:
    """Return the names of two causes over their columns, whole: as many lines as the longer one takes."""
    stacks = [textwrap.wrap(name, column - 1) for name in (one, other)]
    high = max(map(len, stacks))
    stacks = [[""] * (high - len(stack)) + stack for stack in stacks]
    rows = ("".join(f"{word:>{column}}" for word in words) for words in zip(*stacks, strict=True))
    return Content.styled("\n".join(" " * (width - 2 * column) + row for row in rows), "$muted")


def _column(width: int, names: str) -> int:
    """Return the cells of a column: enough for the longest word of the names, as far as the sentences leave them."""
    longest = 1 + max(map(len, names.split()))
    return max(_WIDE_COLUMN if width >= _WIDE else _COLUMN, min(longest, width // 4))


def _number(value: float) -> str:
    return decibans(value).removesuffix(" dB") if value else "-"


def _plain(value: float) -> str:
    return numeral(round(abs(value), 2), "g")
