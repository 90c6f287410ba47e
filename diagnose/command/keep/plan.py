"""`diagnose plan`."""

import json
from collections.abc import Sequence
from pathlib import Path

from diagnose.command.keep.written import write_new
from diagnose.command.output import Exit, complain, data, talk
from diagnose.command.rank import diagnosed
from diagnose.diagnosis import plan_for
from diagnose.report.plan_json import plan_document
from diagnose.report.plan_text import plan_text


def plan(
    path: Path, house: Sequence[Path], *, as_json: bool, calendar: Path | None, force: bool, with_place: bool
) -> int:
    """Print what to do now, and write its days to a calendar file if one is named."""
    diagnosis, problems = diagnosed(path, house)
    complain(problems, str(path))
    made = plan_for(diagnosis)
    if as_json:
        told = tuple(problem.sentence() for problem in problems)
        document = plan_document(diagnosis, made, str(path), told)
        data(json.dumps(document.model_dump(mode="json"), indent=1, ensure_ascii=False))
    else:
        data(plan_text(diagnosis, made))
    if calendar is not None:
        from diagnose.report.calendar import calendar as written

        write_new(calendar, written(diagnosis, made, with_place=with_place), force=force)
        talk(f"Calendar written to {calendar}.")
    return Exit.BAD_INPUT if problems else Exit.DONE
