"""The published shapes, made from the models themselves."""

import importlib
import json
from collections.abc import Mapping

SHAPES: Mapping[str, tuple[str, str]] = {
    "case": ("case", "Case"),
    "rules": ("rulebase.model", "RuleFile"),
    "ranking": ("report.as_json", "RankingDocument"),
    "plan": ("report.plan_json", "PlanDocument"),
    "why": ("report.reasoning_json", "WhyDocument"),
    "versus": ("report.reasoning_json", "VersusDocument"),
    "next": ("report.supposing_json", "NextDocument"),
    "whatif": ("report.supposing_json", "WhatIfDocument"),
    "firm": ("report.supposing_json", "FirmDocument"),
}
"""What is asked for by name -> the module and the model of its shape, imported only then."""


def schema(what: str) -> str:
    """Return the JSON Schema (draft 2020-12) of a case file, a rule file, or what a command gives as JSON."""
    module, name = SHAPES[what]
    shape = getattr(importlib.import_module(f"diagnose.{module}"), name).model_json_schema(by_alias=True)
    return json.dumps(
        {"$schema": "https://json-schema.org/draft/2020-12/schema"} | shape, indent=2, ensure_ascii=False
    )
