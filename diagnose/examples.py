"""The demo cases' own words in the language spoken; their translations lie beside them."""

from collections.abc import Callable
from pathlib import Path

from diagnose import locations
from diagnose.case import Case
from diagnose.language import spoken, translated_by


def is_example(path: Path) -> bool:
    """Whether a case file is one of the demo cases."""
    return path.resolve().parent == locations.demo_cases().resolve()


def example_said() -> Callable[[str], str]:
    """Return what says a text of the demo cases in the language spoken."""
    messages, _broken = translated_by([locations.demo_cases() / "languages" / spoken()])
    return lambda text: messages.gettext(text) if text else text


def in_language(case: Case) -> Case:
    """Return a demo case with its title and story in the language spoken."""
    say = example_said()
    return case.model_copy(update={"title": say(case.title), "story": say(case.story)})
