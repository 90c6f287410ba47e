"""How long rules take to load, to check and to run: `python tests/bench/rules.py`.

Processor time, fastest of several runs; trust ratios most. House rules are made up: two tests each of the
shipped questions' answers, so that a diagnosis meets as many of them as a grower's own would be met.
"""

import functools
import itertools
import math
import random
import tempfile
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

from diagnose import locations
from diagnose.casefile import read_case
from diagnose.diagnosis import Diagnostician
from diagnose.engine import RuleEngine
from diagnose.facts import gather
from diagnose.report.rulebook.as_html import book_html
from diagnose.report.rulebook.book import book
from diagnose.rulebase.check import check_base
from diagnose.rulebase.load import load
from diagnose.rulebase.rulebase import RuleBase
from diagnose.rulecheck import check_rules, worked_examples

BUILT_IN = locations.built_in_rules()
A_FILE = 50
HOUSE = """[[evidence]]
id = "house_{number}"
cause = "{cause}"
speaks = "{speaks}"
strength = "slight"
when = {{ all = [ {{ fact = "{one}", is = "{a}" }}, {{ fact = "{two}", is = "{b}" }} ] }}
because = "It is {{{one}}} and {{{two}}}."
origin = "made up for timing"
fires = [ {{ "{one}" = "{a}", "{two}" = "{b}" }} ]
silent = [ {{ "{one}" = "{a}", "{two}" = "{c}" }} ]
"""


def fastest_ms(run: Callable[[], Any], times: int = 5) -> float:
    """Return the milliseconds of the fastest run."""
    spans = []
    for _ in range(times):
        start = time.process_time()
        run()
        spans.append(time.process_time() - start)
    return 1000 * min(spans)


def house_rules(base: RuleBase, count: int) -> Iterator[str]:
    """Yield made-up rules as TOML, no two on the same condition."""
    rng = random.Random(7)
    facts = [term for term in base.vocabulary.values() if term.source == "question" and len(term.words) > 1]
    pairs = list(itertools.combinations(sorted(facts, key=lambda term: term.name), 2))
    for number, (one, two) in enumerate(rng.sample(pairs, count)):
        b, c = rng.sample(list(two.words), 2)
        yield HOUSE.format(
            number=number,
            cause=rng.choice(list(base.causes)),
            speaks=rng.choice(["for", "against"]),
            one=one.name,
            two=two.name,
            a=rng.choice(list(one.words)),
            b=b,
            c=c,
        )


def write_house(folder: Path, base: RuleBase, count: int) -> None:
    """Write made-up rules into files of a usual size."""
    rules = list(house_rules(base, count))
    for start in range(0, count, A_FILE):
        (folder / f"{start:05}.toml").write_text("\n".join(rules[start : start + A_FILE]), encoding="utf-8")


def built_in_times() -> None:
    """Print load and check of the shipped rules."""
    base = load(BUILT_IN)
    count = len(base.rules) + len(base.evidence)
    load_ms = fastest_ms(lambda: load(BUILT_IN))
    print(f"{count} shipped rules in {len(base.files)} files")
    print(f"  load                     {load_ms:7.1f} ms")
    print(f"  checks of the rules      {fastest_ms(lambda: check_base(base)):7.1f} ms")
    print(f"  worked examples          {fastest_ms(lambda: worked_examples(base)):7.1f} ms")
    whole = load_ms + fastest_ms(lambda: check_rules(base))
    print(f"  load and all checks      {whole:7.1f} ms, {whole * 300 / count:.1f} ms for 300 rules")
    print(f"  the book as HTML         {fastest_ms(lambda: book_html(book(base)), 3):7.1f} ms\n")


def house_times() -> None:
    """Print load, check and diagnosis with more and more house rules."""
    base = load(BUILT_IN)
    case, _ = read_case(locations.demo_cases() / "forgotten_in_july.toml")
    facts = gather(case, base).values
    Diagnostician(base).diagnose(case)  # what loads once is loaded
    print("house rules  load ms  check ms  both s  diagnosis ms  engine alone ms (house rules only)  fired")
    times = {}
    for count in (100, 300, 1000, 3000):
        with tempfile.TemporaryDirectory() as name:
            write_house(Path(name), base, count)
            load_ms = fastest_ms(functools.partial(load, BUILT_IN, [Path(name)]), 3)
            more = load(BUILT_IN, [Path(name)])
        assert not more.problems, more.problems[0].sentence()
        check_ms = fastest_ms(functools.partial(check_rules, more), 2)
        diagnostician = Diagnostician(more)
        diagnosis_ms = fastest_ms(functools.partial(diagnostician.diagnose, case), 10)
        diagnostician.close()
        house = [one for one in more.evidence.values() if more.is_house("evidence", one.id)]
        engine = RuleEngine(house)
        times[count] = fastest_ms(functools.partial(engine.infer, facts), 30)
        print(
            f"{count:11}  {load_ms:7.1f}  {check_ms:8.1f}  {(load_ms + check_ms) / 1000:6.2f}  {diagnosis_ms:12.1f}"
            f"  {times[count]:34.2f}  {len(engine.infer(facts)):5}"
        )
        engine.close()
    counts = list(times)
    for low, high in ((0, -1), (0, 1), (1, 2), (2, 3)):
        exponent = math.log(times[counts[high]] / times[counts[low]]) / math.log(counts[high] / counts[low])
        print(f"growth exponent of the engine, {counts[low]} to {counts[high]} rules: {exponent:.2f}")


if __name__ == "__main__":
    built_in_times()
    house_times()
