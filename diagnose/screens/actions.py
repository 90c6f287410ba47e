"""Every action of the screens: its name, keys, where it works and what it does. Footer, help and keys read this."""

from dataclasses import dataclass

from textual.binding import Binding

from diagnose.language import _, marked, or_listed

EVERYWHERE = "everywhere"
PLACES = {
    EVERYWHERE: marked("Everywhere"),
    "start": marked("First screen"),
    "questions": marked("Answering"),
    "list": marked("List of all questions"),
    "review": marked("Ranking and reasons"),
    "rules": marked("Rules"),
    "collection": marked("Your plants"),
    "standing_out": marked("What stands out"),
    "plant": marked("One plant"),
    "counting": marked("Counting"),
}
"""Where actions work -> how that place is called."""


@dataclass(frozen=True, slots=True)
class Action:
    """One thing that can be done by a key; `name` is the method `action_<name>` that does it."""

    name: str
    keys: str
    label: str
    """One or two words for the footer, marked for translation; said by the line of keys."""
    where: str
    what: str
    """One sentence for the help screen, marked for translation."""
    footer: bool = False


ACTIONS = (
    Action("show_help", "f1", marked("Help"), EVERYWHERE, marked("Show what the keys do."), footer=True),
    Action(
        "command_palette",
        "f2",
        marked("Find"),
        EVERYWHERE,
        marked("Find a question, cause, rule, case or action by a few letters."),
    ),
    Action(
        "back",
        "escape",
        marked("Back"),
        EVERYWHERE,
        marked("Go back to where you came from. Answers are kept."),
    ),
    Action("quit", "f10", marked("Quit"), EVERYWHERE, marked("Leave. Answers are kept.")),
    Action(
        "new_case",
        "n",
        marked("New case"),
        "start",
        marked("Start a new case with its first question."),
        footer=True,
    ),
    Action(
        "open_file", "o", marked("Open file"), "start", marked("Open a case file by its path."), footer=True
    ),
    Action(
        "rules", "r", marked("Rules"), "start", marked("See the rules that rank the causes."), footer=True
    ),
    Action(
        "collection",
        "c",
        marked("Your plants"),
        "start",
        marked("See all your plants: leaves, losses, what is due."),
        footer=True,
    ),
    Action(
        "units",
        "u",
        marked("Units"),
        "start",
        marked("Change between metric (cm, °C) and imperial (in, °F)."),
    ),
    Action(
        "colours",
        "t",
        marked("Colours"),
        "start",
        marked("Change between dark, light and the terminal's own two colours."),
    ),
    Action("language", "l", marked("Language"), "start", marked("Choose the language that is spoken here.")),
    Action(
        "next_order",
        "q",
        marked("Question order"),
        "start",
        marked("Ask the most telling questions first, or subject by subject."),
    ),
    Action(
        "about",
        "f3",
        marked("How and why"),
        "questions",
        marked("How to look, why it is asked, and what each answer would tell."),
        footer=True,
    ),
    Action(
        "not_known",
        "f4",
        marked("Don't know"),
        "questions",
        marked("Say that you don't know, and go on. In lists of choices 0 does the same."),
        footer=True,
    ),
    Action(
        "before", "f5,left", marked("Before"), "questions", marked("Go to the question before."), footer=True
    ),
    Action(
        "after",
        "f6,right",
        marked("After"),
        "questions",
        marked("Go to the question after, without answering."),
    ),
    Action(
        "all_questions",
        "f7",
        marked("All questions"),
        "questions",
        marked("See all questions by subject, and go to any of them."),
    ),
    Action(
        "review",
        "f8",
        marked("Reasons"),
        "questions",
        marked("See the ranking with the reasons for every rank."),
        footer=True,
    ),
    Action("undo", "f9", marked("Undo"), "questions", marked("Take the last answer back.")),
    Action("name_case", "n", marked("Name the case"), "list", marked("Give the case a name."), footer=True),
    Action(
        "next_order",
        "o",
        marked("Order"),
        "list",
        marked("Ask the most telling questions first, or subject by subject."),
        footer=True,
    ),
    Action(
        "subject(1)", "right", marked("Next subject"), "list", marked("Go to the next subject."), footer=True
    ),
    Action(
        "subject(-1)",
        "left",
        marked("Subject before"),
        "list",
        marked("Go to the subject before."),
    ),
    Action(
        "show_page('reasons')", "1", marked("Reasons"), "review", marked("Why the chosen cause has its rank.")
    ),
    Action(
        "show_page('about')",
        "2",
        marked("About"),
        "review",
        marked("What the chosen cause is, how it looks, what settles it."),
    ),
    Action(
        "show_page('why-not')",
        "3",
        marked("Why not"),
        "review",
        marked("Why the chosen cause is not first; at the first, why no other is."),
    ),
    Action(
        "show_page('next')",
        "4",
        marked("Check next"),
        "review",
        marked("What to look at next, and what each answer would do."),
    ),
    Action(
        "show_page('what-if')",
        "5",
        marked("What if"),
        "review",
        marked("What if an answer were wrong, and what would change the first place."),
    ),
    Action(
        "show_page('sure')",
        "6",
        marked("How sure"),
        "review",
        marked("How firm the ranking is, what it hangs on, what stays unexplained."),
    ),
    Action(
        "show_page('plan')",
        "7",
        marked("Plan"),
        "review",
        marked("What to do and when, and what to leave for now."),
    ),
    Action(
        "show_page('charts')",
        "8",
        marked("Charts"),
        "review",
        marked("Leaves over time, light through the year, weights and ranking drawn."),
    ),
    Action("section(1)", "right", marked("Next page"), "review", marked("Show the next page."), footer=True),
    Action("section(-1)", "left", marked("Page before"), "review", marked("Show the page before.")),
    Action(
        "open_all",
        "o",
        marked("Open all"),
        "review",
        marked("Open or close all the reasons, down to your answers."),
        footer=True,
    ),
    Action("name_case", "n", marked("Name the case"), "review", marked("Give the case a name.")),
    Action("rules", "r", marked("Rules"), "review", marked("See the rules behind the ranking.")),
    Action(
        "search",
        "s",
        marked("Search"),
        "rules",
        marked("Type a few letters to search all rules."),
        footer=True,
    ),
    Action(
        "reload",
        "r",
        marked("Read again"),
        "rules",
        marked("Read all rule files again after one was changed."),
        footer=True,
    ),
    Action(
        "edit",
        "e",
        marked("Edit"),
        "rules",
        marked("Open the entry's file in your editor ($VISUAL or $EDITOR)."),
    ),
    Action(
        "go_to",
        "g",
        marked("Go to"),
        "rules",
        marked("Go to an entry that the one shown names."),
        footer=True,
    ),
    Action(
        "search",
        "s",
        marked("Search"),
        "collection",
        marked("Type a few letters to search names, kinds, places, media and notes."),
        footer=True,
    ),
    Action(
        "count",
        "c",
        marked("Count"),
        "collection",
        marked("Count leaves, plant after plant of a place."),
        footer=True,
    ),
    Action(
        "stands_out",
        "w",
        marked("What stands out"),
        "collection",
        marked("See whose losses rose beyond chance, and what they share."),
        footer=True,
    ),
    Action("add_plant", "a", marked("Add"), "collection", marked("Add a plant to the journal.")),
    Action("place", "p", marked("Place"), "collection", marked("Show the plants of one place.")),
    Action(
        "order",
        "o",
        marked("Order"),
        "collection",
        marked("Change the order: place, name, due, losses, leaves gone, longest uncounted."),
    ),
    Action(
        "new_case",
        "n",
        marked("Case"),
        "plant",
        marked("Start a case of this plant, or go on with the open one."),
        footer=True,
    ),
    Action("count", "c", marked("Count"), "plant", marked("Count this plant's leaves."), footer=True),
    Action(
        "settle",
        "s",
        marked("Settle"),
        "plant",
        marked("Say what its last case turned out to be."),
        footer=True,
    ),
    Action(
        "skip",
        "s",
        marked("Skip"),
        "counting",
        marked("Leave this plant uncounted (on an empty line)."),
        footer=True,
    ),
    Action(
        "before",
        "b",
        marked("Before"),
        "counting",
        marked("Go back to the plant before (on an empty line)."),
        footer=True,
    ),
)

FOOTER_BACK = ("list", "review", "rules", "collection", "standing_out", "plant", "counting")
"""Places whose footer shows the way back too."""


def bindings(where: str) -> list[Binding]:
    """Return the keys that work at a place: those for everywhere, and its own."""
    chosen = [action for action in ACTIONS if action.where in (EVERYWHERE, where)]
    return [
        Binding(
            _either_case(action.keys),
            action.name,
            action.label,
            show=_in_footer(action, where),
        )
        for action in chosen
    ]


def _either_case(keys: str) -> str:
    """Return the keys with capitals beside letters: they are shown as capitals, and Caps Lock may be on."""
    each = keys.split(",")
    return ",".join([*each, *(key.upper() for key in each if len(key) == 1 and key.isalpha())])


def by_place() -> dict[str, list[Action]]:
    """Return place -> its actions, in the order of help."""
    return {where: [a for a in ACTIONS if a.where == where] for where in PLACES}


def keys_said(action: Action) -> str:
    """Return an action's keys as they are written on keyboards."""
    return or_listed([key_said(key) for key in action.keys.split(",")])


def key_said(key: str) -> str:
    """Return one key as it is written on keyboards."""
    names = {"escape": _("Esc"), "enter": _("Enter"), "left": _("Left"), "right": _("Right")}
    return names.get(key, key.upper())


def _in_footer(action: Action, where: str) -> bool:
    return action.footer or (action.name == "back" and where in FOOTER_BACK)
