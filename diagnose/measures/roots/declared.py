"""The names that the measures of roots and water provide."""

from diagnose.language import marked
from diagnose.measures.measure import Declaration
from diagnose.measures.roots.indices import DRY_QUESTIONS, WET_QUESTIONS

_POT = ("pot_top_cm", "pot_base_cm", "pot_height_cm")
DRYING_QUESTIONS = (
    *_POT,
    "pot_kind",
    "medium",
    "reservoir_height_cm",
    "leaves_standing",
    "leaves_before",
    "repot_step",
    "days_since_repotted",
    "dries_in_d",
    "day_temp_c",
    "humidity_percent",
    "place",
    "plant",
)

DECLARED: tuple[Declaration, ...] = (
    Declaration(
        "pot_volume_l", marked("what the pot holds"), "geometry of a cut cone", "L", (), 0, 1000, _POT
    ),
    Declaration(
        "air_filled_percent",
        marked("share of the drained medium that is air, on average over the pot's height"),
        "Passioura 2006; Bilderback & Fonteno 1987; Int. J. Agronomy 2012, 978528; rest from memory",
        "%",
        (),
        0,
        100,
        (*_POT, "medium", "reservoir_height_cm"),
    ),
    Declaration(
        "reservoir_share_percent",
        marked("height of the standing water against the pot's height"),
        "ratio of the two heights; a quarter to a third is common practice",
        "%",
        (),
        0,
        100,
        ("reservoir_height_cm", "pot_height_cm"),
    ),
    Declaration(
        "days_to_dry",
        marked("days from soaking until the plant wants water again, expected"),
        "water in the pot over water use; J. Environ. Hort. 10(2):11; rest from memory",
        "d",
        (),
        0,
        1e5,
        DRYING_QUESTIONS,
    ),
    Declaration(
        "watering_ratio",
        marked("expected days to dry over the grower's interval: above 1, watered before it is dry"),
        "ratio of the two",
        "",
        (),
        0,
        1e5,
        (*DRYING_QUESTIONS, "watering_every_d"),
    ),
    Declaration(
        "overwatering_index",
        marked("how strongly the answers speak of too much water"),
        "sum of the points named in the remark; weights are common practice, no source",
        "",
        (),
        0,
        100,
        tuple(dict.fromkeys((*WET_QUESTIONS, *DRYING_QUESTIONS, "watering_every_d"))),
    ),
    Declaration(
        "drought_index",
        marked("how strongly the answers speak of too little water"),
        "sum of the points named in the remark; weights are common practice, no source",
        "",
        (),
        0,
        100,
        tuple(dict.fromkeys((*DRY_QUESTIONS, *DRYING_QUESTIONS, "watering_every_d", "days_since_watered"))),
    ),
)
