"""What can be wrong with the file: each is one sentence, and nothing that was saved is lost."""

import sqlite3
import stat

import pytest

from diagnose import locations
from diagnose.case import LeafCount
from diagnose.journal import counts, open_journal, plants, schema
from diagnose.journal.archive import read_archive, write_archive
from diagnose.journal.backup import backup
from diagnose.journal.schema import APPLICATION_ID, MIGRATIONS, TOLD, VERSION
from diagnose.journal.stretches import rebuild
from diagnose.problems import BadInputError

START = LeafCount.model_validate({"date": "2026-01-01", "present": 5}).date


def filled(path, how_many=50):
    with open_journal(path) as book:
        for n in range(how_many):
            plant = plants.add_plant(book, f"Lantern {n}", note="a long note to fill pages " * 20)
            counts.add_counts(
                book, {plant.id: [LeafCount(date=START.replace(month=m), present=n) for m in range(1, 13)]}
            )
    return path


def one_sentence(error):
    (problem,) = error.value.problems
    text = problem.sentence()
    assert "\n" not in text
    assert text.endswith(".")
    return text


def test_only_its_owner_can_read_it(path):
    filled(path, 1)
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    assert stat.S_IMODE(path.parent.stat().st_mode) == 0o700


def test_the_log_beside_it_is_as_private(book):
    plants.add_plant(book, "Kettle")
    beside = [p for p in book.path.parent.iterdir() if p != book.path]
    assert beside
    assert all(stat.S_IMODE(p.stat().st_mode) == 0o600 for p in beside)


def test_its_place_is_the_platforms_data_folder():
    assert locations.journal().parent.name == "diagnose"


def test_every_commit_waits_for_the_disk(book):
    assert book.db.execute("PRAGMA synchronous").fetchone()[0] == 2  # FULL
    assert book.db.execute("PRAGMA journal_mode").fetchone()[0] == "wal"
    assert book.db.execute("PRAGMA foreign_keys").fetchone()[0] == 1


def test_every_table_is_strict(book):
    tables = book.rows(
        "SELECT name, strict FROM pragma_table_list WHERE schema = 'main' AND name NOT LIKE 'sqlite_%'"
    )
    assert {row["name"] for row in tables} == {*TOLD, "stretches"}
    assert all(row["strict"] for row in tables)
    with pytest.raises(sqlite3.IntegrityError):
        book.db.execute("INSERT INTO leaf_counts (plant_id, date, present) VALUES (1, '2026-01-01', 'five')")


def test_a_full_disk_is_told_and_what_was_saved_stays(path):
    filled(path, 5)
    with open_journal(path) as book:
        pages = book.db.execute("PRAGMA page_count").fetchone()[0]
        book.db.execute(f"PRAGMA max_page_count = {pages + 2}")
        with pytest.raises(BadInputError) as error:  # noqa: PT012 - until it is full
            for n in range(1000):
                plants.add_plant(book, f"Kettle {n}", note="x" * 1900)
        assert "a full disk" in one_sentence(error)
        saved = len(plants.all_plants(book))
    with open_journal(path) as book:
        assert len(plants.all_plants(book)) == saved >= 5
        assert book.db.execute("PRAGMA integrity_check").fetchone()[0] == "ok"


def test_a_read_only_file_is_read(path):
    filled(path, 3)
    path.chmod(0o400)
    before = path.read_bytes()
    with open_journal(path) as book:
        assert book.problem.check == "read_only"
        assert len(plants.all_plants(book)) == 3
        with pytest.raises(BadInputError) as error:
            plants.add_plant(book, "Kettle")
        assert "may not be written" in one_sentence(error)
    assert path.read_bytes() == before


def test_a_program_that_holds_the_lock_is_waited_for_then_told(path):
    filled(path, 1)
    other = sqlite3.connect(path, isolation_level=None)
    other.execute("BEGIN IMMEDIATE")
    with open_journal(path, busy_s=0.1) as book:
        assert len(plants.all_plants(book)) == 1  # reading goes on
        with pytest.raises(BadInputError) as error:
            plants.add_plant(book, "Kettle")
        assert "another program is writing" in one_sentence(error)
        other.execute("COMMIT")
        plants.add_plant(book, "Kettle")
    other.close()


def test_a_newer_journal_is_read_and_left_as_it_is(path):
    filled(path, 2)
    with sqlite3.connect(path) as db:
        db.execute(f"PRAGMA user_version = {VERSION + 1}")
    db.close()
    before = path.read_bytes()
    with open_journal(path) as book:
        assert len(plants.all_plants(book)) == 2
        with pytest.raises(BadInputError) as error:
            plants.add_plant(book, "Kettle")
        assert "newer version" in one_sentence(error)
    assert path.read_bytes() == before


@pytest.mark.parametrize(
    "content", [b"not a database at all, but long enough to be looked at" * 20, b"\x00" * 5000]
)
def test_a_file_of_another_kind_is_left_as_it_is(path, content):
    path.parent.mkdir()
    path.write_bytes(content)
    with pytest.raises(BadInputError) as error:
        open_journal(path)
    assert "not a journal" in one_sentence(error)
    assert path.read_bytes() == content


def test_a_database_of_another_program_is_left_as_it_is(path):
    path.parent.mkdir()
    with sqlite3.connect(path) as db:
        db.execute("CREATE TABLE recipes (name TEXT)")
    db.close()
    before = path.read_bytes()
    with pytest.raises(BadInputError) as error:
        open_journal(path)
    assert "not a journal" in one_sentence(error)
    assert path.read_bytes() == before


def test_a_folder_is_no_journal(tmp_path):
    with pytest.raises(BadInputError) as error:
        open_journal(tmp_path)
    assert "not a journal" in one_sentence(error)


def spoil(path, table):
    """Write over a page in the middle of a table."""
    with sqlite3.connect(path) as db:
        size = db.execute("PRAGMA page_size").fetchone()[0]
        pages = [
            row[0]
            for row in db.execute(
                "SELECT pageno FROM dbstat WHERE name = ? AND pagetype = 'leaf' ORDER BY path", (table,)
            )
        ]
    db.close()
    with path.open("r+b") as file:
        file.seek((pages[len(pages) // 2] - 1) * size)
        file.write(b"\xff" * size)


def dbstat_is_there():
    db = sqlite3.connect(":memory:")
    try:
        db.execute("SELECT 1 FROM dbstat")
    except sqlite3.OperationalError:
        return False
    finally:
        db.close()
    return True


@pytest.mark.skipif(not dbstat_is_there(), reason="this SQLite was built without dbstat")
def test_a_damaged_file_is_found_read_and_exported(path, tmp_path):
    filled(path)
    spoil(path, "plants")
    before = path.read_bytes()
    with open_journal(path) as book:
        assert "damage" in book.problem.sentence()
        assert "export" in book.problem.sentence()
        with pytest.raises(BadInputError):
            plants.add_plant(book, "Kettle")
        with pytest.raises(BadInputError) as error:
            backup(book, tmp_path / "copy.sqlite")
        assert "damage" in one_sentence(error)
        assert len(counts.counts_of(book, 3)) == 12
        broken = write_archive(book, tmp_path / "all.zip")
        assert broken == ("plants",)
    assert path.read_bytes() == before
    with open_journal(tmp_path / "new.sqlite") as new, pytest.raises(BadInputError) as error:
        read_archive(new, tmp_path / "all.zip")
    assert "lost row of plants" in one_sentence(error)


@pytest.mark.skipif(not dbstat_is_there(), reason="this SQLite was built without dbstat")
def test_what_is_left_of_a_damaged_file_makes_a_new_journal(path, tmp_path):
    filled(path)
    spoil(path, "leaf_counts")
    with open_journal(path) as book:
        assert write_archive(book, tmp_path / "all.zip") == ("leaf_counts",)
    with open_journal(tmp_path / "new.sqlite") as new:
        read_archive(new, tmp_path / "all.zip")
        assert len(plants.all_plants(new)) == 50
        rows = new.rows("SELECT count(*) FROM leaf_counts")[0][0]
        assert 300 < rows < 600  # all but what stood on one page


@pytest.mark.skipif(not dbstat_is_there(), reason="this SQLite was built without dbstat")
def test_damage_found_on_the_way_stops_writing(path, monkeypatch):
    monkeypatch.setattr("diagnose.journal.open.CHECKED_BYTES", 0)
    filled(path)
    spoil(path, "plants")
    with open_journal(path) as book:
        assert book.problem is None
        with pytest.raises(BadInputError) as error:
            plants.all_plants(book)
        assert "damage" in one_sentence(error)
        with pytest.raises(BadInputError):
            counts.add_count(book, 1, LeafCount(date=START, present=1))


def old_version(path, number):
    """A journal as an earlier version of the program left it."""
    path.parent.mkdir()
    db = sqlite3.connect(path, isolation_level=None)
    db.execute("PRAGMA journal_mode = WAL")
    for migration in MIGRATIONS[:number]:
        migration(db)
    db.execute(f"PRAGMA application_id = {APPLICATION_ID}")
    db.execute(f"PRAGMA user_version = {number}")
    db.execute("INSERT INTO plants (name) VALUES ('Kettle')")
    db.execute(
        "INSERT INTO leaf_counts (plant_id, date, present) VALUES (1, '2026-01-01', 5), (1, '2026-01-08', 4)"
    )
    if MIGRATIONS.index(schema.stretches) < number:  # from then on every count was summed up as it came
        rebuild(db)
    db.close()


@pytest.mark.parametrize("number", range(1, VERSION))
def test_an_old_journal_is_copied_then_brought_up_to_date(path, number):
    old_version(path, number)
    with open_journal(path) as book:
        assert [plant.name for plant in plants.all_plants(book)] == ["Kettle"]
        assert counts.leaf_totals(book)[0].counts == 2
        assert book.db.execute("PRAGMA user_version").fetchone()[0] == VERSION
    copy = path.with_name(f"{path.name}.version-{number}")
    assert stat.S_IMODE(copy.stat().st_mode) == 0o600
    with sqlite3.connect(copy) as db:
        assert db.execute("PRAGMA user_version").fetchone()[0] == number
        assert db.execute("SELECT count(*) FROM leaf_counts").fetchone()[0] == 2
    db.close()


def test_a_migration_that_fails_changes_nothing(path, monkeypatch):
    old_version(path, 2)

    def failing(db):
        db.execute("UPDATE plants SET name = 'Lantern'")
        raise sqlite3.OperationalError("database or disk is full")

    monkeypatch.setattr("diagnose.journal.schema.MIGRATIONS", (*MIGRATIONS[:2], failing, *MIGRATIONS[3:]))
    with pytest.raises(sqlite3.OperationalError):
        open_journal(path)
    with sqlite3.connect(path) as db:
        assert db.execute("SELECT name FROM plants").fetchall() == [("Kettle",)]
        assert db.execute("PRAGMA user_version").fetchone()[0] == 2
    db.close()


def test_a_backup_is_whole_private_and_never_written_over(path, tmp_path):
    filled(path, 4)
    to = tmp_path / "copy.sqlite"
    with open_journal(path) as book:
        with book.writing():
            plants.add_plant(book, "Kettle")
        backup(book, to)
        with pytest.raises(BadInputError) as error:
            backup(book, to)
        assert "exists" in one_sentence(error)
    assert stat.S_IMODE(to.stat().st_mode) == 0o600
    with open_journal(to) as copy:
        assert len(plants.all_plants(copy)) == 5
        assert copy.problem is None
