"""Find anything by a few letters: actions, questions, causes, rules and cases."""

from collections.abc import Callable, Iterator
from functools import partial

from textual.command import DiscoveryHit, Hit, Hits, Provider
from textual.content import Content

from diagnose.language import _, languages, marked
from diagnose.report.rulebook.pages import tables
from diagnose.screens.actions import ACTIONS, EVERYWHERE
from diagnose.screens.choose_language import own_name
from diagnose.screens.page import Page
from diagnose.screens.questions import QuestionsScreen
from diagnose.screens.rule_search import gist, kind_said
from diagnose.screens.shelf import demo_cases, own_cases

Entry = tuple[str, str, Callable[[], object]]
"""What is searched and shown, what kind of thing it is, and what choosing it does."""
LIMIT = 200
"""Hits of one search: more than anyone reads."""
_QUESTIONS = {
    "answered": marked("question, answered"),
    "not known": marked("question, not known"),
    "open": marked("question, open"),
    "skipped": marked("question, skipped"),
}


class Everything(Provider):
    """The only provider of the palette."""

    async def startup(self) -> None:
        """Gather what can be found from where we are."""
        self._entries = [
            *self._actions(),
            *self._languages(),
            *self._questions(),
            *self._rules(),
            *self._cases(),
        ]

    async def discover(self) -> Hits:
        """Show the actions before anything is typed."""
        for text, kind, do in self._actions():
            yield DiscoveryHit(Content(text), do, text=text, help=kind)

    async def search(self, query: str) -> Hits:
        """Yield what fits, best first."""
        matcher = self.matcher(query)
        hits = 0
        for text, kind, do in self._entries:
            score = matcher.match(text)
            if score > 0 and hits < LIMIT:
                hits += 1
                yield Hit(score, Content(text), do, text=text, help=kind)
        if not hits:  # else Textual says so, in English
            yield Hit(1, Content(_("Nothing is called so.")), _stay, text=query)

    def _actions(self) -> Iterator[Entry]:
        screen = self.screen
        place = screen.PLACE if isinstance(screen, Page) else ""
        for action in ACTIONS:
            if action.where in (EVERYWHERE, place) and action.name != "command_palette":
                yield _(action.what), _("action"), partial(screen.run_action, action.name)

    def _languages(self) -> Iterator[Entry]:
        for code in languages():
            text = _("Language: {name}").format(name=own_name(code))
            yield text, _("setting"), partial(self.app.change_language, code)  # type: ignore[attr-defined]  # DiagnoseApp, which imports this module late

    def _questions(self) -> Iterator[Entry]:
        open_case = self._open_case()
        if open_case is None:
            return
        for item in open_case.questionnaire.items:
            yield (
                item.question.text,
                _(_QUESTIONS[item.state]),
                partial(self._go_to, open_case, item.question.id),
            )

    def _rules(self) -> Iterator[Entry]:
        app = self.app
        loaded = app.loader.loaded  # type: ignore[attr-defined]
        if loaded is None:
            return
        for table, entries in tables(loaded.base).items():
            if table in ("cause", "evidence", "rule", "plant", "advice"):
                for entry in entries.values():
                    kind = f"{kind_said(table)} {entry.id}"
                    yield gist(entry), kind, partial(app.open_rules, (table, entry.id))  # type: ignore[attr-defined]

    def _cases(self) -> Iterator[Entry]:
        for case in own_cases():
            yield case.title, _("your case"), partial(self.app.open_case, case.path)  # type: ignore[attr-defined]
        for case in demo_cases():
            yield case.title, _("example"), partial(self.app.open_case, case.path, reasons_first=True)  # type: ignore[attr-defined]

    def _open_case(self) -> QuestionsScreen | None:
        cases = [screen for screen in self.app.screen_stack if isinstance(screen, QuestionsScreen)]
        return cases[-1] if cases else None

    def _go_to(self, case: QuestionsScreen, question: str) -> None:
        while self.app.screen is not case:
            self.app.pop_screen()
        case.go_to(question)


def _stay() -> None:
    """Nothing was found, so there is nothing to do."""
