"""The rules: what is loaded and from which file, what fired in the case in hand, and every entry in words."""

import os
import shlex
import subprocess
from functools import partial
from typing import ClassVar

from textual.app import ComposeResult, SuspendNotSupported
from textual.containers import Horizontal, VerticalScroll
from textual.message import Message
from textual.widgets import Input, Label, OptionList, Select, Static
from textual.widgets.option_list import Option

from diagnose.diagnosis import Diagnosis
from diagnose.language import _, ngettext
from diagnose.report.rulebook.page import Link
from diagnose.report.rulebook.page import Page as EntryPage
from diagnose.report.rulebook.pages import Pages, tables
from diagnose.rulebase.rulebase import RuleBase
from diagnose.screens.page import Page
from diagnose.screens.rows import Rows
from diagnose.screens.rule_links import RuleLinks, named_in
from diagnose.screens.rule_page import page_said
from diagnose.screens.rule_search import FROM, Found, Wanted, find, fired_ids, kind_said, row_said


class RulesScreen(Page[None]):
    """Search and filters above, entries on one side, the chosen entry in words on the other."""

    PLACE = "rules"
    CSS = """
    RulesScreen #filters { height: 4; padding: 1 2 0 2; }
    RulesScreen #filters Input { width: 1fr; }
    RulesScreen #filters Select { width: 22; }
    RulesScreen #filters Select { margin: 1 0 0 2; }
    RulesScreen #filters Select > SelectCurrent { background: $background; background-tint: transparent; padding: 0 1; }
    RulesScreen #filters Select:focus > SelectCurrent { background: $selected; text-style: bold; }
    RulesScreen #filters SelectOverlay { border: round $line; background: $background; width: 40; }
    RulesScreen.-narrow #filters Select { margin: 0; }
    RulesScreen #count { padding: 0 3; color: $muted; }
    RulesScreen #middle { height: 1fr; }
    RulesScreen #entries { width: 50; height: 100%; padding: 0 1; }
    RulesScreen #entry-text { max-width: 82; }
    RulesScreen #entry { width: 1fr; padding: 0 2; border-left: solid $line; }
    RulesScreen.-widest #entries { width: 70; }
    RulesScreen.-narrow #filters { height: 4; padding: 0 2; layout: grid; grid-size: 3; grid-rows: 3 1; }
    RulesScreen.-narrow #filters Input { column-span: 3; width: 100%; }
    RulesScreen.-narrow #filters Select { width: 100%; }
    RulesScreen.-narrow #middle { layout: vertical; }
    RulesScreen.-narrow #entries { width: 100%; height: 5; }
    RulesScreen.-narrow.-tall #entries { height: 10; }
    RulesScreen.-narrow #entry { width: 100%; height: 1fr; border-left: none; border-top: solid $line; }
    """
    AUTO_FOCUS: ClassVar[str] = "#entries"

    class Read(Message):
        """The rules were read (again)."""

        def __init__(self, base: RuleBase, *, again: bool) -> None:
            super().__init__()
            self.base, self.again = base, again

    def __init__(self, entry: tuple[str, str] | None = None) -> None:
        super().__init__()
        self._entry = entry
        self._base: RuleBase | None = None
        self._pages: Pages | None = None
        self._found: list[Found] = []
        self._page: EntryPage | None = None

    def compose(self) -> ComposeResult:
        """Lay the screen out."""
        yield from self.heading(_("Rules"), _("reading them …"))
        with Horizontal(id="filters"):
            yield Input(placeholder=_("search words, ids, sources"), id="search", max_length=80)
            yield Select([], prompt=_("every kind"), id="kind", compact=True)
            yield Select([], prompt=_("every cause"), id="cause", compact=True)
            origins = [(_(said), key) for key, said in FROM.items()]
            yield Select(origins, prompt=_("from anywhere"), id="from", compact=True)
        yield Label(markup=False, id="count")
        with Horizontal(id="middle"):
            yield Rows(id="entries")
            with VerticalScroll(id="entry"):
                yield Static(markup=False, id="entry-text")
        yield self.foot()

    def on_mount(self) -> None:
        """Take the rules, waiting for them in the background if need be."""
        self.run_worker(partial(self._read, again=False), thread=True, exclusive=True, group="read")

    def _read(self, *, again: bool) -> None:
        loader = self.desk.loader
        rules = loader.reload() if again else loader.get()
        self.post_message(self.Read(rules.base, again=again))

    def on_rules_screen_read(self, message: Read) -> None:
        """Show the rules; after reading again, say how it went."""
        base = self._base = message.base
        self._pages = Pages(base)
        files = len(base.files)
        counted = (
            ngettext("{count} file", "{count} files", files).format(count=files),
            _entries_said(sum(map(len, tables(base).values()))),
        )
        self.retitle(_("Rules"), ", ".join(counted))
        self._offer("kind", [(kind_said(kind), kind) for kind, entries in tables(base).items() if entries])
        self._offer("cause", [(cause.name, cause.id) for cause in base.causes.values()])
        self._list()
        if message.again:
            count = len(base.problems)
            faults = ngettext("{count} fault, listed first.", "{count} faults, listed first.", count)
            self.notify(
                faults.format(count=count) if count else _("All files read, no faults."), markup=False
            )

    def on_resize(self) -> None:
        """Use the width there is."""
        self.call_after_refresh(self._list)

    def on_input_changed(self) -> None:
        """Search as it is typed."""
        self._list()

    def on_input_submitted(self) -> None:
        """Go on to what was found."""
        self.query_one("#entries").focus()

    def on_select_changed(self) -> None:
        """Filter."""
        self._list()

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Go on into the entry, to read it or to go to one that it names."""
        if event.option_list.id == "entries":
            self.query_one("#entry").focus()

    def on_option_list_option_highlighted(self, event: OptionList.OptionHighlighted) -> None:
        """Show the entry that is stood at in words."""
        if event.option_list.id == "entries" and event.option_index < len(self._found):
            self._show(self._found[event.option_index])

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Letters are keys only while no text is typed."""
        del parameters
        typing = isinstance(self.focused, Input)
        return not (typing and action in ("search", "reload", "edit", "go_to"))

    def on_descendant_focus(self) -> None:
        """Keep the line of keys true."""
        self.refresh_bindings()

    def action_search(self) -> None:
        """Type a few letters to search."""
        self.query_one("#search").focus()

    def action_reload(self) -> None:
        """Read all files again."""
        self.run_worker(partial(self._read, again=True), thread=True, exclusive=True, group="read")

    def action_edit(self) -> None:
        """Open the entry's file in the grower's editor."""
        here = self.query_one("#entries", OptionList).highlighted
        found = self._found[here] if here is not None and here < len(self._found) else None
        editor = os.environ.get("VISUAL") or os.environ.get("EDITOR")
        if found is None or found.file is None:
            self.notify(_("There is no file behind this row."), markup=False)
        elif not editor:
            said = _("No editor is set ($VISUAL or $EDITOR). The file is {file}.").format(file=found.file)
            self.notify(said, markup=False, timeout=10)
        else:
            self._open_in(editor, found.file)

    def _open_in(self, editor: str, file: str) -> None:
        """Open a file in an editor, and read the rules again afterwards; say so where that cannot be done."""
        said = ""
        try:
            with self.app.suspend():
                said = _run(editor, file)
        except SuspendNotSupported:
            said = _(
                "No editor can be opened from here, as in a browser. The file is {file}, on the computer that "
                "runs this program. R reads it again when it was changed."
            ).format(file=file)
        if said:
            self.notify(said, markup=False, timeout=15)
        else:
            self.action_reload()

    def action_go_to(self) -> None:
        """Choose among the entries that this one names."""
        named = named_in(self._page, self._base) if self._page and self._base else {}
        if named:
            self.app.push_screen(RuleLinks(named), self._go_to)
        else:
            self.notify(_("This entry names no other."), markup=False)

    def _go_to(self, link: Link | None) -> None:
        if link is not None:
            self.action_show_entry(link.table, link.id)

    def action_back(self) -> None:
        """From the search or the entry to the list; from the list back."""
        if isinstance(self.focused, Input | VerticalScroll):
            self.query_one("#entries").focus()
        else:
            self.dismiss()

    def action_show_entry(self, table: str, entry_id: str) -> None:
        """Go to an entry that another one names; filters that would hide it are taken away."""
        self._entry = (table, entry_id)
        with self.prevent(Input.Changed, Select.Changed):
            self.query_one("#search", Input).clear()
            for select in self.query(Select):
                select.clear()
        self._list()

    def _offer(self, select: str, options: list[tuple[str, str]]) -> None:
        widget: Select[str] = self.query_one(f"#{select}", Select)
        chosen = widget.value
        with self.prevent(Select.Changed):
            widget.set_options(options)
            if chosen in [value for _, value in options]:
                widget.value = chosen

    def _list(self) -> None:
        if self._base is None:
            return
        kind, cause, origin = (
            self.query_one(f"#{name}", Select).selection or "" for name in ("kind", "cause", "from")
        )
        wanted = Wanted(self.query_one("#search", Input).value, kind, cause, origin)
        fired = fired_ids(self._diagnosis())
        self._found = find(self._base, wanted, fired)
        entries = self.query_one("#entries", OptionList)
        entries.clear_options()
        width = max(entries.size.width - 4, 30)
        entries.add_options([Option(row_said(found, fired, width)) for found in self._found])
        count = len([found for found in self._found if found.entry])
        self.query_one("#count", Label).update(_entries_said(count) if count else _("no entries"))
        places = [n for n, found in enumerate(self._found) if (found.table, found.id) == self._entry]
        entries.highlighted = places[0] if places else 0 if self._found else None
        if not self._found:
            self.query_one("#entry-text", Static).update(_("Nothing fits; take a letter or a filter away."))

    def _show(self, found: Found) -> None:
        text = self.query_one("#entry-text", Static)
        if self._pages is None or found.entry is None:
            self._page = None
            text.update(found.text)
            return
        self._entry = (found.table, found.id)
        self._page = self._pages.of(found.table, found.entry)
        text.update(page_said(self._page))
        self.query_one("#entry", VerticalScroll).scroll_home(animate=False)

    def _diagnosis(self) -> Diagnosis | None:
        from diagnose.screens.questions import QuestionsScreen  # noqa: PLC0415

        cases = [screen for screen in self.app.screen_stack if isinstance(screen, QuestionsScreen)]
        return cases[-1].questionnaire.diagnosis if cases else None


def _run(editor: str, file: str) -> str:
    """Run an editor until it is left; return what went wrong in a sentence, or nothing."""
    try:
        subprocess.run([*shlex.split(editor), file], check=False)  # noqa: S603 - the grower's own choice
    except (OSError, ValueError):  # ValueError: quotes that are never closed
        return _(
            "The editor {editor} could not be started; $VISUAL or $EDITOR has to name one that is there. "
            "The file is {file}."
        ).format(editor=editor, file=file)
    return ""


def _entries_said(count: int) -> str:
    return ngettext("{count} entry", "{count} entries", count).format(count=count)
