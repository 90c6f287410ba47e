"""The ranking with its reasons: causes on one side, pages about the chosen one on the other."""

from collections.abc import Callable
from typing import ClassVar

from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.widgets import ContentSwitcher, Label, OptionList, Static
from textual.widgets.option_list import Option

from diagnose.language import _, ngettext
from diagnose.questionnaire import Questionnaire
from diagnose.report.words import heading, verdict
from diagnose.screens.page import Page
from diagnose.screens.ranking_panel import rank_row
from diagnose.screens.reasoner import Reasoner
from diagnose.screens.rows import Rows
from diagnose.screens.sections import SECTIONS, ChooseCause, GoTo, Section
from diagnose.screens.sections.reasons import ReasonsSection


class ReviewScreen(Page[str | None]):
    """Gives the id of a question to go to, or None."""

    PLACE = "review"
    CSS = """
    ReviewScreen #verdict { padding: 1 2 0 2; text-style: bold; width: 100%; height: auto; }
    ReviewScreen #left-out { padding: 0 2; width: 100%; height: auto; color: $against; }
    ReviewScreen #middle { height: 1fr; padding-top: 1; }
    ReviewScreen #causes { width: 54; height: 100%; padding: 0 1; }
    ReviewScreen #pages { width: 1fr; padding: 0 1 0 2; border-left: solid $line; }
    ReviewScreen #titles { height: 2; }
    ReviewScreen .page-title { color: $muted; margin-right: 1; width: auto; }
    ReviewScreen .page-title.-current { color: $foreground; text-style: bold underline; }
    ReviewScreen.-wide #titles { height: 3; layout: grid; grid-size: 4 2; grid-rows: 1; grid-gutter: 0 1; }
    ReviewScreen ContentSwitcher { height: 1fr; }
    ReviewScreen.-widest #causes { width: 66; }
    ReviewScreen.-widest #titles { height: 2; layout: horizontal; }
    ReviewScreen.-widest .page-title { margin-right: 2; }
    ReviewScreen.-narrow #middle { layout: vertical; padding-top: 0; }
    ReviewScreen.-narrow #verdict { padding: 0 2; }
    ReviewScreen.-narrow #causes { width: 100%; height: 5; }
    ReviewScreen.-narrow.-tall #causes { height: 9; }
    ReviewScreen.-narrow #pages { width: 100%; height: 1fr; border-left: none; border-top: solid $line; padding: 0 1; }
    ReviewScreen.-narrow #titles { height: 1; }
    ReviewScreen.-narrow.-about-case #causes { display: none; }
    ReviewScreen.-narrow.-short ReasonsSection #hint { display: none; }
    """
    AUTO_FOCUS: ClassVar[str] = "#causes"

    def __init__(self, asked: Questionnaire) -> None:
        super().__init__()
        self._asked = asked
        self._cause = asked.diagnosis.ranking.first.id
        self.reasoner = Reasoner(asked.diagnostician, asked.diagnosis)
        """What the pages ask; a new one for every diagnosis."""

    def compose(self) -> ComposeResult:
        """Lay the screen out."""
        yield from self.heading(heading(self._asked.diagnosis), _("Ranking and reasons"))
        yield Label(markup=False, id="verdict")
        yield Label(markup=False, id="left-out")
        with Horizontal(id="middle"):
            yield Causes(self._list, id="causes")
            with Vertical(id="pages"):
                with Horizontal(id="titles"):
                    for number, named in enumerate(SECTIONS, start=1):
                        yield PageTitle(named.id, number, _(named.title))
                with ContentSwitcher(initial=SECTIONS[0].id):
                    for named in SECTIONS:
                        page = named.make()
                        page.id = named.id
                        yield page
        yield self.foot()

    def on_mount(self) -> None:
        """Show the ranking, and follow it."""
        self.desk.weighed.subscribe(self, lambda _nothing: self._show())
        self._show()
        self.open_page(SECTIONS[0].id)

    def on_option_list_option_highlighted(self, event: OptionList.OptionHighlighted) -> None:
        """Show the pages of the cause that is stood at."""
        if event.option_list.id == "causes" and event.option_id and event.option_id != self._cause:
            self._cause = event.option_id
            self._show_page()

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Go on into the page of the chosen cause."""
        if event.option_list.id == "causes":
            self.action_focus_page()

    def on_choose_cause(self, message: ChooseCause) -> None:
        """Show another cause on the same page."""
        causes = self.query_one("#causes", OptionList)
        causes.highlighted = causes.get_option_index(message.cause)

    def on_go_to(self, message: GoTo) -> None:
        """Go to a question."""
        self.dismiss(message.question)

    def open_page(self, page: str) -> None:
        """Turn to a page; those about the case as a whole are gone into at once."""
        self._page.leave()
        self.query_one(ContentSwitcher).current = page
        for title in self.query(PageTitle):
            title.set_class(title.page == page, "-current")
        about_cause = self._page.ABOUT_CAUSE
        back_to_causes = about_cause and self.has_class("-about-case")
        self.set_class(not about_cause, "-about-case")
        self._show_page()
        if back_to_causes:
            self.call_after_refresh(self.query_one("#causes").focus)
        elif not about_cause or (self.focused is not None and self.focused.id != "causes"):
            self.call_after_refresh(self.action_focus_page)

    def action_focus_page(self) -> None:
        """Move into the page that shows, if there is anything to choose there."""
        inner = [widget for widget in self._page.query("*") if widget.focusable]
        if inner:
            inner[0].focus()

    def on_screen_suspend(self) -> None:
        """Let go of work whose page does not show."""
        self._page.leave()

    def on_screen_resume(self) -> None:
        """Take it up again."""
        self._page.come_back()

    def action_show_page(self, page: str) -> None:
        """Turn to a page by its number."""
        self.open_page(page)

    def action_section(self, by: int) -> None:
        """Turn to the page after or before."""
        ids = [named.id for named in SECTIONS]
        here = ids.index(self.query_one(ContentSwitcher).current or ids[0])
        self.open_page(ids[(here + by) % len(ids)])

    def action_open_all(self) -> None:
        """Open or close all the reasons."""
        self.open_page("reasons")
        self.query_one(ReasonsSection).open_all()

    def action_name_case(self) -> None:
        """Give the case a name."""
        from diagnose.screens.line import LineScreen  # noqa: PLC0415

        hint = _("such as Juniper, winter loss")
        self.app.push_screen(LineScreen(_("Name of this case"), hint, self._asked.case.title), self._rename)

    def action_rules(self) -> None:
        """See the rules, at the chosen cause."""
        self.desk.open_rules(("cause", self._cause))

    def action_back(self) -> None:
        """Go back."""
        self.dismiss(None)

    def _rename(self, title: str | None) -> None:
        if title is not None:
            self._asked.rename(title)
            self.retitle(title or heading(self._asked.diagnosis), _("Ranking and reasons"))

    def _show(self) -> None:
        diagnosis = self._asked.diagnosis
        self.query_one("#verdict", Label).update(verdict(diagnosis))
        left_out = self.query_one("#left-out", Label)
        files = len({problem.file for problem in diagnosis.base.problems})
        text = ngettext(
            "Ranked without {count} faulty rule file; R shows which.",
            "Ranked without {count} faulty rule files; R shows which.",
            files,
        )
        left_out.update(text.format(count=files))
        left_out.display = bool(files)
        if self._cause not in diagnosis.base.causes:
            self._cause = diagnosis.ranking.first.id
        if self.reasoner.diagnosis is not diagnosis:
            self.reasoner = Reasoner(self._asked.diagnostician, diagnosis)
        self._list()
        self._show_page()

    def _list(self) -> None:
        causes = self.query_one("#causes", OptionList)
        if not causes.size.width:  # drawn as soon as it is known
            return
        width = max(causes.scrollable_content_region.width - 2, 30)
        ranking = self._asked.diagnosis.ranking.causes
        chosen = self._cause
        with self.prevent(OptionList.OptionHighlighted):
            causes.clear_options()
            causes.add_options([Option(rank_row(ranked, width), id=ranked.id) for ranked in ranking])
            causes.highlighted = causes.get_option_index(chosen)

    @property
    def _page(self) -> Section:
        return self.query_one(f"#{self.query_one(ContentSwitcher).current}", Section)

    def _show_page(self) -> None:
        self._page.show(self._asked, self._cause)


class Causes(Rows):
    """The ranking; tells when its width is known, and when it changes."""

    def __init__(self, fit: Callable[[], None], *, id: str) -> None:  # noqa: A002 - Textual's own word
        super().__init__(id=id)
        self._fit = fit
        self._fitted = 0

    def on_resize(self) -> None:
        """Use the width there is."""
        if self.size.width != self._fitted:
            self._fitted = self.size.width
            self._fit()


class PageTitle(Static):
    """A page's number and title; its digit or a click turns to it."""

    def __init__(self, page: str, number: int, title: str) -> None:
        super().__init__(Content.assemble((f"{number} ", "$accent"), title), classes="page-title")
        self.page = page

    def on_click(self) -> None:
        """Turn to the page."""
        screen = self.screen
        if isinstance(screen, ReviewScreen):
            screen.open_page(self.page)
