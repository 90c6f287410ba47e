"""All that is known of one plant, in titled sections of plain lines."""

from collections.abc import Mapping

from diagnose.bookkeeping import AboutPlant, CaseStory
from diagnose.case import LeafCount
from diagnose.language import _, numeral
from diagnose.report.words import event_said, percent, which_said

Section = tuple[str, tuple[str, ...]]
"""A title, empty for the first section, and lines."""


def plant_sections(about: AboutPlant, causes: Mapping[str, str], counts_shown: int) -> tuple[Section, ...]:
    """Return the sections that have anything to say, latest first; `causes` are names by id, else ids are shown."""
    plant = about.plant
    facts = (
        (_("kind"), plant.kind),
        (_("profile"), plant.profile),
        (_("place"), plant.place),
        (_("pot"), _("{width} cm wide").format(width=numeral(plant.pot_cm, "g")) if plant.pot_cm else ""),
        (_("medium"), plant.medium),
        (_("note"), plant.note),
        (_("gone since"), plant.gone_on),
    )
    counts = [_count(count) for count in about.counts[: -counts_shown - 1 : -1]]
    events = [f"{e.date}  {event_said(e.kind)}  {e.note}".rstrip() for e in reversed(about.events)]
    photos = [f"{p.date}  {p.path}  {p.note}".rstrip() for p in reversed(about.photos)]
    found: list[Section] = [
        ("", tuple(f"{label}: {value}" for label, value in facts if value)),
        (_("Last counts (leaves, new, lost):"), tuple(counts)),
        (_("Events:"), tuple(events)),
        (_("Photos:"), tuple(photos)),
        *(
            (_("Case of {date}:").format(date=story.record.opened_on), _case(story, causes))
            for story in reversed(about.cases)
        ),
    ]
    return tuple((title, lines) for title, lines in found if lines)


def _count(count: LeafCount) -> str:
    new, lost = ("" if n is None else str(n) for n in (count.new, count.lost))
    return f"{count.date}  {count.present:>4} {new:>4} {lost:>4}  {which_said(count.lost_which)}".rstrip()


def _case(story: CaseStory, causes: Mapping[str, str]) -> tuple[str, ...]:
    lines = []
    for ranking in reversed(story.rankings):
        first = ranking.causes[0]
        lines.append(f"{ranking.date}  {causes.get(first.id, first.id)} {percent(first.probability)}")
    end = story.outcome
    if end is None:
        return (_("not settled"), *lines)
    settled = _("settled: {cause}").format(cause=causes.get(end.cause, end.cause))
    return (f"{end.date}  {settled}  {end.how}".rstrip(), *lines)
