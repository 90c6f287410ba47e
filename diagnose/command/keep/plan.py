"""`diagnose plan`."""

from collections.abc import Sequence
from pathlib import Path

from diagnose.command.keep.written import refuse_existing, write_new
from diagnose.command.opened import opened
from diagnose.command.output import data, document, talk
from diagnose.diagnosis import plan_for
from diagnose.language import _
from diagnose.report.plan_text import plan_text


def plan(
    path: Path, house: Sequence[Path], *, as_json: bool, calendar: Path | None, force: bool, with_place: bool
) -> int:
    """Print what to do now, and write its days to a calendar file if one is named."""
    if calendar is not None:
        refuse_existing(calendar, force=force)
    case = opened(path, house)
    made = plan_for(case.diagnosis)
    if as_json:
        from diagnose.report.plan_json import plan_document

        document(plan_document(case.diagnosis, made, str(path), case.sentences).model_dump(mode="json"))
    else:
        data(plan_text(case.diagnosis, made))
    if calendar is not None:
        from diagnose.report.calendar import calendar as written

        write_new(calendar, written(case.diagnosis, made, with_place=with_place), force=force)
        talk(_("Calendar written to {file}.").format(file=calendar))
    return case.exit
