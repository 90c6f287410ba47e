"""Young plants: loose corms, a rescued corm, offsets and cuttings, from the first day to a pot of their own."""

from collections.abc import Iterator
from typing import NamedTuple

from diagnose.language import _, marked
from diagnose.plan.ground import Ground, days
from diagnose.plan.records import Row, Schedule


class _Course(NamedTuple):
    title: str
    stages: tuple[tuple[int, str], ...]
    """(days after the start, what is done or seen)"""
    origin: tuple[str, ...]


# Days to roots: three to four weeks in warmth, four to six for cuttings; the two weeks of opening the cover, and
# that pieces with leaves wait four weeks for feed: common practice, no source. Peeling: B-14.
_COURSES = {
    "sprout_corms": _Course(
        marked("Young plants from loose corms"),
        (
            (0, marked("peeled, point up, in a millimetre of water under a lid, at 24-28 °C; air it daily")),
            (21, marked("first roots; pot each into damp moss or perlite when they are 2 cm long")),
            (28, marked("corms without roots by now: press them, keep the firm ones going")),
            (42, marked("open the lid a little more every second day for two weeks")),
            (56, marked("without a lid; a quarter of the label's feed once the first leaf has opened")),
        ),
        ("B-14", "common practice", "from memory"),
    ),
    "save_the_corm": _Course(
        marked("The corm without roots"),
        (
            (0, marked("washed, cut back to firm tissue, left to dry in shade")),
            (1, marked("on barely damp moss or perlite under a loose cover, 23-28 °C, bright; air it daily")),
            (21, marked("first roots; a soft or smelling corm is cut back again or given up")),
            (42, marked("into an airy mix once roots are 2 cm long")),
        ),
        ("A-21", "common practice"),
    ),
    "separate_offsets": _Course(
        marked("Offsets on their own"),
        (
            (
                0,
                marked(
                    "those with two leaves and roots of their own, each into its own small pot; damp air, no sun"
                ),
            ),
            (14, marked("open the cover a little more every second day")),
            (28, marked("without a cover; first weak feed, a quarter of the label's rate")),
        ),
        ("common practice",),
    ),
    "take_cutting": _Course(
        marked("The cutting"),
        (
            (0, marked("node wet, leaves dry, warm and bright, no sun")),
            (7, marked("change the water, and so every week")),
            (28, marked("roots of 3-5 cm: into a small pot of airy mix, kept evenly damp at first")),
            (42, marked("no roots by now: cut the stem afresh below the node")),
        ),
        ("common practice",),
    ),
}


def schedules(ground: Ground) -> Iterator[Schedule]:
    """Yield the course of each kind of young plant that the plan begins."""
    for step_id, course in _COURSES.items():
        step = ground.first(step_id)
        if step is not None:
            rows = tuple(Row(step.date + days(day), _(text)) for day, text in course.stages)
            yield Schedule(step_id, _(course.title), rows, course.origin)
