"""Write to a journal in a process that is killed (SIGKILL) at a random moment, again and again; verify each time.

Run by test_killed.py, and by hand: python tests/journal/killed.py WHAT TIMES SEED, WHAT being one of counts, answers,
imports, migrations. Prints how many writes were acknowledged and how many kills came in the middle of the work. An
assertion fails if one acknowledged write is missing, a half write is seen, or the file is not sound.

The writer is a fork of this process, which has loaded everything and has no other thread, so that 200 kills take
seconds. It acknowledges through a pipe after the journal's function has returned.
"""

import datetime as dt
import json
import os
import random
import select
import signal
import sqlite3
import sys
import tempfile
import time
from pathlib import Path

from diagnose.case import LeafCount
from diagnose.diagnosis import Diagnostician
from diagnose.journal import cases, counts, open_journal, plants
from diagnose.journal.schema import APPLICATION_ID, MIGRATIONS, VERSION
from diagnose.questionnaire import Questionnaire

START = dt.date(1990, 1, 1)


class Counts:
    """One count after another, as `diagnose count` saves them."""

    def __init__(self, path):
        self.path = path
        with open_journal(path) as book:
            self.plant = plants.add_plant(book, "Kettle").id

    def write(self, ack):
        with open_journal(self.path) as book:
            done = len(counts.counts_of(book, self.plant))  # resumes where it was
            while True:
                counts.add_count(
                    book, self.plant, LeafCount(date=START + dt.timedelta(days=done), present=done % 50)
                )
                ack(done)
                done += 1

    def verify(self, acked):
        with open_journal(self.path) as book:
            rows = counts.counts_of(book, self.plant)
        assert [row.date for row in rows] == [START + dt.timedelta(days=n) for n in range(len(rows))]
        assert all(row.present == n % 50 for n, row in enumerate(rows))
        assert set(acked) <= set(range(len(rows)))
        assert len(rows) <= len(acked) + 1 + self.unseen
        self.unseen = len(rows) - len(acked)

    unseen = 0
    """Writes that were on disk when the kill came before their acknowledgement."""


class Answers:
    """The questionnaire with its answers in the journal, as `diagnose ask --plant` keeps them."""

    def __init__(self, path, base):
        self.path, self.rules, self.unseen = path, Diagnostician(base), 0
        with open_journal(path) as book:
            self.plant = plants.add_plant(book, "Lantern").id

    def write(self, ack):
        with open_journal(self.path) as book:
            record = cases.begin_case(book, self.plant, START)
            asking = Questionnaire(
                self.rules,
                cases.read_case_record(book, record),
                self.path,
                at_once=False,
                keep=lambda before, after: cases.save_change(book, record, before, after),
            )
            while (question := asking.current) is not None:
                value = legal(question)
                if value is None:
                    asking.do_not_know()
                else:
                    asking.answer(value)
                ack([record.id, question.id, value])
            cases.settle(book, record, START, "root_rot")  # the next one begins from the first question

    def verify(self, acked):
        with open_journal(self.path) as book:
            held = {r.id: cases.read_case_record(book, r) for r in cases.cases_of(book, self.plant)}
        told = [(record, name, value) for record, name, value in acked]
        for record, name, value in told:
            case = held[record]
            assert (name in case.not_known) if value is None else (plain(case.answers[name]) == value)
        entries = sum(len(case.answers) + len(case.not_known) for case in held.values())
        assert len({(record, name) for record, name, _ in told}) == len(told), "a question was asked again"
        assert 0 <= entries - len(told) <= self.unseen + 1
        self.unseen = entries - len(told)


class Imports:
    """Two hundred counts in one go, as `diagnose import` takes them: all or none."""

    def __init__(self, path):
        self.path = path
        open_journal(path).close()

    def write(self, ack):
        with open_journal(self.path) as book:
            number = len(plants.all_plants(book))
            while True:
                with book.writing():
                    plant = plants.add_plant(book, f"Plant {number}")
                    rows = [
                        LeafCount(date=START + dt.timedelta(days=n), present=number % 50) for n in range(200)
                    ]
                    counts.add_counts(book, {plant.id: rows})
                ack(number)
                number += 1

    def verify(self, acked):
        with open_journal(self.path) as book:
            totals = counts.leaf_totals(book)
        assert [total.counts for total in totals] == [200] * len(totals)
        assert set(acked) <= set(range(len(totals)))


class Migrations:
    """A journal of the first version, brought up to date when it is opened."""

    def __init__(self, path):
        self.path = path

    def prepare(self):
        for beside in self.path.parent.glob(self.path.name + "*"):
            beside.unlink()
        db = sqlite3.connect(self.path, isolation_level=None)
        db.execute("PRAGMA journal_mode = WAL")
        db.execute("BEGIN")
        MIGRATIONS[0](db)
        for n in range(40):
            db.execute("INSERT INTO plants (name) VALUES (?)", (f"Plant {n}",))
            rows = [(n + 1, (START + dt.timedelta(days=day)).isoformat(), day % 50) for day in range(40)]
            db.executemany("INSERT INTO leaf_counts (plant_id, date, present) VALUES (?, ?, ?)", rows)
        db.execute(f"PRAGMA application_id = {APPLICATION_ID}")
        db.execute("PRAGMA user_version = 1")
        db.execute("COMMIT")
        db.close()

    def write(self, ack):
        ack("begun")
        with open_journal(self.path) as book:
            ack(book.db.execute("PRAGMA user_version").fetchone()[0])

    def verify(self, acked):
        with open_journal(self.path) as book:  # whatever was left half done is finished now
            assert book.problem is None
            assert [total.counts for total in counts.leaf_totals(book)] == [40] * 40
            assert book.db.execute("PRAGMA user_version").fetchone()[0] == VERSION
        copy = sqlite3.connect(self.path.with_name(f"{self.path.name}.version-1"))
        assert copy.execute("SELECT count(*) FROM leaf_counts").fetchone()[0] == 1600
        assert copy.execute("PRAGMA integrity_check").fetchone()[0] == "ok"
        copy.close()


def main(what, times, seed):
    pick = random.Random(seed)
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "journal.sqlite"
        work = {"counts": Counts, "imports": Imports, "migrations": Migrations}.get(what)
        if work is None:
            from diagnose import locations
            from diagnose.rulebase.load import load

            work = Answers(path, load(locations.built_in_rules(), house_too=False))
        else:
            work = work(path)
        acked, in_the_middle, writes = [], 0, 0
        for _ in range(times):
            if what == "migrations":
                acked = []
                work.prepare()
            heard, alive = killed(work.write, pick.uniform(0, 0.1 if what == "answers" else 0.04))
            in_the_middle += alive
            acked += heard
            writes += len(heard)
            db = sqlite3.connect(path)
            assert db.execute("PRAGMA integrity_check").fetchone()[0] == "ok"
            db.close()
            work.verify(acked)
        sys.stdout.write(
            f"{what}: {times} kills, {in_the_middle} while writing, {writes} writes acknowledged, none lost\n"
        )


def killed(write, after_s):
    """Run a writer in a fork and kill it so many seconds after its first sign; return what it acknowledged."""
    reads, writes = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(reads)

        def ack(what):
            os.write(writes, (json.dumps(plain(what)) + "\n").encode())

        try:
            write(ack)
        finally:
            os._exit(0)
    os.close(writes)
    select.select([reads], [], [], 5)  # until it has begun
    time.sleep(after_s)
    os.kill(child, signal.SIGKILL)
    _, status = os.waitpid(child, 0)
    heard = b""
    while chunk := os.read(reads, 65536):
        heard += chunk
    os.close(reads)
    return [json.loads(line) for line in heard.decode().splitlines()], os.WIFSIGNALED(status)


def legal(question):
    """A legal answer, None for questions whose answer is a part of the case."""
    return {
        "yes_no": True,
        "choice": question.choices and question.choices[0].id,
        "several": tuple(choice.id for choice in question.choices[:2]),
        "number": question.least,
        "date": START,
    }.get(question.kind)


def plain(value):
    """A value as JSON gives it back."""
    return json.loads(json.dumps(value, default=str))


if __name__ == "__main__":
    main(sys.argv[1], int(sys.argv[2]), int(sys.argv[3]))
