"""The published shapes, made from the models themselves."""

import json
from typing import Literal

from pydantic import BaseModel

What = Literal["case", "rules", "ranking", "plan", "why", "versus", "next", "whatif", "firm"]
_REASONS = {
    "why": "WhyDocument",
    "versus": "VersusDocument",
    "next": "NextDocument",
    "whatif": "WhatIfDocument",
    "firm": "FirmDocument",
}


def schema(what: What) -> str:
    """Return the JSON Schema (draft 2020-12) of a case file, a rule file, a ranking, a plan or reasons."""
    model = _model(what)
    shape = model.model_json_schema(by_alias=True)
    return json.dumps(
        {"$schema": "https://json-schema.org/draft/2020-12/schema"} | shape, indent=2, ensure_ascii=False
    )


def _model(what: What) -> type[BaseModel]:
    if what == "case":
        from diagnose.case import Case

        return Case
    if what == "rules":
        from diagnose.rulebase.model import RuleFile

        return RuleFile
    if what == "plan":
        from diagnose.report.plan_json import PlanDocument

        return PlanDocument
    if what in _REASONS:
        from diagnose.report import reasoning_json

        model: type[BaseModel] = getattr(reasoning_json, _REASONS[what])
        return model
    from diagnose.report.as_json import RankingDocument

    return RankingDocument
