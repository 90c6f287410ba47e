"""Every action of the screens: its name, keys, where it works and what it does. Footer, help and keys read this."""

from dataclasses import dataclass

from textual.binding import Binding

EVERYWHERE = "everywhere"
PLACES = {
    EVERYWHERE: "Everywhere",
    "start": "First screen",
    "questions": "Answering",
    "list": "List of all questions",
    "review": "Ranking and reasons",
    "rules": "Rules",
    "collection": "Your plants",
    "standing_out": "What stands out",
    "plant": "One plant",
    "counting": "Counting",
}
"""Where actions work -> how that place is called."""


@dataclass(frozen=True, slots=True)
class Action:
    """One thing that can be done by a key; `name` is the method `action_<name>` that does it."""

    name: str
    keys: str
    label: str
    """One or two words for the footer."""
    where: str
    what: str
    """One sentence for the help screen."""
    footer: bool = False


ACTIONS = (
    Action("show_help", "f1", "Help", EVERYWHERE, "Show what the keys do.", footer=True),
    Action(
        "command_palette",
        "f2",
        "Find",
        EVERYWHERE,
        "Find a question, cause, rule, case or action by a few letters.",
    ),
    Action("back", "escape", "Back", EVERYWHERE, "Go back to where you came from. Answers are kept."),
    Action("quit", "f10", "Quit", EVERYWHERE, "Leave. Answers are kept."),
    Action("new_case", "n", "New case", "start", "Start a new case with its first question.", footer=True),
    Action("open_file", "o", "Open file", "start", "Open a case file by its path.", footer=True),
    Action("rules", "r", "Rules", "start", "See the rules that rank the causes.", footer=True),
    Action(
        "collection",
        "c",
        "Your plants",
        "start",
        "See all your plants: leaves, losses, what is due.",
        footer=True,
    ),
    Action("units", "u", "Units", "start", "Change between metric (cm, °C) and imperial (in, °F)."),
    Action(
        "colours", "t", "Colours", "start", "Change between dark, light and the terminal's own two colours."
    ),
    Action(
        "next_order",
        "q",
        "Question order",
        "start",
        "Ask the most telling questions first, or subject by subject.",
    ),
    Action(
        "about",
        "f3",
        "How and why",
        "questions",
        "How to look, why it is asked, and what each answer would tell.",
        footer=True,
    ),
    Action(
        "not_known",
        "f4",
        "Don't know",
        "questions",
        "Say that you don't know, and go on. In lists of choices 0 does the same.",
        footer=True,
    ),
    Action("before", "f5,left", "Before", "questions", "Go to the question before.", footer=True),
    Action("after", "f6,right", "After", "questions", "Go to the question after, without answering."),
    Action(
        "all_questions",
        "f7",
        "All questions",
        "questions",
        "See all questions by subject, and go to any of them.",
    ),
    Action(
        "review",
        "f8",
        "Reasons",
        "questions",
        "See the ranking with the reasons for every rank.",
        footer=True,
    ),
    Action("undo", "f9", "Undo", "questions", "Take the last answer back."),
    Action("name_case", "n", "Name the case", "list", "Give the case a name.", footer=True),
    Action(
        "next_order", "o", "Order", "list", "Ask the most telling questions first, or subject by subject."
    ),
    Action("subject(1)", "right", "Next subject", "list", "Go to the next subject.", footer=True),
    Action("subject(-1)", "left", "Subject before", "list", "Go to the subject before.", footer=True),
    Action("show_page('reasons')", "1", "Reasons", "review", "Why the chosen cause has its rank."),
    Action(
        "show_page('about')",
        "2",
        "About",
        "review",
        "What the chosen cause is, how it looks, what settles it.",
    ),
    Action(
        "show_page('why-not')",
        "3",
        "Why not",
        "review",
        "Why the chosen cause is not first; at the first, why no other is.",
    ),
    Action(
        "show_page('next')",
        "4",
        "Check next",
        "review",
        "What to look at next, and what each answer would do.",
    ),
    Action(
        "show_page('what-if')",
        "5",
        "What if",
        "review",
        "What if an answer were wrong, and what would change the first place.",
    ),
    Action(
        "show_page('sure')",
        "6",
        "How sure",
        "review",
        "How firm the ranking is, what it hangs on, what stays unexplained.",
    ),
    Action("show_page('plan')", "7", "Plan", "review", "What to do and when, and what to leave for now."),
    Action(
        "show_page('charts')",
        "8",
        "Charts",
        "review",
        "Leaves over time, light through the year, weights and ranking drawn.",
    ),
    Action("section(1)", "right", "Next page", "review", "Show the next page.", footer=True),
    Action("section(-1)", "left", "Page before", "review", "Show the page before."),
    Action(
        "open_all",
        "o",
        "Open all",
        "review",
        "Open or close all the reasons, down to your answers.",
        footer=True,
    ),
    Action("name_case", "n", "Name the case", "review", "Give the case a name."),
    Action("rules", "r", "Rules", "review", "See the rules behind the ranking."),
    Action("search", "s", "Search", "rules", "Type a few letters to search all rules.", footer=True),
    Action(
        "reload", "r", "Read again", "rules", "Read all rule files again after one was changed.", footer=True
    ),
    Action(
        "edit",
        "e",
        "Edit",
        "rules",
        "Open the entry's file in your editor ($VISUAL or $EDITOR).",
        footer=True,
    ),
    Action(
        "search",
        "s",
        "Search",
        "collection",
        "Type a few letters to search names, kinds, places, media and notes.",
        footer=True,
    ),
    Action("count", "c", "Count", "collection", "Count leaves, plant after plant of a place.", footer=True),
    Action(
        "stands_out",
        "w",
        "What stands out",
        "collection",
        "See whose losses rose beyond chance, and what they share.",
        footer=True,
    ),
    Action("place", "p", "Place", "collection", "Show the plants of one place."),
    Action(
        "order",
        "o",
        "Order",
        "collection",
        "Change the order: place, name, due, losses, leaves gone, longest uncounted.",
    ),
    Action(
        "new_case",
        "n",
        "Case",
        "plant",
        "Start a case of this plant, or go on with the open one.",
        footer=True,
    ),
    Action("count", "c", "Count", "plant", "Count this plant's leaves.", footer=True),
    Action("settle", "s", "Settle", "plant", "Say what its last case turned out to be.", footer=True),
    Action("skip", "s", "Skip", "counting", "Leave this plant uncounted (on an empty line).", footer=True),
    Action(
        "before", "b", "Before", "counting", "Go back to the plant before (on an empty line).", footer=True
    ),
)

FOOTER_BACK = ("list", "review", "rules", "collection", "standing_out", "plant", "counting")
"""Places whose footer shows the way back too."""


def bindings(where: str) -> list[Binding]:
    """Return the keys that work at a place: those for everywhere, and its own."""
    chosen = [action for action in ACTIONS if action.where in (EVERYWHERE, where)]
    return [
        Binding(
            action.keys,
            action.name,
            action.label,
            show=_in_footer(action, where),
            key_display=_key_shown(action.keys),
        )
        for action in chosen
    ]


def by_place() -> dict[str, list[Action]]:
    """Return place -> its actions, in the order of help."""
    return {said: [a for a in ACTIONS if a.where == where] for where, said in PLACES.items()}


def keys_said(action: Action) -> str:
    """Return an action's keys as they are written on keyboards."""
    names = {"escape": "Esc", "enter": "Enter", "left": "Left", "right": "Right"}
    return " or ".join(names.get(key, key.upper()) for key in action.keys.split(","))


def _in_footer(action: Action, where: str) -> bool:
    return action.footer or (action.name == "back" and where in FOOTER_BACK)


def _key_shown(keys: str) -> str:
    first = keys.split(",", maxsplit=1)[0]
    return {"escape": "Esc", "left": "Left", "right": "Right"}.get(first, first.upper())
