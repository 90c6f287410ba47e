"""The journal from the command line, as its user would: typed lines in, plain lines out, one sentence on a fault."""

import datetime as dt
import io
import json
import random
import re
import sqlite3

import pytest

from diagnose.case import LeafCount
from diagnose.command import main
from diagnose.journal import cases, counts, open_journal, plants, rankings
from diagnose.journal.schema import VERSION
from diagnose.locations import demo_cases
from simulator import STEADY_CHANCE, counted, grow

TODAY = dt.date.today()  # noqa: DTZ011 - what the command takes for today


@pytest.fixture
def path(tmp_path):
    return tmp_path / "j.sqlite"


@pytest.fixture
def run(path, monkeypatch, capsys):
    def run(*words, typed=""):
        monkeypatch.setattr("sys.stdin", io.StringIO(typed))
        code = main([*map(str, words), "--journal", str(path)])
        out, err = capsys.readouterr()
        return code, out, err

    return run


def weeks_ago(n):
    return TODAY - dt.timedelta(weeks=n)


def test_a_shelf_is_counted_in_short_lines_each_saved_at_once(run, path):
    for name in ("Anvil", "Beacon", "Candle", "Drum"):
        run("journal", "add", name, "--place", "east sill")
    run("journal", "add", "Ember", "--place", "hall")
    code, out, _ = run(
        "count", "--place", "East Sill", "--date", weeks_ago(1), typed="5 1 0\n7\ns\n3 0 2 old\n"
    )
    assert code == 0
    assert "3 counts saved" in out
    code, out, _ = run("count", "--place", "east sill", typed="\n7 1 1\n9 0 0\nfive\nstop\n")
    assert "1/4 Anvil: 5 leaves" in out
    assert "Please type up to three numbers" in out
    with open_journal(path) as book:
        kept = {p.name: counts.counts_of(book, p.id) for p in plants.all_plants(book)}
    assert [c.present for c in kept["Anvil"]] == [5, 5]
    assert (kept["Anvil"][1].new, kept["Anvil"][1].lost) == (0, 0)
    assert kept["Drum"] == (LeafCount(date=weeks_ago(1), present=3, new=0, lost=2, lost_which="oldest"),)
    assert [len(kept[name]) for name in ("Beacon", "Candle", "Ember")] == [2, 1, 0]


def test_a_count_that_does_not_add_up_is_asked_again_and_kept_if_insisted(run, path):
    run("journal", "add", "Anvil")
    run("count", "--date", weeks_ago(1), typed="5\n")
    _, out, _ = run("count", typed="4 1 0\n4 1 0 !\n")
    assert "5 + 1 new - 0 lost makes 6, not 4" in out
    with open_journal(path) as book:
        assert counts.counts_of(book, 1)[-1].present == 4


def test_enter_on_the_day_of_a_count_keeps_that_count(run, path):
    run("journal", "add", "Anvil")
    run("count", typed="5 2 1\n")
    run("count", typed="\n")
    with open_journal(path) as book:
        assert counts.counts_of(book, 1)[-1].new == 2


def test_a_clock_set_back_is_told_before_anything_is_typed(run, path):
    run("journal", "add", "Anvil")
    with open_journal(path) as book:
        counts.add_count(book, 1, LeafCount(date=TODAY + dt.timedelta(days=40), present=5))
    code, _, err = run("count", typed="4\n")
    assert code == 2
    assert "this computer's clock says" in err
    assert err.count("\n") == 1
    code, _, _ = run("count", "--date", TODAY, typed="4\n")
    assert code == 0
    assert run("count", "--date", TODAY + dt.timedelta(days=1))[0] == 2


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["plants", "--sort", "size"], "--sort"),
        (["count", "--place", "nowhere"], "--place"),
        (["settle", "Anvil", "root_rott"], "did you mean 'root_rot'"),
        (["settle", "Anvil", "root_rot"], "no case of Anvil"),
        (["settle", "Anvill", "root_rot"], "did you mean 'Anvil'"),
        (["journal", "event", "repoted", "Anvil"], "did you mean 'repotted'"),
        (["journal", "event", "repotted"], "no plants"),
        (["journal", "event", "repotted", "Anvil", "--date", "tomorrow"], "--date"),
        (["journal", "photo", "Anvil", "none.jpg"], "no such file"),
        (["journal", "add", "anvil"], "a name of its own"),
        (["journal", "change", "Anvil", "--name", "beacon"], "a second plant called 'beacon'"),
        (["journal", "change", "Anvil", "--pot-cm", "-3"], "-3 cm"),
        (["journal", "change", "Anvil", "--pot-cm", "nan"], "nan cm"),
        (["journal", "add", "Candle", "--pot-cm", "inf"], "inf cm"),
        (["journal", "change", "Anvil", "--profile", "alocasai"], "did you mean 'alocasia'"),
        (["journal", "add", "x" * 2001], "2,001 characters"),
        (["journal", "event", "fed", "Anvil", "--note", "x" * 2001], "2,001 characters"),
        (["journal", "place", " ", "--at", "Leeds"], "no name"),
        (["journal", "place", "hall", "--at", "Nosuchtown Parva"], "--at"),
        (["journal", "take", "none.toml"], "no such file"),
        (["journal", "give", "Anvil", "out.toml"], "no case of Anvil"),
        (["journal", "restore", "none.zip"], "plants in it"),
        (["import", "none.csv"], "none.csv"),
    ],
)
def test_a_fault_is_one_sentence_and_changes_nothing(run, path, words, said):
    run("journal", "add", "Anvil")
    run("journal", "add", "Beacon")
    code, _, err = run(*words)
    assert code == 2
    assert said in err
    assert err.count("\n") == 1
    with open_journal(path) as book:
        assert [(p.name, p.pot_cm, p.profile) for p in plants.all_plants(book)] == [
            ("Anvil", None, None),
            ("Beacon", None, None),
        ]


def test_questions_about_a_plant_are_kept_as_they_are_answered_and_gone_on_with(run, path):
    run("journal", "add", "Anvil", "--profile", "alocasia")
    code, out, _ = run("ask", "--plant", "Anvil", typed="?\nyesterday\n1\nstop\n")
    assert code == 0
    assert f"Answers are kept in {path}" in out
    with open_journal(path) as book:
        (record,) = cases.cases_of(book, 1)
        told = cases.read_case_record(book, record)
        assert len(told.answers) == 2
        assert len(rankings.rankings_of(book, record.id)) == 1
    first = next(iter(told.answers))
    _, out, _ = run("ask", "--plant", "Anvil", typed="?\nstop\n")
    with open_journal(path) as book:
        assert len(cases.cases_of(book, 1)) == 1
        again = cases.read_case_record(book, record)
    assert again.answers == told.answers
    assert len(again.not_known) == 2
    assert first not in again.not_known


def test_a_case_from_first_file_to_what_it_was(run, path, tmp_path):
    code, out, _ = run("journal", "take", demo_cases() / "soggy_after_the_big_pot.toml", "--plant", "Anvil")
    assert code == 0
    code, out, _ = run("journal", "rank")
    assert "Rotting roots" in out
    document = json.loads(run("journal", "rank", "--json")[1])
    assert document["rankings"][0]["cause"] == "root_rot"
    assert run("followup")[1].startswith("Nothing is due")
    with open_journal(path) as book:  # as if it had been told six weeks ago
        assert book.rows("SELECT count(*) FROM steps WHERE look_again_on IS NOT NULL")[0][0] > 0
        with book.writing() as db:
            db.execute("UPDATE plans SET date = date(date, '-42 days')")
            db.execute(
                "UPDATE steps SET look_again_on = date(look_again_on, '-400 days'), due_on = date(due_on, '-400 days')"
            )
    (due,) = json.loads(run("followup", "--json")[1])["due"]
    assert due["plant"]["name"] == "Anvil"
    code, out, _ = run(
        "followup",
        typed="maybe\ny\nmaybe\nn\nthree more leaves gone\n"
        + "n\n" * (len(due["steps"]) - 1)
        + "root_rott\nRotting roots\nbrown roots\n",
    )
    assert code == 0
    assert "Please type y, n, a day not after" in out
    assert "Please type y, p, n, s or stop" in out
    assert "Noted." in out, "a step that only looks speaks for no cause"
    assert "Known causes:" in out
    assert "settled as rotting roots" in out
    assert run("followup")[1].startswith("Nothing is due")
    _, out, _ = run("learn")
    assert "1 settled case. The first cause was right in 1" in out
    assert json.loads(run("learn", "--json")[1])["learned"]["first_right"] == 1
    _, out, _ = run("journal", "show", "anvil")
    assert "settled: Rotting roots, mostly from staying wet  brown roots" in out
    code, _, _ = run("journal", "give", "Anvil", tmp_path / "out.toml")
    assert code == 0
    assert main(["rank", str(tmp_path / "out.toml")]) == 0


def test_settling_says_where_the_ranking_had_it(run):
    run("journal", "take", demo_cases() / "soggy_after_the_big_pot.toml", "--plant", "Anvil")
    run("journal", "rank")
    code, out, _ = run("settle", "Anvil", "root_rot", "--how", "unpotted it")
    assert code == 0
    assert "The last ranking had it at place 1" in out


def test_counts_come_in_from_a_table_after_a_yes(run, path, tmp_path):
    table = tmp_path / "counts.csv"
    table.write_text(
        "Name;Counted on;Total;Dropped;Shelf\nKettle;2026-03-01;5;;hall\nKettle;2026-03-08;4;1;hall\nMill;x;4;1;\n"
    )
    code, out, err = run("import", table, typed="n\n")
    assert code == 2
    assert "date    <- Counted on" in out
    assert "line 4" in err
    with open_journal(path) as book:
        assert plants.all_plants(book) == ()
    code, out, _ = run("import", table, "--yes")
    assert "2 counts taken in (0 were there already), 1 new plant." in out
    _, out, _ = run("import", table, "--yes")
    assert "0 counts taken in (2 were there already), 0 new plants" in out
    with open_journal(path) as book:
        (kettle,) = plants.all_plants(book)
        assert (kettle.place, len(counts.counts_of(book, kettle.id))) == ("hall", 2)


def test_out_and_in_again(run, path, tmp_path):
    run("journal", "add", "Anvil", "--place", "hall")
    run("count", typed="5\n")
    assert run("backup", tmp_path / "copy.sqlite")[0] == 0
    assert run("backup", tmp_path / "copy.sqlite")[0] == 2
    assert run("journal", "export", tmp_path / "all.zip")[0] == 0
    assert run("journal", "check")[0] == 0
    new = tmp_path / "new.sqlite"
    assert main(["journal", "restore", str(tmp_path / "all.zip"), "--journal", str(new)]) == 0
    with open_journal(new) as one, open_journal(tmp_path / "copy.sqlite") as other:
        assert counts.leaf_totals(one) == counts.leaf_totals(other)


def test_moves_are_noted_and_events_reach_a_whole_place(run, path):
    for name in ("Anvil", "Beacon"):
        run("journal", "add", name, "--place", "hall")
    run("journal", "change", "Anvil", "--place", "porch", "--kind", "monstera")
    run("journal", "event", "fed", "--place", "hall", "--note", "batch K", "--date", "3 weeks ago")
    with open_journal(path) as book:
        told = [(e.plant_id, e.kind, e.note, e.date) for e in plants.events(book)]
    assert told == [(2, "fed", "batch K", weeks_ago(3)), (1, "moved", "to porch", TODAY)]


def test_what_stands_out_reaches_the_ranking_as_a_fact_from_the_journal(run, path):
    with open_journal(path) as book:
        for n in range(12):
            plant = plants.add_plant(
                book, f"Plant {n}", place="porch" if n < 4 else "hall", kind="alocasia" if n % 2 else "fern"
            )
            if n < 4:
                rows = [
                    LeafCount(date=weeks_ago(60 - w), present=12, new=int(w > 45), lost=int(w > 45))
                    for w in range(61)
                ]
            else:
                case = counted(grow(STEADY_CHANCE, random.Random(n)))
                shift = TODAY - case.date
                rows = [row.model_copy(update={"date": row.date + shift}) for row in case.leaf_history]
            counts.add_counts(book, {plant.id: rows})
    _, out, _ = run("standout")
    assert re.search(
        r"^    (About|Fewer than) 1 in [\d,]+ findings as clear as this comes by chance \(p \S+\)$",
        out,
        re.MULTILINE,
    )
    assert "at porch: 4 of 4 such plants lose more than before" in out
    assert json.loads(run("standout", "--json")[1])["standout"]["shared"][0]["names"] == ["at porch"]
    assert run("plants", "--where", "losses=rising")[1].count("porch") == 4
    run("ask", "--plant", "Plant 1", typed="stop\n")
    with open_journal(path) as book:
        (record,) = cases.all_cases(book)
        (kept,) = rankings.rankings_of(book, record.id)
    assert kept.case.from_journal == {"neighbours_affected": "several_kinds"}
    assert kept.case.answers == {}
    house = path.with_name("house")
    house.mkdir()
    (house / "together.toml").write_text(TOGETHER)
    run("ask", "--plant", "Plant 2", "--rules", house, typed="stop\n")
    with open_journal(path) as book:
        kept = rankings.last_rankings(book)[cases.all_cases(book)[-1].id]
    assert kept.case.from_journal["collection_losses_rising_together"] is True
    assert "all_at_once" in [line.rule for cause in kept.causes for line in cause.lines]


TOGETHER = """
[[question]]
id = "collection_losses_rising_together"
subject = "plant"
kind = "yes_no"
effort = "look"
text = "Do many of your plants lose more leaves than usual at once?"
help = "The journal answers this where counts are kept."
why = "What hurts many plants at once is not in one pot."

[[evidence]]
id = "all_at_once"
cause = "draft_or_chill"
speaks = "for"
strength = "moderate"
when = { fact = "collection_losses_rising_together", is = "yes" }
because = "Many plants began to lose leaves together."
origin = "common practice"
fires = [{ collection_losses_rising_together = "yes" }]
silent = [{ collection_losses_rising_together = "no" }]
"""


@pytest.mark.parametrize(
    "words", [["plants"], ["standout"], ["learn"], ["followup", "--json"], ["journal", "show", "Anvil"]]
)
def test_looking_works_on_a_journal_that_can_only_be_read(run, path, words):
    run("journal", "add", "Anvil")
    with sqlite3.connect(path) as db:
        db.execute(f"PRAGMA user_version = {VERSION + 1}")
    db.close()
    code, out, err = run(*words)
    assert code == 0
    assert out
    assert err.count("\n") == 1
    assert "newer version" in err


@pytest.mark.parametrize(
    "words",
    [["count"], ["journal", "add", "Beacon"], ["journal", "event", "fed", "Anvil"], ["journal", "rank"]],
)
def test_writing_to_it_is_refused_in_one_sentence(run, path, words):
    run("journal", "add", "Anvil")
    with sqlite3.connect(path) as db:
        db.execute(f"PRAGMA user_version = {VERSION + 1}")
    db.close()
    code, out, err = run(*words, typed="5\n")
    assert "newer version" in err
    assert "saved" not in out
    assert code == (0 if words == ["journal", "rank"] else 2)


def test_every_command_of_the_journal_has_help(capsys):
    for words in (
        ["plants"],
        ["count"],
        ["standout"],
        ["followup"],
        ["settle"],
        ["learn"],
        ["import"],
        ["backup"],
        ["journal"],
    ):
        with pytest.raises(SystemExit) as end:
            main([*words, "--help"])
        assert end.value.code == 0
        assert capsys.readouterr().out


def test_a_slip_in_a_kind_is_refused_unless_one_insists(run, path):
    code, _, err = run("journal", "add", "Anvil", "--kind", "alocasai")
    assert code == 2
    assert "'alocasia'" in err.lower()
    assert "--insist" in err
    with open_journal(path) as book:
        assert plants.all_plants(book) == ()
    assert run("journal", "add", "Anvil", "--kind", "alocasai", "--insist")[0] == 0
    assert run("journal", "add", "Beacon", "--kind", "alocasai")[0] == 0, "the journal knows it now"
    assert run("journal", "add", "Candle", "--kind", "something else altogether")[0] == 0


@pytest.mark.parametrize(
    ("day", "told"),
    [("2026-02-30", "no day of the calendar"), ("9999-01-01", "lies ahead"), ("soonish", "found 'soonish'")],
)
def test_a_bad_day_is_told_with_what_is_wrong_with_it(run, day, told):
    run("journal", "add", "Anvil")
    for words in (["journal", "event", "fed", "Anvil"], ["count"]):
        code, _, err = run(*words, "--date", day)
        assert code == 2
        assert told in err
        assert err.count("\n") == 1


def test_a_recount_is_held_against_the_count_before_that_day(run, path):
    run("journal", "add", "Anvil")
    run("count", "--date", weeks_ago(1), typed="5\n")
    run("count", typed="6 1 0\n")
    code, out, _ = run("count", typed="9 1 0\n7 2 0\n")
    assert code == 0
    assert "5 + 1 new - 0 lost makes 6, not 9" in out
    assert "saved Anvil: 7 2 0, in place of 6 1 0 told before for that day" in out
    with open_journal(path) as book:
        assert [count.present for count in counts.counts_of(book, 1)] == [5, 7]


def test_steps_are_asked_one_by_one_and_none_is_judged_too_early(run, path):
    run("journal", "take", demo_cases() / "soggy_after_the_big_pot.toml", "--plant", "Anvil")
    run("journal", "rank")
    with open_journal(path) as book, book.writing() as db:
        db.execute("UPDATE plans SET date = date(date, '-42 days')")
        db.execute(
            "UPDATE steps SET look_again_on = date(look_again_on, '-400 days'), due_on = date(due_on, '-400 days')"
        )
        waiting = db.execute("SELECT count(*) FROM steps WHERE look_again_on IS NOT NULL").fetchone()[0]
    assert waiting > 1
    code, out, _ = run("followup", typed="yesterday\n" + "n\n" * (waiting - 1))
    assert code == 0
    assert "Too early to judge: look again on" in out
    assert out.count("Then there is nothing to judge yet.") == waiting - 1
    assert "Was it seen?" not in out
    assert "settled" not in out
    with open_journal(path) as book:
        assert book.rows("SELECT count(*) FROM follow_ups")[0][0] == 0
        assert book.rows("SELECT count(*) FROM steps WHERE done_on IS NOT NULL")[0][0] == 1


def test_prompts_take_the_letters_of_the_language_and_english_ones(run, tmp_path, monkeypatch):
    monkeypatch.setenv("LANGUAGE", "de")
    table = tmp_path / "counts.csv"
    table.write_text("plant,date,leaves\nKettle,2026-03-01,5\n")
    assert run("import", table, typed="n\n")[0] == 2
    code, out, _ = run("import", table, typed="j\n")
    assert (code, "1 Zählung übernommen" in out) == (0, True)
    assert run("import", table, typed="yes\n")[0] == 0
