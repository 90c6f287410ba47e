"""Why a published row's first cause does not come first: one reason a row, for the test and the report."""

_TIPS = (
    "sheets disagree on brown tips or edges alone: dry air, salts, rot, drought, potassium and anthracnose each come "
    "first somewhere; salts are the one cause most of them name"
)
_OLD_YELLOW = (
    "sheets disagree on yellow lower leaves alone: age, feed, light, rot and acclimation each come first somewhere; "
    "ours leads with age"
)
_WILT = "sheets disagree on wilting alone: rot, drought and a small pot each come first somewhere; ours leads with rot"
_SUDDEN = "sheets disagree on sudden loss alone: change of place or cold leads; ours leads with the change"

WORKED_BY = {
    "garden_writers::lower_leaves_yellow": _OLD_YELLOW,
    "garden_writers::tips_brown_and_lower_leaves_yellow": (
        "a home page gives both signs together to overwatering alone; of each sign other sheets name hunger and salts, "
        "which lie within half a deciban of rot"
    ),
    "garden_writers::tips_yellow_then_brown_dry": (
        "a home page gives dry brown tips to thirst alone; the extension sheets name dry air and salts"
    ),
    "georgia_checklist::brown_or_scorched_tips": _TIPS,
    "purdue_bp55::yellow_small_stunted": (
        "the row lists four causes at once; ours leads with its third, too little light, which more sheets name for "
        "small new leaves"
    ),
    "purdue_bp55::brown_tips_or_margins": _TIPS,
}
"""Rows the rules were mended by."""

HELD_OUT = {
    "brandon_hortline::potassium": _TIPS,
    "brandon_hortline::salt": (
        "yellow and limp at once says rot in three sheets; the scorch that tells salts is its one sign"
    ),
    "columns::macunovich_plumbago": (
        "an expert's guess at cold wet roots; the row says nothing of water, and the plant had just come indoors"
    ),
    "columns::macunovich_duranta": (
        "light or feed by the source; the row says it was never fed and nothing of its light"
    ),
    "columns::rogers_brown_tips": _TIPS,
    "diseases::clemson_anthracnose": _TIPS,
    "illinois_stateline::rapid_leaf_drop": _SUDDEN,
    "illinois_stateline::tips_brown": _TIPS,
    "illinois_stateline::wilting": _WILT,
    "light_steps::georgia_too_little_light": (
        "small and pale new leaves with old ones going mean light in some sheets and hunger in others"
    ),
    "queensland_1987::all_leaves_chlorotic": (
        "yellow all over the plant means draught and chill in two sheets (D-06, D-07), hunger in this one"
    ),
    "queensland_1987::older_chlorotic": _OLD_YELLOW,
    "queensland_1987::edges_chlorotic": _TIPS,
    "queensland_1987::water_soaked": "the row lists cold first and disease after; ours leads with disease",
    "queensland_1987::edge_or_tip_dead": _TIPS,
    "trade::lower_leaves_yellow": _OLD_YELLOW,
    "trade::limp_and_wilts_often": _WILT,
    "trade::too_little_humidity": (
        "small crinkled new leaves are counted for dry air only where the air is known to be dry"
    ),
    "trade::too_little_water": "no question asks for a medium that has shrunk from the pot, the sign that tells it",
    "trade::yellow_after_wilting": "rot lies a quarter of a deciban above: the row says nothing of wet or dry",
    "trouble_signs::sudden_loss": _SUDDEN,
    "trouble_signs::yellow_leaves": "a yellow leaf with nothing else known: the commoner causes stand above by their priors",
}
"""Rows no rule was changed by; told here, never mended."""
