"""How long the engine takes: `python tests/bench/engine.py`.

Processor time, fastest of several runs; trust ratios most. Random rules over 60 facts, all known: 1 to 3
conditions each, a third of the rules giving findings.
"""

import math
import random
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "engine"))

from diagnose.engine import RuleEngine, WhatIf
from diagnose.engine.compile import compile_rules
from oracles import Clips, naive
from random_rules import Facts, Makers, Rules, evidence, rule

SIZES = (100, 300, 1000, 3000)


def fastest_ms(run: Callable[[], Any], times: int) -> float:
    """Return the milliseconds of the fastest run."""
    spans = []
    for _ in range(times):
        start = time.process_time()
        run()
        spans.append(time.process_time() - start)
    return 1000 * min(spans)


def bench_rules(makers: Makers, count: int) -> Rules:
    """Return rules of 1 to 3 conditions on facts and findings; a quarter or so fire."""
    made: Rules = []
    for number in range(count):
        layer = makers.rng.randrange(3)
        parts = [makers.test() for _ in range(makers.rng.randint(1, 3))]
        if layer and makers.rng.random() < 0.5:
            parts[0] = {"finding": f"finding_{layer - 1}_{makers.rng.randrange(1 + count // 12)}"}
        when = {"all": [part for part in parts if "one_of" not in part] or parts[:1]}
        if number % 3:
            made.append(evidence(f"evidence_{number}", when))
        else:
            gives = f"finding_{layer}_{makers.rng.randrange(1 + count // 12)}"
            made.append(rule(f"rule_{number}", when, gives))
    return made


def diagnosis_times() -> None:
    """Print one diagnosis' time by number of rules, beside CLIPS and a naive chainer."""
    print("rules  engine rules  fired  load ms  diagnosis ms  CLIPS ms  naive Python ms")
    times = {}
    for size in SIZES:
        makers = Makers(random.Random(5), facts=60)
        rules, facts = bench_rules(makers, size), makers.case(1)
        load = fastest_ms(lambda rules=rules: RuleEngine(rules).close(), 3)  # type: ignore[misc]
        engine, clips = RuleEngine(rules), Clips(rules)
        firings = engine.infer(facts)
        assert {firing.rule for firing in firings} == clips.run(facts) == naive(rules, facts)[0]
        times[size] = fastest_ms(lambda: engine.infer(facts), 50)  # noqa: B023 - run at once
        clips_ms = fastest_ms(lambda: clips.run(facts), 20)  # noqa: B023 - run at once
        naive_ms = fastest_ms(lambda: naive(rules, facts), 3)  # noqa: B023 - run at once
        parts = len(compile_rules(rules)[0])
        print(
            f"{size:5}  {parts:12}  {len(firings):5}  {load:7.1f}  {times[size]:12.2f}  {clips_ms:8.2f}"
            f"  {naive_ms:15.1f}"
        )
        engine.close()
    exponent = math.log(times[SIZES[-1]] / times[SIZES[0]]) / math.log(SIZES[-1] / SIZES[0])
    print(f"growth exponent {SIZES[0]} to {SIZES[-1]} rules: {exponent:.2f}\n")


def what_if_times() -> None:
    """Print the time of 240 suppositions, each compared with the plain way, by how much is known."""
    print("rules  facts known  changes at once  240 what-ifs ms (first time)  the plain way ms")
    for size in (300, 1000):
        makers = Makers(random.Random(5), facts=60)
        rules = bench_rules(makers, size)
        engine = RuleEngine(rules)
        for share in (0.0, 0.5, 1.0):
            for at_once in (1, 4):
                _what_ifs(makers, rules, engine, share, at_once)


def _what_ifs(makers: Makers, rules: Rules, engine: RuleEngine, share: float, at_once: int) -> None:
    facts = makers.case(share)
    firings = engine.infer(facts)
    changes: list[Facts] = [
        {makers.name((n + k) % 60): makers.value((n + k) % 60) for k in range(at_once)} for n in range(240)
    ]
    what_if = WhatIf(rules)

    def supposed() -> list[Any]:
        return [what_if.suppose(facts, firings, change) for change in changes]

    def plainly() -> list[Any]:
        return [engine.infer(facts | change) for change in changes]

    first = fastest_ms(supposed, 1)
    assert supposed() == plainly()
    again, plain = fastest_ms(supposed, 3), fastest_ms(plainly, 3)
    print(f"{len(rules):5}  {len(facts):11}  {at_once:15}  {again:15.1f} ({first:10.1f})  {plain:16.1f}")
    what_if.close()


if __name__ == "__main__":
    diagnosis_times()
    what_if_times()
