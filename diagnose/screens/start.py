"""The first screen: start a case, go on with one, or look at an example."""

from pathlib import Path
from typing import TYPE_CHECKING, ClassVar

from textual.app import ComposeResult
from textual.content import Content
from textual.message import Message
from textual.widgets import Label, OptionList
from textual.widgets.option_list import Option
from textual.worker import get_current_worker

from diagnose.language import _, ngettext
from diagnose.screens.page import Page
from diagnose.screens.rows import Rows

if TYPE_CHECKING:
    from diagnose.problems import Problem
    from diagnose.screens.shelf import Listed

_NEW = "new"
_FILE = "file"


class StartScreen(Page[None]):
    """New case, saved cases, examples; and which rules had to be left out."""

    PLACE = "start"
    CSS = """
    StartScreen #welcome { padding: 1 2 0 2; width: 100%; max-width: 84; }
    StartScreen #cases { height: 1fr; padding: 1 1 0 1; max-width: 88; }
    StartScreen #rules-state { height: auto; max-height: 4; padding: 1 2 0 2; width: 100%; color: $muted; }
    StartScreen #rules-state.problem { color: $against; }
    """
    AUTO_FOCUS: ClassVar[str] = "#cases"

    class Shelved(Message):
        """The case files were looked through."""

        def __init__(self, own: "list[Listed]", demos: "list[Listed]") -> None:
            super().__init__()
            self.own, self.demos = own, demos

    class RulesRead(Message):
        """The rules are ready."""

        def __init__(self, count: int, problems: "tuple[Problem, ...]") -> None:
            super().__init__()
            self.count, self.problems = count, problems

    def compose(self) -> ComposeResult:
        """Lay the screen out."""
        yield from self.heading(_("Why is this plant losing its leaves?"))
        yield Label(
            _(
                "Answer what you can see; “don't know” is always a good answer. "
                "The likely causes are ranked as you go, each with its reasons."
            ),
            markup=False,
            id="welcome",
        )
        yield Rows(*_first_rows(), id="cases")
        yield Label(_("Reading the rules …"), markup=False, id="rules-state")
        yield self.foot()

    def on_mount(self) -> None:
        """Look through the case files and read the rules once the first picture stands."""
        self.query_one("#cases", OptionList).highlighted = 0
        self.call_after_refresh(self._begin)

    async def say_again(self) -> None:
        """Say all anew, in another language."""
        await self.recompose()
        self.query_one("#cases", OptionList).focus()
        self.on_mount()

    def on_screen_resume(self) -> None:
        """Show cases that were saved meanwhile."""
        if self.query_one("#cases", OptionList).option_count > len(_first_rows()):
            self.run_worker(self._look, thread=True, group="shelf", exclusive=True)

    def _begin(self) -> None:
        self.run_worker(self._look, thread=True, group="shelf", exclusive=True)
        self.run_worker(self._read, thread=True, group="rules", exclusive=True)

    def _look(self) -> None:
        from diagnose.screens.shelf import demo_cases, own_cases  # noqa: PLC0415 - after the first picture

        self.post_message(self.Shelved(own_cases(), demo_cases()))

    def _read(self) -> None:
        worker = get_current_worker()
        base = self.desk.loader.get().base
        if not worker.is_cancelled:
            self.post_message(self.RulesRead(len(base.evidence), base.problems))

    def on_start_screen_shelved(self, message: Shelved) -> None:
        """List the cases, keeping the row that was chosen."""
        cases = self.query_one("#cases", OptionList)
        chosen = cases.highlighted
        cases.clear_options()
        cases.add_options([*_first_rows(), *_rows(_("Your cases, last changed first"), message.own, "own")])
        cases.add_options(_rows(_("Examples to look at"), message.demos, "demo"))
        cases.highlighted = chosen or 0

    def on_start_screen_rules_read(self, message: RulesRead) -> None:
        """Tell what the rules are, and what had to be left out."""
        state = self.query_one("#rules-state", Label)
        if not message.problems:
            said = ngettext(
                "{count} rule weighs the evidence.", "{count} rules weigh the evidence.", message.count
            )
            state.update(said.format(count=message.count))
            return
        files = len({problem.file for problem in message.problems})
        state.add_class("problem")
        said = ngettext(
            "{count} rule file left out (R shows all): {first}",
            "{count} rule files left out (R shows all): {first}",
            files,
        )
        state.update(Content(said.format(count=files, first=message.problems[0].sentence())))

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Open what was chosen."""
        kind, _, path = (event.option_id or "").partition(":")
        if kind == _NEW:
            self.action_new_case()
        elif kind == _FILE:
            self.action_open_file()
        else:
            self._opening()
            self.desk.open_case(Path(path), reasons_first=kind == "demo")

    def action_new_case(self) -> None:
        """Start a new case with its first question."""
        self._opening()
        self.desk.open_case(None)

    def action_open_file(self) -> None:
        """Ask for a path and open the case there."""
        from diagnose.screens.line import LineScreen  # noqa: PLC0415

        asked = LineScreen(_("Path of the case file"), _("such as ~/plants/juniper.toml"))
        self.app.push_screen(asked, self._open)

    def _open(self, path: str | None) -> None:
        if path:
            self.desk.open_case(Path(path).expanduser())

    def _opening(self) -> None:
        if self.desk.loader.loaded is None:
            self.query_one("#rules-state", Label).update(_("Reading the rules; the case opens in a moment …"))

    def action_rules(self) -> None:
        """See the rules."""
        self.desk.open_rules()

    def action_collection(self) -> None:
        """See all plants of the journal."""
        self.desk.open_collection()

    def action_units(self) -> None:
        """Change between metric and imperial."""
        imperial = self.desk.settings.units == "metric"
        self.desk.change_settings(units="imperial" if imperial else "metric")
        said = (
            _("Numbers are now asked in imperial units: inches and °F.")
            if imperial
            else _("Numbers are now asked in metric units: centimetres and °C.")
        )
        self.notify(said, markup=False)

    def action_colours(self) -> None:
        """Change the colours."""
        self.desk.next_colours()

    def action_language(self) -> None:
        """Choose the language."""
        from diagnose.screens.choose_language import ChooseLanguage  # noqa: PLC0415

        self.app.push_screen(ChooseLanguage(), self._speak)

    def _speak(self, language: str | None) -> None:
        if language:
            self.desk.change_language(language)

    def action_next_order(self) -> None:
        """Change the order of questions."""
        self.desk.next_order()

    def action_back(self) -> None:
        """Nothing lies before the first screen."""


def _first_rows() -> list[Option]:
    return [
        Option(Content.assemble(("N", "$accent bold"), "  " + _("Start a new case")), id=_NEW),
        Option(Content.assemble(("O", "$accent bold"), "  " + _("Open a case file")), id=_FILE),
    ]


def _rows(title: str, cases: "list[Listed]", kind: str) -> list[Option]:
    if not cases:
        return []
    rows = [Option(Content.styled(f"\n{title}\n", "bold"), disabled=True)]
    for case in cases:
        between, end = ("\n", "\n") if kind == "demo" else (" " * max(36 - len(case.title), 2), "")
        text = Content.assemble(case.title, between, (case.detail, "$muted"), end)
        rows.append(Option(text, id=f"{kind}:{case.path}"))
    return rows
