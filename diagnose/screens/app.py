"""The application: colours, rules in the background, and the way from one screen to the next."""

import datetime as dt
import os
from collections.abc import Callable, Iterable, Sequence
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, ClassVar

from textual.app import App
from textual.binding import Binding, BindingType
from textual.screen import Screen
from textual.signal import Signal
from textual.worker import get_current_worker

from diagnose import locations
from diagnose.language import _, speak, spoken
from diagnose.screens.actions import key_said
from diagnose.screens.loading import RuleLoader
from diagnose.screens.page import Page
from diagnose.screens.start import StartScreen
from diagnose.screens.themes import COLOURS, THEMES

if TYPE_CHECKING:
    from diagnose.language import BrokenFile
    from diagnose.problems import Problem
    from diagnose.screens.opening import Opened
    from diagnose.settings import Settings


def _calendar_day() -> dt.date:
    return dt.date.today()  # noqa: DTZ011 - the grower's own calendar day


class DiagnoseApp(App[None]):
    """The screens.

    `house` are folders of house rules, `case` a case file to open at once, `journal` another journal's file.
    """

    TITLE = "diagnose"
    CSS = (
        """
    Screen { padding: 0; }
    .heading { height: 2; padding: 0 2; border-bottom: solid $line; }
    .heading-right { width: auto; color: $muted; }
    .heading-left { width: 1fr; text-style: bold; text-wrap: nowrap; text-overflow: ellipsis; }
    .muted { color: $muted; }
    .problem { color: $against; }
    OptionList, OptionList:focus { background: $background; background-tint: transparent; border: none; padding: 0; }
    OptionList > .option-list--option { padding: 0 1; }
    OptionList > .option-list--option-disabled { color: $muted; }
    Input, Input:focus { background: $background; background-tint: transparent; border: round $line; height: 3; }
    Input:focus { border: round $accent; }
    Input > .input--placeholder { color: $muted; }
    CommandPalette SearchIcon { display: none; }
    CommandPalette > Vertical { width: 92; max-width: 96%; }
    CommandPalette #--input { border: round $line; background: $background; }
    CommandPalette CommandList, CommandPalette CommandList:focus {
        border: round $line; background: $background; padding: 0 1;
    }
    CommandPalette CommandInput, CommandPalette CommandInput:focus { border: none; height: 1; padding: 0 1; }
    ToastRack { align-horizontal: right; }
    Toast { background: $selected; padding: 0 1; width: 50; }
    VerticalScroll { scrollbar-size-vertical: 1; }
    OptionList { scrollbar-size-vertical: 1; }
    OptionList:ansi > .option-list--option-highlighted { text-style: underline; }
    Rows:ansi:focus > .option-list--option-highlighted { text-style: reverse; }
    Rows:nocolor:focus > .option-list--option-highlighted { text-style: reverse; }
    """
        + StartScreen.CSS  # a default screen's own CSS is not read otherwise
    )
    COMMAND_PALETTE_BINDING = "f2"
    HORIZONTAL_BREAKPOINTS = [(0, "-narrow"), (110, "-wide"), (150, "-widest")]  # noqa: RUF012 - as Textual declares it
    VERTICAL_BREAKPOINTS = [(0, "-short"), (30, "-tall")]  # noqa: RUF012
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("f10", "leave", show=False, priority=True)  # from windows too, which stop other keys
    ]

    def __init__(
        self,
        house: Sequence[Path],
        case: Path | None,
        *,
        journal: Path | None = None,
        today: Callable[[], dt.date] = _calendar_day,
    ) -> None:
        no_color = bool(os.environ.get("NO_COLOR"))
        super().__init__(ansi_color=True if no_color else None)
        self.loader = RuleLoader(house)
        self.journal = journal or locations.journal()
        self.today = today
        self.weighed: Signal[None] = Signal(self, "weighed")
        """Told whenever the case in hand has a new diagnosis."""
        self.written: Signal[None] = Signal(self, "written")
        """Told whenever something was written to the journal."""
        self._case = case
        self._settings: Settings | None = None
        for theme in THEMES:
            self.register_theme(theme)
        self.theme = (
            "plain" if no_color else self.settings.colours if locations.settings().exists() else "dark"
        )

    @property
    def settings(self) -> "Settings":
        """What the grower chose once; read when first asked for."""
        if self._settings is None:
            from diagnose.settings import read_settings  # noqa: PLC0415 - most first screens need none

            self._settings, problems = read_settings(locations.settings())
            if problems:
                self.call_after_refresh(self.tell, problems)
        return self._settings

    def change_settings(self, **chosen: str) -> None:
        """Change settings and save them."""
        from diagnose.settings import Settings, write_settings  # noqa: PLC0415

        self._settings = Settings.model_validate(self.settings.model_dump() | chosen)
        self.tell(write_settings(locations.settings(), self._settings), rest=False)

    def next_colours(self) -> None:
        """Change to the next set of colours."""
        if self.no_color:
            self.notify(_("NO_COLOR is set, so the screens stay without colour."), markup=False)
            return
        chosen = COLOURS[(COLOURS.index(self.theme) + 1) % len(COLOURS)]
        self.theme = chosen
        self.change_settings(colours=chosen)

    def next_order(self) -> None:
        """Change the order in which questions come."""
        telling = self.settings.order == "subject"
        self.change_settings(order="telling" if telling else "subject")
        said = (
            _("Questions now come the most telling first.")
            if telling
            else _("Questions now come subject by subject.")
        )
        self.notify(said, markup=False)

    def change_language(self, language: str) -> None:
        """Speak a language from now on. All is begun anew in it, the rules too, at the question that was in hand."""
        self.change_settings(language=language)
        if language == spoken():
            return

        def prepare() -> None:
            broken = speak(language)
            self.loader.reload()
            self.call_from_thread(self._begin_again, broken)

        self.notify(_("Reading the rules …"), markup=False)
        self.run_worker(prepare, thread=True, exclusive=True, group="open")

    def _begin_again(self, broken: "Iterable[BrokenFile]") -> None:
        from diagnose.problems import untranslated  # noqa: PLC0415 - slow imports go with the slow work
        from diagnose.screens.questions import QuestionsScreen  # noqa: PLC0415

        self.clear_notifications()
        open_again: Callable[[], None] | None = None
        while not isinstance(screen := self.screen, StartScreen):
            if isinstance(screen, QuestionsScreen):
                at = screen.questionnaire.current
                open_again = partial(
                    self._open_again, screen.opened, at.id if at else None, reasons_first=screen.reasons_first
                )
                screen.leave()
            else:
                self.pop_screen()
        screen.call_next(screen.say_again)
        if open_again:
            open_again()
        self.tell([untranslated(file) for file in broken])

    def _open_again(self, opened: "Opened", at: str | None, *, reasons_first: bool) -> None:
        kept = opened.questionnaire.path
        if opened.record:
            self.open_plant_case(opened.record.plant_id)
        else:
            self.open_case(kept if kept.exists() else opened.file, at=at, reasons_first=reasons_first)

    def get_default_screen(self) -> Screen[None]:
        """Return the first screen; it waits for nothing."""
        return StartScreen()

    def on_ready(self) -> None:
        """Open the case the app was started with."""
        if self._case is not None:
            self.open_case(self._case)

    def open_case(self, path: Path | None, *, at: str | None = None, reasons_first: bool = False) -> None:
        """Show a case, or a new one: at a question, or the ranking first. The next request takes over from this one."""

        def prepare() -> None:
            from diagnose.problems import BadInputError  # noqa: PLC0415 - slow imports go with the slow work
            from diagnose.screens.opening import open_case  # noqa: PLC0415
            from diagnose.screens.questions import QuestionsScreen  # noqa: PLC0415

            worker = get_current_worker()
            try:
                opened = open_case(self.loader, path, self.today(), at=at, copied=self._tell_copied)
            except BadInputError as error:
                self.call_from_thread(self.tell, error.problems, rest=False)
                return
            if not worker.is_cancelled:
                self.call_from_thread(
                    self._show_screen, lambda: QuestionsScreen(opened, reasons_first=reasons_first)
                )

        self.run_worker(prepare, thread=True, exclusive=True, group="open")

    def open_rules(self, entry: tuple[str, str] | None = None) -> None:
        """Show the rules, at an entry (table, id) if one is named."""

        def prepare() -> None:
            self.loader.get()
            from diagnose.screens.rules import RulesScreen  # noqa: PLC0415 - slow imports go with the slow work

            if not get_current_worker().is_cancelled:
                self.call_from_thread(self._show_screen, lambda: RulesScreen(entry))

        self.run_worker(prepare, thread=True, exclusive=True, group="open")

    def open_collection(self) -> None:
        """Show all plants of the journal."""
        from diagnose.screens.collection import CollectionScreen  # noqa: PLC0415

        self.push_screen(CollectionScreen())

    def open_plant_case(self, plant_id: int) -> None:
        """Begin a case of a plant of the journal, or go on with its open one."""

        def prepare() -> None:
            from diagnose.problems import BadInputError  # noqa: PLC0415 - slow imports go with the slow work
            from diagnose.screens.plant_case import PlantCase  # noqa: PLC0415

            worker = get_current_worker()
            try:
                tell = partial(self.tell, rest=False)
                case = PlantCase(self.journal, self.loader.get(), plant_id, self.today(), tell)
            except BadInputError as error:
                self.call_from_thread(self.tell, error.problems, rest=False)
                return
            if not worker.is_cancelled:
                self.call_from_thread(case.show, self)

        self.run_worker(prepare, thread=True, exclusive=True, group="open")

    def _show_screen(self, make: Callable[[], Screen[None]]) -> None:
        self.push_screen(make())

    def _tell_copied(self, title: str) -> None:
        said = _("The example stays as it is. Your answers go to a copy of it among your cases: {title}")
        self.notify(said.format(title=title), markup=False)

    def tell(self, problems: "Iterable[Problem]", remark: str = "", *, rest: bool = True) -> None:
        """Show faults as their sentences, if there are any; `rest` if there is more that could be used."""
        sentences = [problem.sentence() for problem in problems]
        if sentences:
            from diagnose.screens.notice import NoticeScreen  # noqa: PLC0415

            self.push_screen(NoticeScreen(sentences, remark, rest=rest))

    def get_key_display(self, binding: Binding) -> str:
        """Return a key as it is written on keyboards."""
        return binding.key_display or key_said(binding.key)

    def action_command_palette(self) -> None:
        """Find anything; what is found is gathered only now."""
        from textual.command import CommandPalette  # noqa: PLC0415

        from diagnose.screens.palette import Everything  # noqa: PLC0415

        if not isinstance(self.screen, CommandPalette):
            hint = _("Find a question, cause, rule, case or action")
            self.push_screen(CommandPalette(providers=[Everything], placeholder=hint))

    async def action_leave(self) -> None:
        """Close what lies over the page in hand, and leave as that page does."""
        while not isinstance(self.screen, Page):
            self.pop_screen()
        await self.screen.action_quit()

    async def action_quit(self) -> None:
        """Leave; everything is on disk already."""
        self.exit()
