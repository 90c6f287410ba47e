"""How sure: other weights, the answers it hangs on, what pulls two ways, and what each probable cause explains."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from textual.content import Content

from diagnose.language import _, ngettext, numeral
from diagnose.questionnaire.said import answer_said
from diagnose.ranking import RankedCause
from diagnose.reasoning.conflicts import Conflicts
from diagnose.reasoning.firmness import JITTERS, SPREAD, Firmness, Without
from diagnose.reasoning.several import Explains, Several, Sign
from diagnose.report.page import interval_db
from diagnose.report.words import decibans, lower_first, percent, with_house
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
        yield heading(_("How sure: the first place is {word}").format(word=_(firm.word)), width, first=True)
        said = _(
            "Of {count} rankings with every weight shaken by about {spread}, {first} keep {cause} first and "
            "{in_two} keep it among the first two."
        ).format(
            count=numeral(JITTERS, ","),
            spread=percent(SPREAD),
            cause=lower_first(first.name),
            first=percent(firm.stays_first),
            in_two=percent(firm.stays_in_two),
        )
        shares = ((_("first"), firm.stays_first), (_("first two"), firm.stays_in_two))
        room = max(10, *(1 + len(what) for what, _value in shares))
        yield Entry(stacked(*(_share(f"{what:<{room}}", share) for what, share in shares)), apart=True)
        yield remark(said, width, "$foreground")
        if second is not None:
            text = _("It leads {cause} by {lead}.")
            if firm.lead_db < CLOSE_DB:
                text = _("It leads {cause} by {lead}, which is too close to call (less than {least} dB).")
            lead = {"lead": decibans(firm.lead_db).lstrip("+"), "least": numeral(CLOSE_DB, "g")}
            yield remark(text.format(cause=lower_first(second.name), **lead), width, "$foreground")
        yield heading(_("Where each could lie"), width)
        yield remark(_("Nine in ten rankings, were each weight as far off as such estimates are."), width)
        for ranked in ranking.causes[:MOST_CAUSES]:
            yield Entry(Content.styled(_span(ranked, width), "$foreground"), apart=True)

    def _hangs_on(self, firm: Firmness, width: int) -> Iterable[Entry]:
        weighty = [one for one in firm.without if one.lead_db < firm.lead_db][:MOST_ANSWERS]
        yield heading(_("The answers it hangs on most"), width)
        if not weighty:
            yield remark(_("No single answer: without any one of them the lead would be as large."), width)
        else:
            yield remark(_("What would be left of the lead without each. Enter goes to the question."), width)
        yield from (self._without(one, width) for one in weighty)

    def _without(self, one: Without, width: int) -> Entry:
        asked = self.case_in_hand
        base, ranking = asked.diagnosis.base, asked.diagnosis.ranking
        answer = answer_said(asked.case, base, one.question, self.desk.settings.units)
        left = _left(one.lead_db)
        if one.first != ranking.first.id:
            text = _("{left}, and {cause} would be first")
            left = text.format(left=left, cause=lower_first(base.causes[one.first].name))
        told = hung("  ", f"{one.question.text} {answer}", width)
        return Entry(stacked(told, hung("    ", left, width, "$muted")), question=one.question.id)

    def _conflicts(self, conflicts: Conflicts, width: int) -> Iterable[Entry]:
        yield heading(_("What pulls two ways"), width)
        if not conflicts.contradictions and not conflicts.both_ways:
            nothing = _(
                "Nothing: no answers contradict each other, and no cause has strong reasons both ways."
            )
            yield remark(nothing, width)
        base = self.case_in_hand.diagnosis.base
        for one in conflicts.contradictions:
            questions = [
                fact.partition(".")[0] for fact in one.facts if fact.partition(".")[0] in base.questions
            ]
            behind = next(iter(questions), None)
            said = _("Look again: {what}").format(what=with_house(one.text, house=one.house))
            yield Entry(hung("  ", said, width, indent=4), question=behind)
        for both in conflicts.both_ways:
            said = _("{cause} has strong reasons both ways:").format(cause=both.cause.name)
            yield Entry(hung("  ", said, width, indent=4), cause=both.cause.id)
            for line in (*both.lines_for[:2], *both.lines_against[:2]):
                yield remark_at(f"{decibans(line.decibans)}  {line.text}", width)

    def _several(self, several: Several, width: int) -> Iterable[Entry]:
        yield heading(_("What each likely cause explains"), width)
        if not several.probable:
            yield remark(_("No cause is likelier than not, so none explains much."), width)
        for one in several.probable:
            yield from _explained(one, len(several.probable) > 1, width)
        if several.unexplained:
            yield heading(_("What none of the likely causes explains"), width)
            yield from (_sign(sign, self._behind(sign), width) for sign in several.unexplained[:MOST_SIGNS])
            yield from _more(len(several.unexplained), width)
        if several.silent:
            title = _("Answers that speak for or against no cause: {count}")
            yield heading(title.format(count=len(several.silent)), width)
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
    return Content.assemble(f"  {what}", bar, f"  {percent(share)}")


def _span(ranked: RankedCause, width: int) -> str:
    low, high = (percent(probability(score)) for score in interval_db(ranked))
    said = _("{now}  {low} to {high}")
    said = said.format(now=f"{percent(ranked.probability):>5}", low=f"{low:>5}", high=f"{high:>5}")
    return columns(f"  {ranked.name}", said, width)


def _left(lead_db: float) -> str:
    if not lead_db:
        return _("without it there would be no lead")
    text = (
        _("without it it would trail by {lead}") if lead_db < 0 else _("without it it would lead by {lead}")
    )
    return text.format(lead=decibans(abs(lead_db)).lstrip("+"))


def _explained(one: Explains, several: bool, width: int) -> Iterable[Entry]:
    text = ngettext("{cause} ({percent}): {count} sign", "{cause} ({percent}): {count} signs", len(one.signs))
    if several:
        text = ngettext(
            "{cause} ({percent}): {count} sign, {alone} of them explained by no other likely cause",
            "{cause} ({percent}): {count} signs, {alone} of them explained by no other likely cause",
            len(one.signs),
        )
    said = text.format(
        cause=one.cause.name,
        percent=percent(one.cause.probability),
        count=len(one.signs),
        alone=len(one.alone),
    )
    yield Entry(hung("  ", said, width, indent=4), cause=one.cause.id)
    yield from (
        remark_at(f"- {sign.text}", width) for sign in (one.alone if several else one.signs)[:MOST_SIGNS]
    )


def _sign(sign: Sign, question: str | None, width: int) -> Entry:
    return Entry(hung("  ", sign.text, width, indent=4), question=question, apart=question is None)


def _more(count: int, width: int) -> Iterable[Entry]:
    if count > MOST_SIGNS:
        yield remark("  " + _("and {count} more").format(count=count - MOST_SIGNS), width)
