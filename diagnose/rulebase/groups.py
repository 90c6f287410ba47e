"""How groups of evidence rules are said: a group's name is an id that rules share."""

from diagnose.language import pgettext


def group_said(group: str) -> str:
    """Return a group of rules in the language spoken; one of house rules is said as it is called."""
    said = {
        "age": pgettext("what rules look at", "age"),
        "air": pgettext("what rules look at", "air"),
        "base": pgettext("what rules look at", "base"),
        "change": pgettext("what rules look at", "change"),
        "cold": pgettext("what rules look at", "cold"),
        "company": pgettext("what rules look at", "company"),
        "conditions": pgettext("what rules look at", "conditions"),
        "demand": pgettext("what rules look at", "demand"),
        "exposure": pgettext("what rules look at", "exposure"),
        "faults": pgettext("what rules look at", "faults"),
        "feed": pgettext("what rules look at", "feed"),
        "feed_timing": pgettext("what rules look at", "feed timing"),
        "growth": pgettext("what rules look at", "growth"),
        "health": pgettext("what rules look at", "health"),
        "history": pgettext("what rules look at", "history"),
        "kind": pgettext("what rules look at", "kind"),
        "leaf_look": pgettext("what rules look at", "leaf look"),
        "light": pgettext("what rules look at", "light"),
        "look_alike": pgettext("what rules look at", "look alike"),
        "pattern": pgettext("what rules look at", "pattern"),
        "renewal": pgettext("what rules look at", "renewal"),
        "response": pgettext("what rules look at", "response"),
        "roots": pgettext("what rules look at", "roots"),
        "roots_and_water": pgettext("what rules look at", "roots and water"),
        "salts": pgettext("what rules look at", "salts"),
        "search": pgettext("what rules look at", "search"),
        "season": pgettext("what rules look at", "season"),
        "setting": pgettext("what rules look at", "setting"),
        "shoot": pgettext("what rules look at", "shoot"),
        "signs": pgettext("what rules look at", "signs"),
        "spots": pgettext("what rules look at", "spots"),
        "sun": pgettext("what rules look at", "sun"),
        "timing": pgettext("what rules look at", "timing"),
        "trial": pgettext("what rules look at", "trial"),
        "virus": pgettext("what rules look at", "virus"),
        "water": pgettext("what rules look at", "water"),
        "wetness": pgettext("what rules look at", "wetness"),
    }
    return said.get(group, group.replace("_", " "))
