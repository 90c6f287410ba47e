"""How the words that measures give are said: the word itself is an id that rules test."""

from diagnose.language import pgettext


def words_said() -> dict[str, str]:
    """Return every word of the measures -> how it is said in the language spoken."""
    return {
        "yes": pgettext("a measure's word", "yes"),
        "no": pgettext("a measure's word", "no"),
        "none": pgettext("a measure's word", "none"),
        "spring": pgettext("a measure's word", "spring"),
        "summer": pgettext("a measure's word", "summer"),
        "autumn": pgettext("a measure's word", "autumn"),
        "winter": pgettext("a measure's word", "winter"),
        "season": pgettext("a measure's word", "season"),
        "lengthening": pgettext("a measure's word", "lengthening"),
        "shortening": pgettext("a measure's word", "shortening"),
        "steady": pgettext("a measure's word", "steady"),
        "rising": pgettext("a measure's word", "rising"),
        "falling": pgettext("a measure's word", "falling"),
        "brought_home": pgettext("a measure's word", "brought home"),
        "moved": pgettext("a measure's word", "moved"),
        "repotted": pgettext("a measure's word", "repotted"),
        "medium_changed": pgettext("a measure's word", "medium changed"),
        "fed": pgettext("a measure's word", "fed"),
        "treated": pgettext("a measure's word", "treated"),
        "heating_on": pgettext("a measure's word", "heating on"),
        "other": pgettext("a measure's word", "other"),
        "fewer": pgettext("a measure's word", "fewer"),
        "usual": pgettext("a measure's word", "usual"),
        "more": pgettext("a measure's word", "more"),
        "very_low": pgettext("a measure's word", "very low"),
        "low": pgettext("a measure's word", "low"),
        "normal": pgettext("a measure's word", "normal"),
        "high": pgettext("a measure's word", "high"),
        "very_high": pgettext("a measure's word", "very high"),
    }
