"""The whole journal goes out as an archive and comes back equal, whatever was told."""

import datetime as dt
import stat
import zipfile

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from diagnose.case import LeafCount
from diagnose.journal import cases, counts, open_journal, plants
from diagnose.journal.archive import read_archive, write_archive
from diagnose.journal.schema import TOLD
from diagnose.problems import BadInputError
from test_cases import DAY, a_case, words

a_plant = st.tuples(words, words, words, st.none() | st.floats(1, 90), st.lists(a_case, max_size=2))


def told(book):
    """Every row of every table, and the derived totals."""
    read = {table: book.rows(f"SELECT * FROM {table} ORDER BY id") for table in TOLD}  # noqa: S608 - our own names
    tables = {table: [tuple(row) for row in rows] for table, rows in read.items()}
    return tables, counts.leaf_totals(book)


@settings(max_examples=40)
@given(st.lists(a_plant, max_size=4))
def test_archive_round_trip(tmp_path_factory, collection):
    folder = tmp_path_factory.mktemp("archive")
    with open_journal(folder / "one.sqlite") as book, open_journal(folder / "two.sqlite") as copy:
        for journal in (book, copy):
            journal.db.execute("PRAGMA synchronous = OFF")
        for number, (kind, note, place, pot, states) in enumerate(collection):
            plant = plants.add_plant(book, f"Plant {number}", kind=kind, note=note, place=place, pot_cm=pot)
            record = cases.begin_case(book, plant.id, DAY)
            before = cases.read_case_record(book, record)
            for after in states:
                cases.save_change(book, record, before, after)
                before = after
            cases.settle(book, record, DAY, "drought", note)
        assert write_archive(book, folder / "all.zip") == ()
        read_archive(copy, folder / "all.zip")
        assert told(copy) == told(book)
        write_archive(copy, folder / "again.zip")
    assert (folder / "again.zip").read_bytes() == (folder / "all.zip").read_bytes()


def test_an_archive_is_private_and_readable_without_this_program(book, tmp_path):
    plant = plants.add_plant(book, "Kettle")
    counts.add_count(book, plant.id, LeafCount(date=DAY, present=5, new=1, lost=0))
    write_archive(book, tmp_path / "all.zip")
    assert stat.S_IMODE((tmp_path / "all.zip").stat().st_mode) == 0o600
    with zipfile.ZipFile(tmp_path / "all.zip") as archive:
        assert archive.read("leaf_counts.csv").decode().splitlines()[1] == "1,1,2026-06-01,5,1,0,,0"
        assert "rows" in archive.read("journal.toml").decode()


def test_no_file_is_written_over(book, tmp_path):
    (tmp_path / "all.zip").write_text("mine")
    with pytest.raises(BadInputError, match="exists"):
        write_archive(book, tmp_path / "all.zip")
    assert (tmp_path / "all.zip").read_text() == "mine"


def test_a_journal_in_use_is_not_filled(book, tmp_path):
    write_archive(book, tmp_path / "all.zip")
    plants.add_plant(book, "Kettle")
    with pytest.raises(BadInputError, match="plants in it"):
        read_archive(book, tmp_path / "all.zip")


@pytest.mark.parametrize(
    "change", ["not a zip", "no note", "newer", "strange column", "bad row", "missing table"]
)
def test_what_is_no_archive_changes_nothing(book, path, tmp_path, change):
    plants.add_plant(book, "Kettle")
    write_archive(book, tmp_path / "good.zip")
    with zipfile.ZipFile(tmp_path / "good.zip") as good:
        held = {name: good.read(name).decode() for name in good.namelist()}
    if change == "no note":
        del held["journal.toml"]
    elif change == "newer":
        held["journal.toml"] = held["journal.toml"].replace("tables = ", "tables = 9")
    elif change == "strange column":
        held["plants.csv"] = held["plants.csv"].replace("medium", "wings")
    elif change == "bad row":
        held["leaf_counts.csv"] += "1,1,2026-06-01,many,,,,0\n"
    elif change == "missing table":
        del held["plants.csv"]
    bad = tmp_path / "bad.zip"
    if change == "not a zip":
        bad.write_text("nothing")
    else:
        with zipfile.ZipFile(bad, "w") as archive:
            for name, text in held.items():
                archive.writestr(name, text)
    with open_journal(tmp_path / "new.sqlite") as new:
        with pytest.raises(BadInputError) as error:
            read_archive(new, bad)
        assert len(error.value.problems) == 1
        assert plants.all_plants(new) == ()


def test_dates_of_a_withdrawn_count_come_back_withdrawn(book, tmp_path):
    plant = plants.add_plant(book, "Kettle")
    counts.add_counts(
        book, {plant.id: [LeafCount(date=DAY - dt.timedelta(days=n), present=n) for n in range(5)]}
    )
    with book.writing() as db:
        counts.withdraw_counts(db, plant.id, [DAY])
    write_archive(book, tmp_path / "all.zip")
    with open_journal(tmp_path / "new.sqlite") as new:
        read_archive(new, tmp_path / "all.zip")
        assert counts.counts_of(new, plant.id) == counts.counts_of(book, plant.id)
