"""Each check finds its slip, at its line, and lets the sound entry beside it pass."""

import datetime as dt

import pytest

from diagnose.case import Case
from diagnose.rulebase.check import CHECKS, severity
from diagnose.rulebase.load import load
from diagnose.rulecheck import check_rules
from small_rules import SMALL, entry


def evidence(
    when='{ fact = "window", is = "east" }',
    fires='{ window = "east" }',
    silent='{ window = "south" }',
    **more,
):
    """One more evidence rule, its id on line 2 and its condition on line 6."""
    fields = {
        "id": "mine",
        "cause": "dark",
        "speaks": "for",
        "because": "It is so.",
        "strength": "slight",
    } | more
    lines = ["[[evidence]]", *(f'{key} = "{value}"' for key, value in fields.items())]
    return "\n".join(
        [
            lines[0],
            lines[1],
            *lines[2:5],
            f"when = {when}",
            *lines[5:],
            'origin = "me, today"',
            f"fires = [{fires}]",
            f"silent = [{silent}]",
        ]
    )


def rule(rule_id, gives, when, fires, silent):
    return (
        f'[[rule]]\nid = "{rule_id}"\ngives = "{gives}"\nwhen = {when}\nbecause = "It is so."\norigin = "me, today"\n'
        f"fires = [{fires}]\nsilent = [{silent}]\n"
    )


def finding(finding_id):
    return f'[[finding]]\nid = "{finding_id}"\ntext = "it is {finding_id}"\n'


QUESTION = '[[question]]\nid = "mood"\nsubject = "light"\ntext = "How is it?"\nhelp = "Look at it."\nwhy = "To know."\nkind = "yes_no"\neffort = "look"\n'
ADVICE = entry("move").replace('"move"', '"turn"')
CAUSE = entry("dark").replace('"dark"', '"cold"')
CHILLY = evidence(
    '{ fact = "night_c", below = 5 }', "{ night_c = 3 }", "{ night_c = 5 }", id="chilly", cause="cold"
)
MILD = evidence(
    '{ fact = "night_c", above = 30 }',
    "{ night_c = 33 }",
    "{ night_c = 30 }",
    id="mild",
    cause="cold",
    speaks="against",
)
OTHERWISE = {"otherwise": "slight", "otherwise_because": "It is not so."}
MOOD = evidence('{{ fact = "mood", is = "yes" }}', '{{ mood = "yes" }}', "{{ {silent} }}", **OTHERWISE)
ASKS_EAST = rule(
    "east_rule", "eastern", '{ fact = "window", is = "east" }', '{ window = "east" }', '{ window = "north" }'
)
CIRCLE = (
    finding("odd")
    + finding("even")
    + rule("odd_rule", "odd", '{ any = [ { finding = "even" }, { fact = "window", is = "east" } ] }', '{ window = "east" }', '{ window = "north" }')
)  # fmt: skip
EVEN = rule("even_rule", "even", '{ finding = "odd" }', '{ window = "east" }', '{ window = "north" }')
EVEN_SOUND = rule(
    "even_rule", "even", '{ fact = "window", is = "east" }', '{ window = "east" }', '{ window = "north" }'
)
USES_BOTH = evidence('{ any = [ { finding = "odd" }, { finding = "even" } ] }')

CASES = {
    # check: (a house file that triggers it, the line it is told at, the like of it that does not)
    "toml": ("x = [", 1, "# nothing"),
    "shape": ('[[finding]]\nid = "x"\n', 1, finding("x")),
    "ids": (evidence(id="dim_speaks"), 2, evidence()),
    "names": (evidence('{ fact = "windw", is = "east" }'), 6, evidence()),
    "template": (evidence(because="It faces {night_c}."), 5, evidence(because="It faces {window}.")),
    "engine": (evidence("{ all = [" + '{ any = [ { fact = "window", is = "east" }, { finding = "dim" } ] },' * 7 + "] }"), 6, evidence()),
    "never": (evidence('{ fact = "night_c", above = 40 }', "{ night_c = 40 }", "{ night_c = 4 }"), 6, evidence('{ fact = "night_c", above = 39 }', "{ night_c = 40 }", "{ night_c = 4 }")),
    "always": (evidence('{ fact = "night_c", below = 99 }', "{ night_c = 40 }", '{ window = "east" }', speaks="against"), 6, evidence('{ fact = "night_c", below = 9 }', "{ night_c = 4 }", "{ night_c = 9 }")),
    "idle": (evidence('{ all = [ { fact = "window", is = "east" }, { fact = "night_c", at_least = 0 } ] }', '{ window = "east", night_c = 3 }'), 6, evidence('{ all = [ { fact = "window", is = "east" }, { fact = "night_c", at_least = 1 } ] }', '{ window = "east", night_c = 3 }')),
    "unconcluded": (finding("eastern") + evidence('{ any = [ { finding = "eastern" }, { fact = "window", is = "east" } ] }'), 2, finding("eastern") + ASKS_EAST + evidence('{ finding = "eastern" }')),
    "unused_finding": (finding("eastern") + ASKS_EAST, 2, finding("eastern") + ASKS_EAST + evidence('{ finding = "eastern" }')),
    "unused_question": (QUESTION, 2, QUESTION + evidence('{ fact = "mood", is = "yes" }', '{ mood = "yes" }', '{ mood = "no" }')),
    "unused_advice": (ADVICE, 2, ADVICE + CAUSE.replace('["move"]', '["turn"]') + CHILLY + "\n" + MILD),
    "one_sided": (CAUSE + CHILLY, 2, CAUSE + CHILLY + "\n" + MILD),
    "loop": (CIRCLE + EVEN + USES_BOTH, 18, CIRCLE + EVEN_SOUND + USES_BOTH),
    "same": (evidence('{ finding = "dim" }', '{ window = "north" }'), 6, evidence()),
    "opposite": (evidence('{ finding = "dim" }', '{ window = "north" }', speaks="against"), 6, evidence(speaks="against")),
    "overlap": (evidence('{ fact = "night_c", above = 20 }', "{ night_c = 21 }", "{ night_c = 20 }"), 6, evidence('{ fact = "night_c", below = 10 }', "{ night_c = 9 }", "{ night_c = 10 }")),
    "example": (evidence(fires='{ window = "south" }'), 9, evidence()),
    "unseen": (QUESTION + MOOD.format(silent='window = "south"'), 16, QUESTION + MOOD.format(silent='mood = "no"')),
}  # fmt: skip


@pytest.fixture
def folder(tmp_path):
    (tmp_path / "rules").mkdir()
    (tmp_path / "rules" / "base.toml").write_text(SMALL)
    return tmp_path / "rules"


def checked(folder, text, cases=tuple):
    own = folder.parent / "own.toml"
    own.write_text(text)
    return check_rules(load(folder, [own]), cases)


def test_the_sound_base_passes_every_check(folder):
    assert [problem.sentence() for problem in checked(folder, "")] == []


@pytest.mark.parametrize("check", CASES)
def test_a_check_finds_its_slip_and_nothing_else(folder, check):
    text, line, _ = CASES[check]
    found = checked(folder, text)
    assert {problem.check for problem in found} == {check}, [problem.sentence() for problem in found]
    assert found[0].line == line
    assert found[0].file.endswith("own.toml")


@pytest.mark.parametrize("check", CASES)
def test_a_check_lets_the_sound_like_pass(folder, check):
    found = checked(folder, CASES[check][2])
    assert check not in {problem.check for problem in found}, [problem.sentence() for problem in found]


def test_a_built_in_entry_needs_a_known_origin_and_a_house_entry_does_not(folder):
    assert {problem.check for problem in checked(folder, evidence())} == set()
    (folder / "more.toml").write_text(evidence())
    (problem,) = checked(folder, "")
    assert (problem.check, problem.line) == ("origin", 8)


def test_a_folder_that_is_not_there_is_told(folder):
    (problem,) = check_rules(load(folder, [folder / "nowhere"]))
    assert problem.check == "file"


def test_every_check_is_tried_here():
    assert CHECKS.keys() == CASES.keys() | {"file", "origin"}


def test_a_demo_case_also_counts_as_seen(folder):
    case = Case(date=dt.date(2026, 1, 14), answers={"mood": False})
    text = CASES["unseen"][0]
    assert checked(folder, text, lambda: [case]) == []


@pytest.mark.parametrize(
    ("when", "check"),
    [
        ('{ all = [ { fact = "window", is = "east" }, { fact = "window", is = "south" } ] }', "never"),
        ('{ all = [ { fact = "night_c", below = 5 }, { fact = "night_c", above = 9 } ] }', "never"),
        ('{ all = [ { fact = "night_c", below = 5 }, { fact = "night_c", at_least = 5 } ] }', "never"),
        ('{ fact = "night_c", below = 0 }', "never"),
        ('{ fact = "night_c", between = [41, 50] }', "never"),
        ('{ any = [ { fact = "window", is = "east" }, { fact = "night_c", is = 50 } ] }', "never"),
        ('{ fact = "window", one_of = ["north", "east", "south"] }', "always"),
        ('{ any = [ { fact = "window", is = "east" }, { fact = "window", is_not = "east" } ] }', "always"),
        ('{ any = [ { fact = "night_c", below = 9 }, { fact = "night_c", at_least = 9 } ] }', "always"),
        ('{ all = [ { fact = "night_c", at_most = 5 }, { fact = "night_c", at_least = 5 } ] }', None),
        ('{ any = [ { fact = "night_c", below = 9 }, { fact = "night_c", above = 9 } ] }', None),
        ('{ fact = "night_c", is = 40 }', None),
    ],
)
def test_what_can_never_or_will_always_hold(folder, when, check):
    found = {problem.check for problem in checked(folder, evidence(when))} & {"never", "always", "idle"}
    assert found == ({check} if check else set())


def test_the_same_said_through_otherwise_is_found(folder):
    text = evidence(
        '{ fact = "window", is_not = "east" }',
        speaks="against",
        fires='{ window = "south" }',
        silent='{ window = "east" }',
    )
    double = evidence(id="double", **OTHERWISE)
    found = [problem for problem in checked(folder, text + "\n" + double) if problem.check == "same"]
    assert [problem.key for problem in found] == ["evidence double, otherwise"]


def test_an_example_that_fails_says_what_it_lacks(folder):
    text = evidence(
        '{ all = [ { finding = "dim" }, { fact = "night_c", below = 9 } ] }',
        '{ window = "south", night_c = 9 }',
    )
    (problem,) = checked(folder, text)
    assert problem.mend == "in it dim is not concluded, night_c = 9.0 does not pass"
    assert severity(problem) == "fault"


def test_examples_of_overridden_and_switched_off_rules_are_not_run(folder):
    base = SMALL.replace("fires = [ { night_c = 18 } ]", "fires = [ { night_c = 8 } ]")
    (folder / "base.toml").write_text(base)
    assert {problem.check for problem in checked(folder, "")} == {"example"}
    assert "example" not in {problem.check for problem in checked(folder, 'switch_off = ["warm_speaks"]')}
    mended = entry("warm_speaks").replace('id = "warm_speaks"', 'id = "warm_speaks"\noverride = true')
    assert checked(folder, mended) == []


def test_a_finding_silenced_by_its_grower_is_no_fault(folder):
    found = checked(folder, 'switch_off = ["dim_in_the_north"]')
    assert "unconcluded" not in {problem.check for problem in found}


def test_without_a_base_that_the_engine_holds_no_example_is_run(folder):
    text = CASES["engine"][0] + "\n" + evidence(id="other", fires='{ window = "south" }')
    assert {problem.check for problem in checked(folder, text)} >= {"engine"}
    assert "example" not in {problem.check for problem in checked(folder, text)}
