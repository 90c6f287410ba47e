"""Rankings as they stood, with the rule base's hash and the case they were made of."""

import datetime as dt
import json
from typing import Any

from diagnose.case import Case
from diagnose.diagnosis import Diagnosis
from diagnose.journal.open import Journal
from diagnose.journal.records import CaseRecord, RankedLine, RankingRecord, StoredCause

_RANKING = "SELECT id, case_id, date, rules_hash, case_told, causes FROM rankings"


def add_ranking(journal: Journal, record: CaseRecord, diagnosis: Diagnosis) -> RankingRecord:
    """Keep a ranking; the same one of the same case by the same rules is kept once."""
    causes = json.dumps(
        [
            [
                one.id,
                one.score_db,
                one.probability,
                [[line.kind, line.rule, line.decibans] for line in one.lines],
            ]
            for one in diagnosis.ranking.causes
        ]
    )
    told = (diagnosis.case.date.isoformat(), diagnosis.base.hash, diagnosis.case.model_dump_json(), causes)
    with journal.writing() as db:
        last = db.execute(
            "SELECT date, rules_hash, case_told, causes FROM rankings WHERE case_id = ? ORDER BY id DESC LIMIT 1",
            (record.id,),
        ).fetchone()
        if last is None or tuple(last) != told:
            db.execute(
                "INSERT INTO rankings (case_id, date, rules_hash, case_told, causes) VALUES (?, ?, ?, ?, ?)",
                (record.id, *told),
            )
    return rankings_of(journal, record.id)[-1]


def rankings_of(journal: Journal, case_id: int) -> tuple[RankingRecord, ...]:
    """Return a case's rankings, first made first."""
    return tuple(
        _ranking(row) for row in journal.rows(f"{_RANKING} WHERE case_id = ? ORDER BY id", (case_id,))
    )


def last_rankings(journal: Journal) -> dict[int, RankingRecord]:
    """Return each case's last ranking, by the case's id."""
    rows = journal.rows(f"{_RANKING} WHERE id IN (SELECT max(id) FROM rankings GROUP BY case_id)")
    return {row["case_id"]: _ranking(row) for row in rows}


def _ranking(row: Any) -> RankingRecord:
    causes = tuple(
        StoredCause(cause, score, chance, tuple(RankedLine(*line) for line in lines))
        for cause, score, chance, lines in json.loads(row["causes"])
    )
    return RankingRecord(
        row["id"],
        row["case_id"],
        dt.date.fromisoformat(row["date"]),
        row["rules_hash"],
        Case.model_validate_json(row["case_told"]),
        causes,
    )
