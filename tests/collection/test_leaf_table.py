"""Leaf counts from tables that other programs and people wrote."""

import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.collection.leaf_table import chosen_columns, guess_columns, read_rows, read_table
from diagnose.language import speak
from diagnose.problems import BadInputError

DAY = dt.date(2026, 6, 1)


@pytest.mark.parametrize(
    ("header", "expected"),
    [
        (
            "plant,date,leaves,new,lost",
            {"plant": "plant", "date": "date", "leaves": "leaves", "new": "new", "lost": "lost"},
        ),
        (
            "Name;Counted on;Leaf count;Dropped",
            {"plant": "Name", "date": "Counted on", "leaves": "Leaf count", "lost": "Dropped"},
        ),
        (
            "Day\tSpecimen\tTotal\tNew leaves\tShelf",
            {"plant": "Specimen", "date": "Day", "leaves": "Total", "new": "New leaves", "place": "Shelf"},
        ),
        (
            "id,Lost leaves,Leaves present,Date of count",
            {"plant": "id", "date": "Date of count", "leaves": "Leaves present", "lost": "Lost leaves"},
        ),
    ],
)
def test_columns_are_guessed_from_their_names(header, expected):
    table = read_table(header + "\n1,1,1,1,1\n", "x.csv")
    assert dict(guess_columns(table).of) == expected


@pytest.mark.parametrize("header", ["Pflanze;Datum;Blätter;verloren;Ort", "Name;Date;Leaves;Lost;Place"])
def test_columns_may_be_called_as_in_the_language_spoken_or_in_english(header):
    speak("de")
    table = read_table(header + "\n1;1;1;1;1\n", "x.csv")
    assert dict(guess_columns(table).of) == dict(
        zip(("plant", "date", "leaves", "lost", "place"), header.split(";"), strict=True)
    )


def rows(text, told=""):
    table = read_table(text, "x.csv")
    return read_rows(table, chosen_columns(table, told), DAY, "x.csv")


def test_rows_are_read():
    found, problems = rows(
        "\ufeffplant,date,leaves,new,lost,which,place\nKettle,2026-05-01,5,1,0,Oldest,hall\n"
    )
    assert problems == ()
    assert found[0].plant == "Kettle"
    assert found[0].count.model_dump() == {
        "date": dt.date(2026, 5, 1),
        "present": 5,
        "new": 1,
        "lost": 0,
        "lost_which": "oldest",
    }
    assert found[0].place == "hall"


@pytest.mark.parametrize(
    ("cells", "expected"),
    [
        ("2026-03-04", dt.date(2026, 3, 4)), ("4.3.2026", dt.date(2026, 3, 4)), ("04/03/2026", dt.date(2026, 3, 4)),
        ("2026-03-04 18:30:00", dt.date(2026, 3, 4)), ("2026-03-04T18:30:00Z", dt.date(2026, 3, 4)), ("4 March 2026", dt.date(2026, 3, 4)),
    ],
)  # fmt: skip
def test_dates_of_many_forms(cells, expected):
    found, problems = rows(f"plant,date,leaves\nKettle,{cells},5\n")
    assert problems == ()
    assert found[0].count.date == expected


def test_a_day_above_twelve_shows_that_the_month_comes_first():
    found, _ = rows("plant,date,leaves\nKettle,03/04/2026,5\nKettle,03/25/2026,6\n")
    assert [row.count.date for row in found] == [dt.date(2026, 3, 4), dt.date(2026, 3, 25)]


def test_columns_told_are_taken():
    found, _ = rows("a,b,c\nKettle,2026-05-01,5\n", "plant=a,date=b,leaves=c")
    assert found[0].count.present == 5


@pytest.mark.parametrize(
    ("told", "words"),
    [
        ("plants=a", "did you mean 'plant'"),
        ("plant=aa", "one of a, b, c"),
        ("", "no column for plant, date and leaves"),
    ],
)
def test_columns_that_cannot_be_are_one_sentence(told, words):
    with pytest.raises(BadInputError, match=words):
        rows("a,b,c\nKettle,2026-05-01,5\n", told)


@pytest.mark.parametrize(
    "row",
    [
        "Kettle,2027-01-01,5,,", "Kettle,someday,5,,", ",2026-05-01,5,,", "Kettle,2026-05-01,,,", "Kettle,2026-05-01,five,,",
        "Kettle,2026-05-01,5001,,", "Kettle,2026-05-01,-1,,", "Kettle,2026-05-01,5.5,,", "Kettle,2026-05-01,nan,,", "Kettle,2026-05-01,inf,,",
        "Kettle,2026-05-01,5,1,upper", "Kettle,31/02/2026,5,,", "Kettle",
    ],
)  # fmt: skip
def test_a_bad_row_is_left_out_and_told_with_its_line(row):
    found, problems = rows(f"plant,date,leaves,new,which\nLantern,2026-05-01,4,,\n{row}\n")
    assert [one.plant for one in found] == ["Lantern"]
    (problem,) = problems
    assert problem.line == 3
    assert problem.sentence().endswith("the other rows are used.")


@pytest.mark.parametrize("text", ["", "\n\n", "plant,date,leaves\n", "only one line"])
def test_no_table_is_one_sentence(text):
    with pytest.raises(BadInputError):
        rows(text)


@given(st.text(max_size=200))
def test_no_text_breaks_it(text):
    try:
        rows("plant,date,leaves\n" + text)
    except BadInputError as error:
        assert all("\n" not in problem.sentence() for problem in error.problems)
