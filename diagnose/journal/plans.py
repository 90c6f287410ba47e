"""Plans with their steps, and what was seen when looking again."""

import datetime as dt
from collections import defaultdict
from typing import Any

from diagnose.journal.open import Journal
from diagnose.journal.plants import clean
from diagnose.journal.records import FollowUp, PlanRecord, RankingRecord, Seen, StepRecord
from diagnose.plan.records import Plan


def add_plan(journal: Journal, ranking: RankingRecord, plan: Plan) -> PlanRecord:
    """Keep the plan that was made from a ranking; a later plan of the same case takes its place."""
    with journal.writing() as db:
        plan_id = db.execute(
            "INSERT INTO plans (case_id, ranking_id, date) VALUES (?, ?, ?)",
            (ranking.case_id, ranking.id, plan.date.isoformat()),
        ).lastrowid
        db.executemany(
            """INSERT INTO steps (plan_id, position, advice, text, due_on, look_again_on, expect)
               VALUES (?, ?, ?, ?, ?, ?, ?)""",
            [
                (plan_id, n, step.id, step.text, step.date.isoformat(), _iso(step.look_again), step.expect)
                for n, step in enumerate(plan.steps, start=1)
            ],
        )
    return plans_of(journal, ranking.case_id)[-1]


def plans_of(journal: Journal, case_id: int) -> tuple[PlanRecord, ...]:
    """Return a case's plans, first made first."""
    return tuple(plan for plan in all_plans(journal) if plan.case_id == case_id)


def all_plans(journal: Journal) -> tuple[PlanRecord, ...]:
    """Return every plan, first made first."""
    steps: dict[int, list[StepRecord]] = defaultdict(list)
    for row in journal.rows(
        """SELECT id, plan_id, position, advice, text, due_on, look_again_on, expect, done_on
           FROM steps ORDER BY plan_id, position"""
    ):
        steps[row["plan_id"]].append(_step(row))
    seen: dict[int, list[FollowUp]] = defaultdict(list)
    for row in journal.rows("SELECT id, plan_id, date, seen, note, step_id FROM follow_ups ORDER BY id"):
        seen[row[1]].append(FollowUp(row[0], row[1], dt.date.fromisoformat(row[2]), *tuple(row)[3:]))
    return tuple(
        PlanRecord(
            row[0], row[1], row[2], dt.date.fromisoformat(row[3]), tuple(steps[row[0]]), tuple(seen[row[0]])
        )
        for row in journal.rows("SELECT id, case_id, ranking_id, date FROM plans ORDER BY id")
    )


def step_done(journal: Journal, step: StepRecord, on: dt.date) -> None:
    """Note that a step was done."""
    with journal.writing() as db:
        db.execute("UPDATE steps SET done_on = ? WHERE id = ?", (on.isoformat(), step.id))


def add_follow_up(
    journal: Journal,
    plan: PlanRecord,
    date: dt.date,
    seen: Seen,
    note: str = "",
    *,
    step: StepRecord | None = None,
) -> None:
    """Note what was seen when looking again, of one step or of the plan as a whole."""
    with journal.writing() as db:
        db.execute(
            "INSERT INTO follow_ups (plan_id, date, seen, note, step_id) VALUES (?, ?, ?, ?, ?)",
            (plan.id, date.isoformat(), seen, clean(note, "note"), step.id if step else None),
        )


def _step(row: Any) -> StepRecord:
    return StepRecord(
        id=row["id"],
        plan_id=row["plan_id"],
        position=row["position"],
        advice=row["advice"],
        text=row["text"],
        due_on=dt.date.fromisoformat(row["due_on"]),
        look_again_on=_date(row["look_again_on"]),
        expect=row["expect"],
        done_on=_date(row["done_on"]),
    )


def _date(text: str | None) -> dt.date | None:
    return dt.date.fromisoformat(text) if text else None


def _iso(date: dt.date | None) -> str | None:
    return date.isoformat() if date else None
