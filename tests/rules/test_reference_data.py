"""The shipped sources, plants, causes, cautions and advice: whole, joined up, sourced, and safe to follow."""

import re
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import tomli

from diagnose.rulebase.model import Advice, Cause, PlantProfile, RuleFile

RULES = Path(__file__).parents[2] / "rules"
FOLDERS = ("sources", "plants", "causes", "advice")
FILES = [path for folder in FOLDERS for path in sorted((RULES / folder).glob("*.toml"))]
CONTENT = {path: RuleFile.model_validate(tomli.loads(path.read_text(encoding="utf-8"))) for path in FILES}
SOURCES = {source.id: source for file in CONTENT.values() for source in file.source}
PLANTS = {plant.id: plant for file in CONTENT.values() for plant in file.plant}
CAUSES = {cause.id: cause for file in CONTENT.values() for cause in file.cause}
CAUTIONS = {caution.id: caution for file in CONTENT.values() for caution in file.caution}
ADVICE = {advice.id: advice for file in CONTENT.values() for advice in file.advice}
AROIDS = [plant for plant in PLANTS.values() if plant.family == "araceae"]

CAUSE_IDS = {
    *(
        "natural_turnover",
        "energy_deficit",
        "acclimation",
        "root_rot",
        "drought",
        "root_bound",
        "draft_or_chill",
    ),
    *("dry_air", "pests", "nutrient_deficiency", "salt_stress", "leaf_disease", "dormancy"),
}
WITHOUT_SOURCE = {"common practice", "from memory"}
SOURCE_ID = re.compile(r"\b[A-Z]-\d+[a-z]?\b")
UNPUBLISHED = SOURCE_ID.findall(
    "L-23 L-24 L-33 L-41 L-42 L-45 L-46 L-56 L-65 L-66 A-05 A-08 A-09 A-11 W-02 W-05 W-19 W-20 "
    "N-04 N-08 N-10 N-14 N-18 P-12 B-06 B-07 B-08 B-15 B-19 S-05 S-06 S-08 S-11 S-15"
)
"""Rows of our list of facts that rest on memory, arithmetic or inference: no rule may call them a source."""

each_file = pytest.mark.parametrize("path", FILES, ids=lambda path: f"{path.parent.name}/{path.stem}")
each_rule_file = pytest.mark.parametrize(
    "path",
    [path for path in FILES if path.parent.name != "sources"],
    ids=lambda path: f"{path.parent.name}/{path.stem}",
)
each_cause = pytest.mark.parametrize("cause", CAUSES.values(), ids=lambda cause: cause.id)
each_plant = pytest.mark.parametrize("plant", PLANTS.values(), ids=lambda plant: plant.id)
each_aroid = pytest.mark.parametrize("plant", AROIDS, ids=lambda plant: plant.id)
each_advice = pytest.mark.parametrize("advice", ADVICE.values(), ids=lambda advice: advice.id)


def _origins(value: Any, key: str = "") -> Iterator[str]:
    """Yield every origin named anywhere in a file's tables; each trait's value is one."""
    if isinstance(value, dict):
        for name, inner in value.items():
            yield from _origins(inner, "origin" if key == "traits" else name)
    elif isinstance(value, list):
        for inner in value:
            yield from _origins(inner, key)
    elif key in ("origin", "water_origin"):
        yield value


@each_file
def test_names_only_known_origins(path: Path) -> None:
    named = set(_origins(tomli.loads(path.read_text(encoding="utf-8"))))
    assert named <= SOURCES.keys() | WITHOUT_SOURCE
    assert named or CONTENT[path].source


@each_rule_file
def test_ids_of_sources_in_sentences_and_comments_exist(path: Path) -> None:
    mentioned = set(SOURCE_ID.findall(path.read_text(encoding="utf-8")))
    assert mentioned <= SOURCES.keys()


def test_every_id_is_given_once() -> None:
    for table in ("source", "plant", "cause", "caution", "advice"):
        ids = Counter(entry.id for file in CONTENT.values() for entry in getattr(file, table))
        assert [name for name, count in ids.items() if count > 1] == []


def test_memory_and_arithmetic_are_no_sources() -> None:
    assert SOURCES.keys().isdisjoint(UNPUBLISHED)


@each_file
def test_no_place_on_a_machine_is_named(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert not re.search(r"(?<![\w.])/(home|work|tmp|usr|var|mnt)/", text)


def test_the_causes_are_the_agreed_ones_each_in_its_own_file() -> None:
    assert CAUSES.keys() == CAUSE_IDS
    for path, content in CONTENT.items():
        if path.parent.name == "causes":
            assert [cause.id for cause in content.cause] == [path.stem]


@each_cause
def test_priors_start_below_even_odds(cause: Cause) -> None:
    # Published tables name age, light and feed most for old leaves; leaf disease is rare indoors (P-10).
    assert -14 <= cause.prior_db <= -2
    assert CAUSES["leaf_disease"].prior_db <= cause.prior_db <= CAUSES["natural_turnover"].prior_db


@each_cause
def test_a_cause_names_known_steps_in_their_order(cause: Cause) -> None:
    assert set(cause.advice) <= ADVICE.keys()
    orders = [ADVICE[name].order for name in cause.advice]
    assert orders == sorted(orders)
    assert ADVICE[cause.advice[0]].effort in ("think", "look", "touch")


@each_cause
def test_no_cause_holds_back_its_own_steps(cause: Cause) -> None:
    assert [name for name in cause.advice if cause.id in ADVICE[name].unless] == []


def test_every_step_is_used_and_there_are_enough() -> None:
    used = {name for cause in CAUSES.values() for name in cause.advice}
    assert ADVICE.keys() == used
    assert len(ADVICE) >= 45


@each_advice
def test_a_step_points_at_known_causes_and_cautions(advice: Advice) -> None:
    assert set(advice.unless) <= CAUSES.keys()
    assert set(advice.caution) <= CAUTIONS.keys()


def test_looking_comes_before_unpotting() -> None:
    looks = [advice.order for advice in ADVICE.values() if advice.effort == "look"]
    unpots = [advice.order for advice in ADVICE.values() if advice.effort == "unpot"]
    assert max(looks) < min(unpots)


@pytest.mark.parametrize(
    ("words", "caution"),
    [
        (r"clean blade|cut every|Cut the stalk|Cut 2 cm|cut away", "blade"),
        (r"\blamps?\b|heat mat|humidifier|small fan", "lamp"),
        (r"insecticidal soap|[Ff]ungicide", "pesticide"),
        (r"70 % alcohol", "alcohol"),
    ],
)
def test_what_can_hurt_carries_its_caution(words: str, caution: str) -> None:
    risky = {a.id for a in ADVICE.values() if re.search(words, f"{a.text} {a.how}")}
    assert risky
    assert {name for name in risky if caution not in ADVICE[name].caution} == set()


@pytest.mark.parametrize(
    "name",
    ["soak_root_ball", "water_at_top_dry", "refill_reservoir", "feed_ramp", "feed_in_water", "leach_pot"],
)
def test_more_water_or_feed_waits_for_the_roots(name: str) -> None:
    assert "root_rot" in ADVICE[name].unless
    assert "root" in ADVICE[name].hold_until


def test_there_are_plants_enough_and_each_genus_has_one_profile() -> None:
    assert len(PLANTS) - 1 >= 25
    genera = Counter(genus for plant in PLANTS.values() for genus in plant.genera)
    assert [genus for genus, count in genera.items() if count > 1] == []


def test_the_generic_profile_claims_nothing() -> None:
    generic = PLANTS["generic"]
    assert generic.traits == {}
    assert set(generic.needs.model_dump().values()) == {None}
    assert (generic.form, generic.water) == ("any", "any")


@each_plant
def test_a_plant_carries_known_cautions_and_says_whether_it_harms(plant: PlantProfile) -> None:
    assert set(plant.caution) <= CAUTIONS.keys()
    assert plant.toxicity


@each_aroid
def test_aroids_warn_of_their_sap(plant: PlantProfile) -> None:
    # Calcium oxalate needles run through the whole family (B-17).
    assert {"sap", "pets_children"} <= set(plant.caution)


@pytest.mark.parametrize("plant", [p for p in PLANTS.values() if p.needs.light], ids=lambda plant: plant.id)
def test_light_needs_are_the_published_classes(plant: PlantProfile) -> None:
    """Foot-candles of Georgia Extension B 1318 (L-50, L-51) x 0.2 (L-20) x 8 h x 0.0036 (L-11).

    The African violet alone has a range of its own: 4-6 mol/m²/d (Runkle, L-58).
    """
    assert plant.needs.light is not None
    classes = [foot_candles * 0.2 * 8 * 0.0036 for foot_candles in (25, 75, 200, 500, 1000)]
    for value in (plant.needs.light.least_dli_mol_m2_d, plant.needs.light.good_dli_mol_m2_d):
        close = [step for step in classes if value == pytest.approx(step, rel=0.03)]
        assert close or (plant.id, value) == ("saintpaulia", 4.0)


@each_aroid
def test_aroids_chill_within_the_published_range(plant: PlantProfile) -> None:
    # Chen, EDIS EP530 and EP103: tropical foliage is chilled from just above 0 to 15 degrees.
    assert plant.needs.warmth is not None
    assert 0 < plant.needs.warmth.chill_c <= 15


def test_alocasia_agrees_with_its_culture_sheet() -> None:
    # nights of at least 18-21, days of 23-33 degrees; A-22: 18 at least.
    warmth = PLANTS["alocasia"].needs.warmth
    assert warmth is not None
    assert 18 <= warmth.night_least_c <= 21
    assert warmth.day_most_c == 33
