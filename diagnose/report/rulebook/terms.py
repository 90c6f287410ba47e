"""Single words of rule files, such as an effort or a plant's trait, as they are said."""

from diagnose.language import _, marked, numeral
from diagnose.rulebase.model import Strength
from diagnose.rulebase.strengths import DECIBANS

_KNOWN = frozenset(
    (
        # efforts, paces
        marked("think"), marked("look"), marked("touch"), marked("unpot"), marked("wait"), marked("in turn"),
        marked("at once"), marked("beside"),
        # what a piece of advice changes
        marked("air"), marked("airflow"), marked("corms"), marked("curtain"), marked("drainage"), marked("draught"),
        marked("feed"), marked("glass"), marked("heat"), marked("leaf surface"), marked("leaves"), marked("light"),
        marked("misting"), marked("nothing"), marked("other"), marked("pests"), marked("place"),
        marked("root warmth"), marked("roots"), marked("salts"), marked("shade"), marked("soak"), marked("surface"),
        marked("turning"), marked("warmth"), marked("water"), marked("water kind"), marked("wetting"),
        marked("window"),
        # forms
        marked("corm"), marked("rhizome"), marked("cane"), marked("vine"), marked("rosette"), marked("tree"),
        marked("shrub"), marked("succulent"), marked("fern"), marked("any"),
        # traits
        marked("chill sensitive"), marked("drops when moved"), marked("drought tolerant"),
        marked("fluoride sensitive"), marked("heavy feeder"), marked("humidity lover"),
        marked("low light tolerant"), marked("mite prone"), marked("rests"), marked("rots easily"),
        marked("salt sensitive"), marked("sheds old for new"), marked("spots easily"), marked("thirsty"),
        # needs
        marked("humidity"), marked("leaf number"), marked("leaf life"), marked("least dli"), marked("good dli"),
        marked("chill"), marked("night least"), marked("day least"), marked("day most"), marked("least"),
        marked("good"), marked("standing low"), marked("standing high"), marked("life low"), marked("life high"),
        # strengths
        marked("slight"), marked("moderate"), marked("substantial"), marked("strong"), marked("very strong"),
        marked("decisive"),
    )
)  # fmt: skip


def word_said(word: str) -> str:
    """Return a word of rule files in words; one that only house rules have stays as it is written there."""
    said = word.replace("_", " ")
    return _(said) if said in _KNOWN else said


def strength_said(strength: Strength) -> str:
    """Return a strength in words, with its weight."""
    return _("{strength} ({weight} dB)").format(
        strength=word_said(strength), weight=numeral(DECIBANS[strength], "g")
    )
