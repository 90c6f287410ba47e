"""Find anything by a few letters: actions, questions, causes, rules and cases."""

from collections.abc import Callable, Iterator
from functools import partial

from textual.command import DiscoveryHit, Hit, Hits, Provider
from textual.content import Content

from diagnose.report.rulebook.pages import tables
from diagnose.screens.actions import ACTIONS, EVERYWHERE
from diagnose.screens.page import Page
from diagnose.screens.questions import QuestionsScreen
from diagnose.screens.rule_search import gist
from diagnose.screens.shelf import demo_cases, own_cases

Entry = tuple[str, str, Callable[[], object]]
"""What is searched and shown, what kind of thing it is, and what choosing it does."""
LIMIT = 200
"""Hits of one search: more than anyone reads."""


class Everything(Provider):
    """The only provider of the palette."""

    async def startup(self) -> None:
        """Gather what can be found from where we are."""
        self._entries = [*self._actions(), *self._questions(), *self._rules(), *self._cases()]

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

    def _actions(self) -> Iterator[Entry]:
        screen = self.screen
        place = screen.PLACE if isinstance(screen, Page) else ""
        for action in ACTIONS:
            if action.where in (EVERYWHERE, place) and action.name != "command_palette":
                yield action.what, "action", partial(screen.run_action, action.name)

    def _questions(self) -> Iterator[Entry]:
        open_case = self._open_case()
        if open_case is None:
            return
        for item in open_case.questionnaire.items:
            yield (
                item.question.text,
                f"question, {item.state}",
                partial(self._go_to, open_case, item.question.id),
            )

    def _rules(self) -> Iterator[Entry]:
        app = self.app
        loaded = app.loader.loaded  # type: ignore[attr-defined]  # DiagnoseApp, which imports this module late
        if loaded is None:
            return
        for table, entries in tables(loaded.base).items():
            if table in ("cause", "evidence", "rule", "plant", "advice"):
                for entry in entries.values():
                    yield gist(entry), f"{table} {entry.id}", partial(app.open_rules, (table, entry.id))  # type: ignore[attr-defined]

    def _cases(self) -> Iterator[Entry]:
        for case in own_cases():
            yield case.title, "your case", partial(self.app.open_case, case.path)  # type: ignore[attr-defined]
        for case in demo_cases():
            yield case.title, "example", partial(self.app.open_case, case.path, reasons_first=True)  # type: ignore[attr-defined]

    def _open_case(self) -> QuestionsScreen | None:
        cases = [screen for screen in self.app.screen_stack if isinstance(screen, QuestionsScreen)]
        return cases[-1] if cases else None

    def _go_to(self, case: QuestionsScreen, question: str) -> None:
        while self.app.screen is not case:
            self.app.pop_screen()
        case.go_to(question)
