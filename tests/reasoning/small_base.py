"""Small random rule bases over a few questions, so that every change can be tried one by one."""

import datetime as dt
import random
from types import MappingProxyType

from diagnose.case import Case
from diagnose.rulebase.model import Cause, Evidence, Finding, Question, Rule, Subject
from diagnose.rulebase.rulebase import RuleBase, Standing
from diagnose.rulebase.vocabulary import vocabulary

DATE = dt.date(2026, 1, 30)
STRENGTHS = ("slight", "moderate", "substantial", "strong")
EXAMPLES = {"fires": [{"q0": "a"}], "silent": [{"q0": "b"}], "origin": "common practice"}


def question(number, rng):
    """A choice, a yes or no, or a number."""
    kind = ("choice", "yes_no", "number")[number % 3]
    extra = {
        "choice": {
            "choices": [{"id": c, "label": f"label {c}", "share": rng.choice((0.2, 0.5))} for c in "abc"]
        },
        "yes_no": {"share_yes": rng.choice((0.2, 0.5, 0.7))},
        "number": {"unit": "d", "least": 0, "most": 20, "typical": [2, 8, 15]},
    }[kind]
    fields = {"id": f"q{number}", "subject": "s", "text": f"Question {number}?", "help": "help", "why": "why"}
    effort = rng.choice(("think", "look", "unpot"))
    return Question.model_validate(fields | {"kind": kind, "effort": effort} | extra)


def test_of(asked, rng):
    """A condition on one question."""
    if asked.kind == "number":
        operator = rng.choice(("below", "above", "at_least", "at_most"))
        return {"fact": asked.id, operator: rng.choice((1, 5, 10))}
    words = ("yes", "no") if asked.kind == "yes_no" else "abc"
    return {"fact": asked.id, "is": rng.choice(words)}


def condition(questions, rng, *, findings=True):
    """One to three tests, of findings too."""
    parts = [test_of(rng.choice(questions), rng) for _ in range(rng.choice((1, 1, 2, 3)))]
    if findings and rng.random() < 0.3:
        parts[0] = {"finding": f"f{rng.randrange(2)}"}
    return {rng.choice(("all", "any")): parts}


def small_base(seed, questions=5, evidence=18, causes=4):
    """Return a random rule base of choices, yes or no, and numbers; groups, findings and otherwise sides in it."""
    rng = random.Random(seed)
    asked = [question(n, rng) for n in range(questions)]
    rules = [
        Rule.model_validate(
            {
                "id": f"r{n}",
                "gives": f"f{n}",
                "when": condition(asked, rng, findings=False),
                "because": "so it is",
            }
            | EXAMPLES
        )
        for n in range(2)
    ]
    found = []
    for n in range(evidence):
        otherwise = rng.random() < 0.2
        fields = {
            "id": f"e{n}",
            "cause": f"c{rng.randrange(causes)}",
            "speaks": rng.choice(("for", "for", "against")),
            "strength": rng.choice(STRENGTHS),
            "group": rng.choice((None, "g", "h")),
            "when": condition(asked, rng, findings=not otherwise),
            "because": "so it is",
        }
        if otherwise:
            fields |= {"otherwise": rng.choice(STRENGTHS), "otherwise_because": "not so"}
        found.append(Evidence.model_validate(fields | EXAMPLES))
    listed = {
        "questions": {q.id: q for q in asked},
        "rules": {r.id: r for r in rules},
        "evidence": {e.id: e for e in found},
        "causes": {f"c{n}": _cause(f"c{n}", rng.choice((-8, -5, -5, -2))) for n in range(causes)},
        "findings": {f"f{n}": Finding(id=f"f{n}", text=f"finding {n}") for n in range(2)},
        "subjects": {"s": Subject(id="s", name="subject")},
    }
    tables = {"questions": "question", "rules": "rule", "evidence": "evidence", "causes": "cause"}
    empty = MappingProxyType({})
    return RuleBase(
        **listed,
        plants=empty,
        cautions=empty,
        advice=empty,
        sources=empty,
        vocabulary=vocabulary(asked, (), ()),
        standing={
            (name, entry): Standing("file", name, 0, house=False)
            for table, name in tables.items()
            for entry in listed[table]
        },
        hash=str(seed),
    )


def small_case(base, rng, share=1.0):
    """Return a case with this share of all questions answered."""
    answers = {
        q.id: any_answer(q, rng) for q in base.questions.values() if rng.random() < share and q.kind != "date"
    }
    return Case(date=DATE, answers=answers)


def any_answer(asked, rng):
    """Return any answer that the question takes."""
    if asked.kind == "choice":
        return rng.choice(asked.choices).id
    if asked.kind == "yes_no":
        return rng.random() < 0.5
    if asked.kind == "several":
        return tuple(c.id for c in asked.choices if rng.random() < 0.3)
    if asked.kind == "date":
        return DATE - dt.timedelta(days=rng.choice((0, 3, 40, 400)))
    return round(rng.uniform(asked.least, asked.most), 2)


def _cause(name, prior_db):
    return Cause(
        id=name,
        name=f"Cause {name}",
        what="what",
        looks="looks",
        settles="settles",
        prior_db=prior_db,
        origin="from memory",
    )
