"""All that is known of one plant, in titled sections of plain lines."""

from collections.abc import Mapping

from diagnose.bookkeeping import AboutPlant, CaseStory
from diagnose.case import LeafCount
from diagnose.report.words import percent

Section = tuple[str, tuple[str, ...]]
"""A title, empty for the first section, and lines."""


def plant_sections(about: AboutPlant, causes: Mapping[str, str], counts_shown: int) -> tuple[Section, ...]:
    """Return the sections that have anything to say, latest first; `causes` are names by id, else ids are shown."""
    plant = about.plant
    facts = (
        ("kind", plant.kind),
        ("profile", plant.profile),
        ("place", plant.place),
        ("pot", f"{plant.pot_cm:g} cm wide" if plant.pot_cm else ""),
        ("medium", plant.medium),
        ("note", plant.note),
        ("gone since", plant.gone_on),
    )
    counts = [_count(count) for count in about.counts[: -counts_shown - 1 : -1]]
    events = [f"{e.date}  {e.kind.replace('_', ' ')}  {e.note}".rstrip() for e in reversed(about.events)]
    photos = [f"{p.date}  {p.path}  {p.note}".rstrip() for p in reversed(about.photos)]
    found: list[Section] = [
        ("", tuple(f"{label}: {value}" for label, value in facts if value)),
        ("Last counts (leaves, new, lost):", tuple(counts)),
        ("Events:", tuple(events)),
        ("Photos:", tuple(photos)),
        *((f"Case of {story.record.opened_on}:", _case(story, causes)) for story in reversed(about.cases)),
    ]
    return tuple((title, lines) for title, lines in found if lines)


def _count(count: LeafCount) -> str:
    new, lost = ("" if n is None else str(n) for n in (count.new, count.lost))
    return f"{count.date}  {count.present:>4} {new:>4} {lost:>4}  {count.lost_which or ''}".rstrip()


def _case(story: CaseStory, causes: Mapping[str, str]) -> tuple[str, ...]:
    lines = []
    for ranking in reversed(story.rankings):
        first = ranking.causes[0]
        lines.append(f"{ranking.date}  {causes.get(first.id, first.id)} {percent(first.probability)}")
    end = story.outcome
    if end is None:
        return ("not settled", *lines)
    return (f"{end.date}  settled: {causes.get(end.cause, end.cause)}  {end.how}".rstrip(), *lines)
