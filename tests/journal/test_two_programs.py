"""Two programs with one journal open: nothing that either was told is lost."""

import datetime as dt
import subprocess
import sys

from diagnose.case import Case, LeafCount
from diagnose.journal import cases, counts, open_journal, plants

DAY = dt.date(2026, 1, 1)
WRITER = """
import datetime as dt, sys
from pathlib import Path
from diagnose.case import LeafCount
from diagnose.journal import cases, counts, open_journal, plants
path, me = Path(sys.argv[1]), int(sys.argv[2])
with open_journal(path) as book:
    plant = plants.find_plant(book, "Kettle")
    (record,) = cases.cases_of(book, plant.id)
    case = cases.read_case_record(book, record)
    sys.stdout.write("ready\\n"); sys.stdout.flush(); sys.stdin.readline()
    for n in range(100):
        counts.add_count(book, plant.id, LeafCount(date=dt.date(2020, 1, 1) + dt.timedelta(days=2 * n + me), present=n))
        after = case.model_copy(update={"answers": case.answers | {f"question_{me}_{n}": n}})
        cases.save_change(book, record, case, after)
        case = after
"""


def test_two_programs_at_once_lose_nothing(path):
    with open_journal(path) as book:
        plant = plants.add_plant(book, "Kettle")
        cases.begin_case(book, plant.id, DAY)
    writers = [
        subprocess.Popen(
            [sys.executable, "-c", WRITER, str(path), str(me)],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
        )
        for me in (0, 1)
    ]
    for writer in writers:
        assert writer.stdout.readline() == "ready\n"
    for writer in writers:  # both have read the case before either writes
        writer.stdin.write("go\n")
        writer.stdin.flush()
    for writer in writers:
        writer.communicate(timeout=120)
        assert writer.returncode == 0
    with open_journal(path) as book:
        rows = counts.counts_of(book, plant.id)
        assert [row.date for row in rows] == [dt.date(2020, 1, 1) + dt.timedelta(days=n) for n in range(200)]
        (record,) = cases.cases_of(book, plant.id)
        told = cases.read_case_record(book, record).answers
        assert told == {f"question_{me}_{n}": n for me in (0, 1) for n in range(100)}
        assert book.db.execute("PRAGMA integrity_check").fetchone()[0] == "ok"


def test_an_answer_of_another_program_is_not_taken_back_by_a_later_one(path):
    with open_journal(path) as one, open_journal(path) as other:
        plant = plants.add_plant(one, "Kettle")
        record = cases.begin_case(one, plant.id, DAY)
        seen = cases.read_case_record(other, record)
        cases.save_change(
            one, record, seen, seen.model_copy(update={"answers": {"a": True}, "not_known": ("c",)})
        )
        cases.save_change(
            other, record, seen, seen.model_copy(update={"answers": {"b": 2}, "not_known": ("d",)})
        )
        merged = cases.read_case_record(one, record)
        assert merged.answers == {"a": True, "b": 2}
        assert merged.not_known == ("c", "d")


def test_both_recounts_of_a_day_are_kept_and_the_later_holds_whatever_the_clock_says(path):
    with open_journal(path) as one, open_journal(path) as other:
        plant = plants.add_plant(one, "Kettle")
        counts.add_count(one, plant.id, LeafCount(date=DAY, present=5))
        counts.add_count(other, plant.id, LeafCount(date=DAY, present=6))
        assert [c.present for c in counts.counts_of(one, plant.id)] == [6]
        told = one.rows("SELECT present, replaced FROM leaf_counts ORDER BY id")
        assert [tuple(row) for row in told] == [(5, 1), (6, 0)]


def test_the_order_of_entries_is_theirs_not_the_clocks(book):
    plant = plants.add_plant(book, "Kettle")
    record = cases.begin_case(book, plant.id, DAY)
    start = Case(date=DAY)
    cases.settle(book, record, DAY, "drought")
    cases.settle(book, record, DAY - dt.timedelta(days=400), "root_rot")  # the clock was set back in between
    assert cases.outcomes(book)[record.id].cause == "root_rot"
    first = start.model_copy(update={"answers": {"a": 1}})
    cases.save_change(book, record, start, first)
    cases.save_change(book, record, first, start.model_copy(update={"answers": {"a": 2}}))
    assert cases.read_case_record(book, record, DAY - dt.timedelta(days=400)).answers == {"a": 2}
