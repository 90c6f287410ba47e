"""What settled cases taught, as plain text: how good the rankings were, which rules helped, and what they deserve."""

import re
from collections.abc import Iterator

from diagnose.collection.learning import Learned, Reliability
from diagnose.collection.strengths import LEAST_CASES, Suggestion
from diagnose.language import _, ngettext, numeral
from diagnose.report.text import hung, wrapped
from diagnose.report.words import decibans, percent
from diagnose.rulebase.rulebase import RuleBase

_SHOWN = 8
_FILLED_IN = re.compile(r"\{[a-z0-9_.]+\}")


def learned_text(learned: Learned, base: RuleBase) -> str:
    """Return how good the rankings were and what the rules gave; what the rules no longer have is named by its id."""
    if not learned.cases:
        text = _("No settled case with a ranking yet; '{command}' settles one.")
        return "\n".join(wrapped(text.format(command="diagnose settle PLANT CAUSE")))
    lines = [*_first(learned), "", *_reliability(learned)]
    if learned.wrong:
        lines += ["", _("Said first, turned out to be:")]
        for said, true, count in learned.wrong[:_SHOWN]:
            lines += hung(f"  {count:>4}  ", f"{_cause(base, said)} -> {_cause(base, true)}")
    return "\n".join([*lines, *_rules(learned, base), "", *_suggestions(learned, base)])


def _first(learned: Learned) -> Iterator[str]:
    text = ngettext(
        "{count} settled case. The first cause was right in {right} ({percent}; 95 % interval {low} to {high}), "
        "among the first three in {near}. It was said to be {said} probable on average.",
        "{count} settled cases. The first cause was right in {right} ({percent}; 95 % interval {low} to {high}), "
        "among the first three in {near}. It was said to be {said} probable on average.",
        learned.cases,
    )
    yield from wrapped(
        text.format(
            count=learned.cases,
            right=learned.first_right,
            percent=percent(learned.first_right / learned.cases),
            low=percent(learned.first_low),
            high=percent(learned.first_high),
            near=learned.near_first,
            said=percent(learned.said_of_first),
        )
    )
    if learned.calibration:
        parts = learned.calibration.murphy
        text = _(
            "Brier score {score} (0 is perfect; saying the same for every cause scores {uncertainty}): reliability "
            "{reliability}, resolution {resolution}."
        )
        yield from wrapped(
            text.format(
                score=numeral(learned.calibration.brier, ".3f"),
                uncertainty=numeral(parts.uncertainty, ".3f"),
                reliability=numeral(parts.reliability, ".3f"),
                resolution=numeral(parts.resolution, ".3f"),
            )
        )


def _reliability(learned: Learned) -> Iterator[str]:
    yield _("  said        forecasts  mean said  came true (95 % interval)")
    for one in learned.reliability:
        said = one.bin
        band = _("{low} to {high}").format(low=f"{said.low:>4.0%}", high=f"{said.high:>4.0%}")
        interval = _("{low} to {high}").format(low=numeral(one.low, ".1%"), high=numeral(one.high, ".1%"))
        shares = f"{numeral(said.stated, '>10.1%')}  {numeral(said.came_true, '>6.1%')}"
        yield f"  {band} {said.count:>8} {shares} ({interval}){_odd(one)}"


def _odd(one: Reliability) -> str:
    if one.agrees:
        return ""
    return "  " + (_("said too high") if one.bin.stated > one.bin.came_true else _("said too low"))


def _rules(learned: Learned, base: RuleBase) -> Iterator[str]:
    helped = [rule for rule in learned.rules if rule.net_db > 0]
    misled = [rule for rule in reversed(learned.rules) if rule.net_db < 0]
    for title, rules in (
        (_("Rules that helped most (decibans given to the truth, cases for and against it):"), helped),
        (_("Rules that misled most (decibans given to the truth, cases for and against it):"), misled),
    ):
        if rules:
            yield from ("", *wrapped(title))
        for rule in rules[:_SHOWN]:
            start = f"  {decibans(rule.net_db):>10}  {rule.helped:>4} {rule.misled:>4}  "
            yield from hung(start, _rule(base, rule.rule))


def _suggestions(learned: Learned, base: RuleBase) -> Iterator[str]:
    if not learned.suggestions:
        text = _(
            "No strength is suggested: a house rule needs {count} settled cases with its cause and {count} with "
            "another in which it could be judged."
        )
        yield from wrapped(text.format(count=LEAST_CASES))
        return
    yield from wrapped(_("Strengths of house rules by these cases (nothing is changed by itself):"))
    for one in learned.suggestions:
        yield from wrapped(_suggestion(one, base))


def _suggestion(one: Suggestion, base: RuleBase) -> str:
    if one.agrees:
        verdict = _("the present strength agrees")
    else:
        verdict = _("suggested: {strength}").format(strength=one.word or _("none of the words"))
    text = _(
        "{rule}: now {strength}, {side} ({now}); cases say {decibans} dB ({low} to {high}), it fired in {fired_with} "
        "of {known_with} with {cause} and in {fired_without} of {known_without} without; {verdict}."
    )
    return text.format(
        rule=_rule(base, one.rule),
        strength=one.strength,
        side=one.speaks,
        now=decibans(one.now),
        decibans=numeral(one.decibans, "+.1f"),
        low=numeral(one.low, "+.1f"),
        high=numeral(one.high, "+.1f"),
        fired_with=one.fired_with,
        known_with=one.known_with,
        cause=_cause(base, one.cause),
        fired_without=one.fired_without,
        known_without=one.known_without,
        verdict=verdict,
    )


def _cause(base: RuleBase, cause: str) -> str:
    return base.causes[cause].name if cause in base.causes else cause


def _rule(base: RuleBase, rule: str) -> str:
    """Return an evidence rule by what it says, each case's own figures left open, and its id, by which it is found."""
    if rule not in base.evidence:
        return rule
    said = _FILLED_IN.sub("\N{HORIZONTAL ELLIPSIS}", base.evidence[rule].because)
    return f"{said} ({rule})"
