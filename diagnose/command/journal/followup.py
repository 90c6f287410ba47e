"""`diagnose followup`: step by step what was done and what was seen, each on disk at once; then what came of it."""

import datetime as dt
from collections.abc import Sequence
from dataclasses import replace
from enum import Enum, auto
from pathlib import Path

from diagnose.bookkeeping import Informer, keep_ranking, rows_of
from diagnose.collection.followup import Due, compare
from diagnose.command.causes import read_cause
from diagnose.command.journal.case import settled_as
from diagnose.command.journal.opened import opened, today
from diagnose.command.output import Exit, data
from diagnose.command.typed import is_no, is_said, is_stop, is_yes, typed
from diagnose.diagnosis import Diagnostician, open_rules, plan_for
from diagnose.journal import Journal, cases, plans, rankings
from diagnose.journal.records import Seen, StepRecord
from diagnose.language import _, date_said, marked, ngettext
from diagnose.questionnaire.dates import read_date
from diagnose.report.collection_json import document
from diagnose.report.collection_text import comparison_text
from diagnose.report.text import wrapped

_SKIP = marked("s|skip")
_PARTLY = marked("p|partly")
_MEANS: dict[Seen, str] = {
    "yes": marked("That speaks for the cause that the step was meant for."),
    "partly": marked("That says little yet about the cause that the step was meant for."),
    "no": marked(
        "Then either the cause that the step was meant for is not the true one, or the step was wrong."
    ),
}


class _Word(Enum):
    """Words that answer no question."""

    STOP = auto()
    SKIP = auto()


def follow_up(journal: Path | None, house: Sequence[Path], *, as_json: bool) -> int:
    """List the plans whose day to look again has come and take answers."""
    day = today()
    with opened(journal) as book:
        _rows, waiting = rows_of(book, day)
        if as_json:
            data(document("due", waiting))
            return Exit.DONE
        if not waiting:
            data(_("Nothing is due."))
            return Exit.DONE
        due = ngettext("{count} plan is due.", "{count} plans are due.", len(waiting)).format(
            count=len(waiting)
        )
        data(due + " " + _("s: skip a step; stop: leave, answers are kept."))
        diagnostician = open_rules(house)
        informer = Informer(book, diagnostician, day)
        for one in waiting:
            if not _one(book, one, diagnostician, informer, day):
                break
    return Exit.DONE


def _one(book: Journal, one: Due, diagnostician: Diagnostician, informer: Informer, day: dt.date) -> bool:
    """Ask about one plan; False if the grower stops."""
    head = _("{plant}: plan of {day}, to look again on {look}").format(
        plant=one.plant.name, day=one.plan.date, look=one.look_on
    )
    data(f"\n{head}")
    judged = 0
    for step in one.steps:
        seen = _step(book, one, step, day)
        if not isinstance(seen, _Word):
            advice = diagnostician.base.advice.get(step.advice)
            looks_only = advice is not None and advice.changes == "nothing"
            data("\n".join(wrapped(_("Noted.") if looks_only else _(_MEANS[seen]))))
        if seen is _Word.STOP:
            return False
        judged += seen is not _Word.SKIP
    if not judged:
        return True
    _compare(book, one, diagnostician, informer)
    return _settled(book, one, diagnostician, day)


def _step(book: Journal, one: Due, step: StepRecord, day: dt.date) -> Seen | _Word:
    """Ask whether a step was done, and if so, what was seen of it."""
    data("\n" + "\n".join(wrapped(f"- {step.text}")))
    if step.done_on is None:
        done = _done(step, day)
        if isinstance(done, _Word):
            return done
        plans.step_done(book, step, done)
        step = replace(step, done_on=done)
    if step.look_on and step.look_on > day:
        data(_("Too early to judge: look again on {date}.").format(date=date_said(step.look_on)))
        return _Word.SKIP
    if step.expect:
        data("\n".join(wrapped(_("Should be seen by now: {what}").format(what=step.expect))))
    seen = _seen()
    if not isinstance(seen, _Word):
        note = typed(_("What did you see? (Enter: nothing to add)")) or ""
        plans.add_follow_up(book, one.plan, day, seen, note, step=step)
    return seen


def _done(step: StepRecord, day: dt.date) -> dt.date | _Word:
    """Return the day a step was done."""
    while True:
        prompt = _("Was it done? y (on {day}), n, or the day, such as 2 weeks ago").format(day=step.due_on)
        line = typed(prompt)
        if line is None or is_stop(line):
            return _Word.STOP
        if is_said(line, _SKIP):
            return _Word.SKIP
        if is_no(line):
            data(_("Then there is nothing to judge yet."))
            return _Word.SKIP
        if is_yes(line):
            return step.due_on
        found = read_date(line, day)
        if found is not None and found <= day:
            return found
        data(_("Please type y, n, a day not after {day}, s or stop.").format(day=day))


def _seen() -> Seen | _Word:
    while True:
        line = typed(_("Was it seen? y, p (partly) or n"))
        if line is None or is_stop(line):
            return _Word.STOP
        if is_said(line, _SKIP):
            return _Word.SKIP
        if is_yes(line):
            return "yes"
        if is_no(line):
            return "no"
        if is_said(line, _PARTLY):
            return "partly"
        data(_("Please type y, p, n, s or stop."))


def _compare(book: Journal, one: Due, diagnostician: Diagnostician, informer: Informer) -> None:
    """Say what changed since the plan, keep the ranking of today, and a new plan if the old one has no day left."""
    then = next(r for r in rankings.rankings_of(book, one.case.id) if r.id == one.plan.ranking_id)
    diagnosis = diagnostician.diagnose(informer.case(one.case))
    found = compare(then, diagnosis.ranking, diagnosis.case, one.plan.date)
    names = {cause: entry.name for cause, entry in diagnostician.base.causes.items()}
    data("\n" + comparison_text(found, names))
    kept = keep_ranking(book, one.case, diagnosis)
    current = plans.plans_of(book, one.case.id)[-1]
    if not any(look > diagnosis.case.date for look in current.looks):
        plans.add_plan(book, kept, plan_for(diagnosis))


def _settled(book: Journal, one: Due, diagnostician: Diagnostician, day: dt.date) -> bool:
    known = diagnostician.base.causes
    while True:
        word = typed("\n" + _("Is it settled what it was? Type the cause, or Enter if not."))
        if not word:
            return word is not None
        if is_stop(word):
            return False
        cause = read_cause(word, known)
        if cause:
            cases.settle(book, one.case, day, cause, typed(_("How does one know?")) or "")
            data(settled_as(one.plant, known[cause]))
            return True
        names = "; ".join(f"{cause.id} ({cause.name})" for cause in known.values())
        data("\n".join(wrapped(_("Known causes: {names}.").format(names=names))))
