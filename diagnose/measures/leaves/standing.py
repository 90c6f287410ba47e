"""How many leaves stand, how many should, and what share went lately."""

from collections.abc import Iterator

from diagnose.case import Leaf
from diagnose.language import _, marked, ngettext, numeral
from diagnose.measures.leaves.exact import share_interval
from diagnose.measures.leaves.history import History
from diagnose.measures.leaves.lifespan import known_lives, mean_life
from diagnose.measures.measure import Declaration, Given, Measure

_MONTH_D = 30
_COUNTED_D = 30  # an older count does not say what stands now (common practice, no source)

DECLARED: tuple[Declaration, ...] = (
    Declaration(
        "standing_leaves",
        marked("leaves the plant carries now"),
        "the latest count of the last 30 days, else as told",
        "leaves",
        least=0,
        most=5000,
        inputs=("leaf_history", "leaves_standing", "leaves", "date"),
    ),
    Declaration(
        "expected_standing_leaves",
        marked("leaves that the present pace of opening can keep, at this leaf life"),
        "opening rate times leaf life: Little 1961 (B-09)",
        "leaves",
        least=0,
        most=1e6,
        inputs=("leaf_history", "leaves", "plant", "date"),
    ),
    Declaration(
        "lost_share_30d_percent",
        marked("share of the leaves that stood which went in the last 30 days"),
        "exact binomial interval, Clopper & Pearson 1934 (from memory)",
        "%",
        least=0,
        most=100,
        inputs=("leaf_history", "leaves", "date"),
    ),
    Declaration(
        "standing_against_usual",
        marked("leaves carried now against what plants of this kind usually carry"),
        "the plant profile's usual number",
        words=("fewer", "usual", "more"),
        inputs=("leaf_history", "leaves_standing", "leaves", "plant"),
    ),
)


def measure(given: Given, history: History, leaves: tuple[Leaf, ...]) -> Iterator[Measure]:
    """Yield what stands, what should stand, and the share lost in a month."""
    standing = _standing(given, history, leaves)
    if standing is not None:
        yield standing
        yield from _against_usual(given, standing)
    yield from _expected(given, history, leaves)
    yield from _lost_share(given, history)


def _standing(given: Given, history: History, leaves: tuple[Leaf, ...]) -> Measure | None:
    date = given.case.date
    if history.present and (date - history.present[-1][0]).days <= _COUNTED_D:
        on, count = history.present[-1]
        return Measure(
            "standing_leaves", float(count), ("leaf_history",), remark=_("counted on {date}").format(date=on)
        )
    told = given.answers.get("leaves_standing")
    if isinstance(told, int | float):
        return Measure("standing_leaves", float(told), ("leaves_standing",))
    if leaves:
        count = sum(leaf.lost is None for leaf in leaves)
        return Measure("standing_leaves", float(count), ("leaves",), remark=_("single leaves not yet lost"))
    return None


def _against_usual(given: Given, standing: Measure) -> Iterator[Measure]:
    usual = given.needs.leaf_number
    if usual is None or not isinstance(standing.value, float):
        return
    word = "usual"
    if standing.value < usual.standing_low:
        word = "fewer"
    elif standing.value > usual.standing_high:
        word = "more"
    remark = _("usually {low} to {high}").format(
        low=numeral(usual.standing_low, "g"), high=numeral(usual.standing_high, "g")
    )
    yield Measure("standing_against_usual", word, (*standing.used, "plant"), remark=remark)


def _expected(given: Given, history: History, leaves: tuple[Leaf, ...]) -> Iterator[Measure]:
    """Yield opening rate times leaf life: the plant's own if measured, else the usual one of its kind."""
    rate, own, usual = (
        given.before.get("new_leaves_per_30d"),
        given.before.get("leaf_life_d"),
        given.needs.leaf_life,
    )
    if rate is None or not isinstance(rate.value, float):
        return
    if own is not None and isinstance(own.value, int | float):
        lives, _used = known_lives(given, history, leaves)
        mean = mean_life(lives)
        life, used = (own.value, own.used) if mean is None else (mean, own.used)
        low, high = own.low, own.high
        remark = (
            _("with the median life of its own leaves")
            if mean is None
            else _("with the mean life of its own leaves")
        )
    elif usual is not None:
        low, high, used = usual.life_low_d, usual.life_high_d, ("plant",)
        life = (low + high) / 2
        remark = _("with leaves of this kind living {low} to {high} days").format(
            low=numeral(low, "g"), high=numeral(high, "g")
        )
    else:
        return
    yield Measure(
        "expected_standing_leaves",
        rate.value * life / _MONTH_D,
        tuple(dict.fromkeys((*rate.used, *used))),
        (rate.low or 0.0) * min(low or 0.0, life) / _MONTH_D,
        rate.high * max(high, life) / _MONTH_D if rate.high is not None and high is not None else None,
        remark=remark,
    )


def _lost_share(given: Given, history: History) -> Iterator[Measure]:
    """Yield the share lost in 30 days; a longer stretch is scaled down to 30 days, a shorter one never up."""
    date = given.case.date
    recent = tuple(s for s in history.since(_MONTH_D, date) if s.lost is not None)
    if not recent or (date - recent[-1].end).days > _MONTH_D:
        return
    lost = sum(s.lost or 0 for s in recent)
    days = sum(s.days for s in recent)
    after = recent[-1].present_after
    if after is None or after + lost == 0:
        return
    scale = min(1.0, _MONTH_D / days)
    low, high = share_interval(lost, after + lost)
    remark = ngettext("{lost} of {all} leaves in {days} day", "{lost} of {all} leaves in {days} days", days)
    remark = remark.format(lost=lost, all=after + lost, days=days)
    yield Measure(
        "lost_share_30d_percent",
        100 * scale * lost / (after + lost),
        (history.source,),
        100 * scale * low,
        100 * scale * high,
        remark=remark,
    )
