"""Random rule bases and cases, the same for the same seed."""

import random
from dataclasses import dataclass
from typing import Any

from diagnose.rulebase.model import Evidence, Rule

Facts = dict[str, float | str]
Rules = list[Rule | Evidence]
THRESHOLDS = (-3.5, 0.0, 2.0, 7.25, 15.0, 21.0001)
WORDS = ("none", "few", "many", "true", "null")
_REQUIRED = {"because": "a reason", "origin": "from memory", "fires": [{"a": 1}], "silent": [{"a": 1}]}


def rule(name: str, when: dict[str, Any], gives: str = "found") -> Rule:
    """Build a rule from its condition."""
    return Rule.model_validate({"id": name, "when": when, "gives": gives} | _REQUIRED)


def evidence(name: str, when: dict[str, Any], *, otherwise: bool = False) -> Evidence:
    """Build evidence from its condition."""
    said = {"otherwise": "slight", "otherwise_because": "the opposite"} if otherwise else {}
    fields = {"id": name, "when": when, "cause": "any", "speaks": "for", "strength": "slight"}
    return Evidence.model_validate(fields | said | _REQUIRED)


@dataclass(frozen=True)
class Makers:
    """One stream of random rules over a fixed vocabulary: even facts are numbers, odd ones words."""

    rng: random.Random
    facts: int
    layers: int = 5
    nested: bool = True

    def name(self, number: int) -> str:
        """Return a fact's name; every third has a dot, as the answers to one of several have."""
        return f"fact.n{number}" if number % 3 == 0 else f"fact_{number}"

    def finding(self, layer: int) -> str:
        """Return one of the four findings of a layer."""
        return f"finding_{layer}_{self.rng.randrange(4)}"

    def test(self) -> dict[str, Any]:
        """Return a condition on one fact."""
        number = self.rng.randrange(self.facts)
        if number % 2:
            operator = self.rng.choice(("is", "is_not", "one_of"))
            value: Any = self.rng.choice(WORDS)
            if operator == "one_of":
                value = self.rng.sample(WORDS, self.rng.randint(1, 3))
        else:
            operator = self.rng.choice(("is", "below", "above", "at_least", "at_most", "between"))
            value = self.rng.choice(THRESHOLDS)
            if operator == "between":
                value = sorted(self.rng.sample(THRESHOLDS, 2))
        return {"fact": self.name(number), operator: value}

    def condition(self, layer: int, depth: int = 0) -> dict[str, Any]:
        """Return a condition on facts and, above layer 0, on findings, mostly of the layer below."""
        if layer and self.rng.random() < (0.5 if depth else 0.15):
            below = layer - 1 if self.rng.random() < 0.9 else self.rng.randrange(self.layers)
            return {"finding": self.finding(below)}
        chance = self.rng.random()
        if depth >= (3 if self.nested else 1) or chance < 0.4 - 0.2 * (not depth):
            return self.test()
        parts = [self.condition(layer, depth + 1) for _ in range(self.rng.randint(1, 3))]
        return {"any" if self.nested and chance > 0.75 else "all": parts}

    def rules(self, count: int) -> Rules:
        """Return rules, a third of them giving findings, in random order."""
        made: Rules = []
        for number in range(count):
            layer = self.rng.randrange(self.layers)
            if number % 3 == 0:
                made.append(rule(f"rule_{number}", self.condition(layer), self.finding(layer)))
            else:
                otherwise = self.rng.random() < 0.4
                when = self.condition(0 if otherwise else layer)
                made.append(evidence(f"evidence_{number}", when, otherwise=otherwise))
        self.rng.shuffle(made)
        return made

    def value(self, number: int) -> float | str:
        """Return a value for a fact: a word, or a number on, just beside or between the thresholds."""
        if number % 2:
            return self.rng.choice(WORDS)
        near: float = self.rng.choice(THRESHOLDS)
        return near + self.rng.choice((0, 0, 0.00004, -0.00004, 0.0001, -0.0001, 1, -1.5))

    def case(self, share: float) -> Facts:
        """Return a case in which this share of all facts is known, in random order."""
        known = [number for number in range(self.facts) if self.rng.random() < share]
        self.rng.shuffle(known)
        return {self.name(number): self.value(number) for number in known}


def random_base(seed: int) -> tuple[Rules, list[Facts], Makers]:
    """Return a rule base of 3 to 40 rules, three cases for it, and the stream to draw more from."""
    rng = random.Random(seed)
    makers = Makers(rng, facts=rng.randint(3, 30))
    rules = makers.rules(rng.randint(3, 40))
    return rules, [makers.case(rng.uniform(0.3, 1)) for _ in range(3)], makers
