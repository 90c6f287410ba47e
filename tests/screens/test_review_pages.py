"""The further pages of the review: each by one key, each with its answer, none changes the case."""

import pytest

from diagnose import locations
from diagnose.casefile import read_case
from diagnose.screens.questions import QuestionsScreen
from diagnose.screens.review import ReviewScreen
from looking import compare, settled, shows, text_of, until

SIZES = [(80, 24), (120, 36), (160, 45)]
ANSWERS = {
    "drooping": "whole_plant",
    "medium_when_drooping": "wet",
    "standing_water": True,
    "night_low_c": 17.0,
}
each_size = pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[0]}x{size[1]}")


@pytest.fixture
def case(saved):
    return saved(title="Wet feet", answers=ANSWERS, not_known=("place", "days_since_moved"))


async def review(pilot, *keys):
    """Open the ranking and press keys there."""
    await until(pilot, lambda: isinstance(pilot.app.screen, QuestionsScreen))
    await pilot.press("f8")
    await until(pilot, lambda: isinstance(pilot.app.screen, ReviewScreen))
    await settled(pilot)
    await pilot.press(*keys)
    await settled(pilot)


@each_size
async def test_how_each_page_looks(make_app, case, size):
    async with make_app(case).run_test(size=size) as pilot:
        await review(pilot)
        for key, page in (("3", "why_not"), ("4", "next"), ("5", "what_if"), ("6", "sure"), ("7", "plan")):
            await pilot.press(key)
            await settled(pilot)
            compare(pilot.app, f"page_{page}_{size[0]}x{size[1]}")


async def test_why_not_each_other_cause_by_one_key(make_app, case):
    async with make_app(case).run_test(size=(120, 36)) as pilot:
        await review(pilot, "3")
        await shows(pilot, "Why not another cause than rotting roots", "Too dry at the roots", "26 dB behind")
        await shows(pilot, "against it: Water stands in the saucer, so it is not")


async def test_two_causes_side_by_side_add_up(make_app, case):
    async with make_app(case).run_test(size=(120, 36)) as pilot:
        await review(pilot, "3", "down")
        await shows(pilot, "Why rotting roots, not too dry at the roots", "leads by 26 dB (97 % against 7 %)")
        (total,) = [line for line in text_of(pilot.app).splitlines() if "in all" in line]
        one, other = (float(word) for word in total.split("in all")[1].split())
        ranking = pilot.app.screen.reasoner.diagnosis.ranking
        assert (one, other) == (ranking.of("root_rot").score_db, ranking.of("drought").score_db) == (15, -11)
        await shows(
            pilot, "What could still put too dry at the roots first", "No open question speaks for it."
        )


async def test_the_overview_leads_to_the_comparison_and_on_to_a_question(make_app, saved):
    path = saved(answers={"drooping": "whole_plant", "standing_water": True, "night_low_c": 17.0})
    async with make_app(path).run_test(size=(120, 36)) as pilot:
        await review(pilot, "3", "tab", "down", "enter")
        await shows(pilot, "Why rotting roots, not", "in all")
        await until(pilot, lambda: pilot.app.screen.query_one("#causes").highlighted == 2)


async def test_what_to_check_tells_what_each_answer_would_do_and_goes_there(make_app, saved):
    path = saved(answers={"drooping": "whole_plant", "standing_water": True, "night_low_c": 17.0})
    async with make_app(path).run_test(size=(120, 36)) as pilot:
        await review(pilot, "4")
        await shows(
            pilot,
            "When it droops, is the soil wet or dry?",
            "if wet",
            "82 % likely",
            "rotting roots 64 % to 97 %",
        )
        await pilot.press("enter")
        await shows(pilot, "When it droops, is the soil wet or dry?", "How to look")


async def test_questions_that_hardly_matter_say_so(make_app, case):
    async with make_app(case).run_test(size=(120, 36)) as pilot:
        await review(pilot, "4")
        await shows(
            pilot,
            "a good",
            "moment to stop",
            "These would hardly move the ranking",
            "Which of these do you see?",
        )


async def test_a_wrong_answer_is_marked_with_what_would_come_of_it(make_app, saved):
    path = saved(answers={"drooping": "whole_plant", "medium_when_drooping": "wet", "night_low_c": 17.0})
    async with make_app(path).run_test(size=(120, 36)) as pilot:
        await review(pilot, "5")
        await shows(
            pilot,
            "What would change the first place",
            "not “wet” but “dry”",
            "then too dry at the roots comes first",
        )
        await shows(pilot, "Your answers, one by one", "if dry: too dry at the roots first")


async def test_another_answer_is_supposed_freely_and_taken_back(make_app, case):
    before = case.read_bytes()
    async with make_app(case).run_test(size=(120, 45)) as pilot:
        await review(pilot, "5", "end")
        await pilot.press("enter")
        await shows(pilot, "What if the answer were another?", "Your case stays as it is.")
        await pilot.press("2")
        await settled(pilot)
        await shows(pilot, "Supposed; your case stays as it is", "not “yes” but “no”", "before")
        asked = pilot.app.screen.reasoner.diagnosis
        after = pilot.app.loader.get().what_if(asked, {"standing_water": False})
        assert after.after.scores["root_rot"] == after.before.scores["root_rot"] - 7.5
        await pilot.press("home", "enter")
        await settled(pilot)
        await until(pilot, lambda: "Supposed;" not in text_of(pilot.app))
        await pilot.press("escape")
        await until(pilot, lambda: isinstance(pilot.app.screen, QuestionsScreen))
        assert pilot.app.screen.questionnaire.case.answers == ANSWERS
    assert case.read_bytes() == before


async def test_how_sure_in_words_and_numbers_with_what_it_hangs_on(make_app, case):
    async with make_app(case).run_test(size=(120, 60)) as pilot:
        await review(pilot, "6")
        firm = pilot.app.screen.reasoner.how_firm()
        await shows(
            pilot,
            f"the first place is {firm.word}",
            "keep rotting roots first",
            "The answers it hangs on most",
        )
        await shows(pilot, "What pulls two ways", "What each likely cause explains", "Rotting roots (97 %)")
        await pilot.press("enter")
        await shows(pilot, firm.hangs_on.question.text, "How to look")


async def test_the_plan_names_its_causes(make_app, case):
    async with make_app(case).run_test(size=(80, 24)) as pilot:
        await review(pilot, "7")
        await shows(
            pilot, "What to do, for rotting roots (97 %)", "A plan from answers, not from the plant itself"
        )


@pytest.mark.parametrize("size", [(80, 24), (120, 36)])
async def test_arrows_turn_through_all_pages_and_back(make_app, case, size):
    async with make_app(case).run_test(size=size) as pilot:
        await review(pilot)
        for page in ("about", "why-not", "next", "what-if", "sure", "plan", "charts", "reasons"):
            await pilot.press("right")
            await settled(pilot)
            await until(
                pilot, lambda page=page: pilot.app.screen.query_one("ContentSwitcher").current == page
            )
        await pilot.press("left", "left")
        await until(pilot, lambda: pilot.app.screen.query_one("ContentSwitcher").current == "plan")


async def test_pages_about_the_case_take_the_room_on_small_screens(make_app, case):
    async with make_app(case).run_test(size=(80, 24)) as pilot:
        await review(pilot, "6")
        assert not pilot.app.screen.query_one("#causes").display
        await pilot.press("1")
        await until(pilot, lambda: pilot.app.focused is pilot.app.screen.query_one("#causes"))
        await shows(pilot, "1  Rotting roots", "in all")


@pytest.mark.parametrize("text", ["[/ $accent", "[b]bold[/b] \\[", "[@click=app.quit]x"])
async def test_hostile_text_on_every_page(make_app, saved, tmp_path, text):
    quoted = text.replace("\\", "\\\\")
    house = tmp_path / "house.toml"
    house.write_text(
        f'[[question]]\nid = "odd"\nsubject = "plant"\nkind = "choice"\neffort = "look"\ntext = "Odd {quoted}?"\n'
        f'help = "Help"\nwhy = "Why"\nchoices = [{{ id = "a", label = "one {quoted}" }}, {{ id = "b", label = "two {quoted}" }}]\n'
        f'[[cause]]\nid = "odd_cause"\nname = "Cause {quoted}"\nwhat = "What"\nlooks = "Looks"\nsettles = "Settles"\n'
        f'prior_db = -6\norigin = "my notes"\n'
        f'[[evidence]]\nid = "odd_evidence"\ncause = "odd_cause"\nspeaks = "for"\nstrength = "strong"\n'
        f'when = {{ fact = "odd", is = "a" }}\nbecause = "Because {quoted}"\norigin = "my notes"\n'
        f'fires = [{{ odd = "a" }}]\nsilent = [{{ odd = "b" }}]\n',
        encoding="utf-8",
    )
    path = saved(title=text, answers=ANSWERS | {"odd": "a"})
    async with make_app(path, house=[house]).run_test(size=(120, 60)) as pilot:
        await review(pilot, "3")
        await shows(pilot, f"Cause {text}", f"Because {text}")
        await pilot.press("4")
        await settled(pilot)
        await pilot.press("5")
        await settled(pilot)
        await shows(pilot, f"Odd {text}? one {text}")
        await pilot.press("6")
        await settled(pilot)
        await shows(pilot, f"Cause {text}")
        await pilot.press("7", "8")
        await settled(pilot)
        await pilot.press("end")
        await shows(pilot, f"Cause {text}")


async def test_no_colour_on_the_further_pages(make_app, case, monkeypatch):
    monkeypatch.setenv("NO_COLOR", "1")
    app = make_app(case)
    async with app.run_test(size=(120, 36)) as pilot:
        await review(pilot)
        for key in "345678":
            await pilot.press(key)
            await settled(pilot)
            styles = [segment.style for strip in app.screen._compositor.render_strips() for segment in strip]
            colours = {str(c.name) for style in styles if style for c in (style.color, style.bgcolor) if c}
            assert colours <= {"default"}, key
        assert locations.user_cases().exists()
        assert read_case(case)[1] == ()


async def test_the_heads_of_a_comparison_are_whole(make_app, case):
    async with make_app(case).run_test(size=(120, 36)) as pilot:
        await review(pilot, "3", "down")
        await shows(pilot, "in all")
        stacked = [line.split("│", 1)[-1].split() for line in text_of(pilot.app).splitlines()]
        assert ["Rotting", "Too", "dry", "at"] in stacked
        assert ["roots", "the", "roots"] in stacked
        assert "…" not in text_of(pilot.app)


async def test_pages_are_first_drawn_at_the_width_they_have(make_app, case, monkeypatch):
    from diagnose.screens import review as screen
    from diagnose.screens.sections import entries, reasons

    drawn = {"ranking": set(), "ledger": set(), "rows": set()}
    rank_row, ledger_rows, remark = screen.rank_row, reasons.ledger_rows, entries.remark

    def ranked(cause, width):
        drawn["ranking"].add(width)
        return rank_row(cause, width)

    def ledger(diagnosis, cause, opened, width):
        drawn["ledger"].add(width)
        return ledger_rows(diagnosis, cause, opened, width)

    def remarked(text, width, *style):
        drawn["rows"].add(width)
        return remark(text, width, *style)

    monkeypatch.setattr(screen, "rank_row", ranked)
    monkeypatch.setattr(reasons, "ledger_rows", ledger)
    monkeypatch.setattr("diagnose.screens.sections.worked.remark", remarked)
    monkeypatch.setattr("diagnose.screens.sections.check_next.remark", remarked)
    async with make_app(case).run_test(size=(120, 36)) as pilot:
        await review(pilot, "4")
        await shows(pilot, "What to check next")
    assert all(len(widths) == 1 for widths in drawn.values()), drawn


async def test_the_search_tells_how_far_it_is_blocks_no_other_page_and_stops_when_it_is_left(
    make_app, case, monkeypatch
):
    import time

    ended = []

    def endless(supposing):
        try:
            while True:
                supposing.suppose({"standing_water": False})
                time.sleep(0.01)
        except BaseException as error:
            ended.append(type(error).__name__)
            raise

    monkeypatch.setattr("diagnose.screens.sections.apart.what_would_change", endless)
    monkeypatch.setattr("diagnose.screens.sections.what_if.TELL_EVERY_S", 0.05)
    async with make_app(case).run_test(size=(120, 36)) as pilot:
        await until(pilot, lambda: isinstance(pilot.app.screen, QuestionsScreen))
        await pilot.press("f8")
        await until(pilot, lambda: isinstance(pilot.app.screen, ReviewScreen))
        await pilot.press("5")
        await shows(pilot, "Looking for the fewest answers that would", "suppositions tried so far")
        await pilot.press("4")
        await shows(pilot, "What to check next", "These would hardly move the ranking")
        await settled(pilot)
        assert ended == ["StoppedError"]
        await pilot.press("5")
        await shows(pilot, "Looking for the fewest answers that would")
        await until(pilot, lambda: any(worker.is_running for worker in pilot.app.workers))
        await pilot.press("r")
        await settled(pilot)
        assert ended == ["StoppedError"] * 2
