"""`diagnose followup`: what is due, what was seen, what came of it."""

import datetime as dt
from collections.abc import Sequence
from pathlib import Path

from diagnose.bookkeeping import Informer, keep_ranking, rows_of
from diagnose.collection.followup import Due, compare
from diagnose.command.journal.case import typed
from diagnose.command.journal.opened import opened, today
from diagnose.command.output import Exit, data
from diagnose.diagnosis import Diagnostician, open_rules, plan_for
from diagnose.journal import Journal, cases, plans, rankings
from diagnose.journal.records import Seen
from diagnose.report.collection_json import document
from diagnose.report.collection_text import comparison_text
from diagnose.report.text import wrapped

_SEEN: dict[str, Seen] = {"y": "yes", "yes": "yes", "p": "partly", "partly": "partly", "n": "no", "no": "no"}


def follow_up(journal: Path | None, house: Sequence[Path], *, as_json: bool) -> int:
    """List the plans whose day to look again has come and take answers, each on disk at once."""
    day = today()
    with opened(journal) as book:
        _, waiting = rows_of(book, day)
        if as_json:
            data(document("due", waiting))
            return Exit.DONE
        if not waiting:
            data("Nothing is due.")
            return Exit.DONE
        data(f"{len(waiting)} due. Answer y, p (partly) or n; s: skip; stop: leave, answers are kept.")
        diagnostician = open_rules(house)
        informer = Informer(book, diagnostician, day)
        for one in waiting:
            if not _one(book, one, diagnostician, informer, day):
                break
    return Exit.DONE


def _one(book: Journal, one: Due, diagnostician: Diagnostician, informer: Informer, day: dt.date) -> bool:
    """Ask about one plan; False if the grower stops."""
    data(f"\n{one.plant.name}: plan of {one.plan.date}, to look again on {one.look_on}")
    for step in one.steps:
        expected = f" Should be seen by now: {step.expect}" if step.expect else ""
        data("\n".join(wrapped(f"- {step.text}{expected}")))
    seen = _seen()
    if seen in ("stop", "skip"):
        return seen == "skip"
    note = typed("What did you see? (Enter: nothing to add)") or ""
    plans.add_follow_up(book, one.plan, day, _SEEN[seen], note)
    done = (typed("Which steps were done? all, none or numbers such as 1 3") or "none").lower()
    for number, step in enumerate(one.steps, start=1):
        if step.done_on is None and (done == "all" or str(number) in done.replace(",", " ").split()):
            plans.step_done(book, step, day)
    _compare(book, one, diagnostician, informer, _SEEN[seen])
    return _settled(book, one, diagnostician, day)


def _seen() -> str:
    while True:
        word = (typed("Was it seen? y, p or n") or "stop").lower()
        if word in ("s", "skip"):
            return "skip"
        if word == "stop" or word in _SEEN:
            return word
        data("Please type y, p, n, s or stop.")


def _compare(book: Journal, one: Due, diagnostician: Diagnostician, informer: Informer, seen: Seen) -> None:
    then = next(r for r in rankings.rankings_of(book, one.case.id) if r.id == one.plan.ranking_id)
    diagnosis = diagnostician.diagnose(informer.case(one.case))
    found = compare(then, diagnosis.ranking, diagnosis.case, one.plan.date)
    names = {cause: entry.name for cause, entry in diagnostician.base.causes.items()}
    data(comparison_text(found, names))
    right = {
        "yes": "What the plan said would be seen was seen: that speaks for its cause.",
        "partly": "Only part of what the plan said would be seen was seen.",
        "no": "What the plan said would be seen was not seen: either its cause or the step was wrong.",
    }
    data("\n".join(wrapped(right[seen])))
    kept = keep_ranking(book, one.case, diagnosis)
    current = plans.plans_of(book, one.case.id)[-1]
    if not any(look > diagnosis.case.date for look in current.looks):
        plans.add_plan(book, kept, plan_for(diagnosis))


def _settled(book: Journal, one: Due, diagnostician: Diagnostician, day: dt.date) -> bool:
    known = diagnostician.base.causes
    while True:
        word = typed("Is it settled what it was? Type the cause's id, or Enter if not.")
        if not word:
            return word is not None
        if word in known:
            cases.settle(book, one.case, day, word, typed("How does one know?") or "")
            data(f"{one.plant.name}: settled as {known[word].name.lower()}.")
            return True
        data("Known causes: " + ", ".join(known) + ".")
