"""The published shapes, made from the models themselves."""

import json
from typing import Literal

from pydantic import BaseModel


def schema(what: Literal["case", "rules", "ranking", "plan"]) -> str:
    """Return the JSON Schema (draft 2020-12) of a case file, a rule file, a ranking or a plan."""
    model = _model(what)
    shape = model.model_json_schema(by_alias=True)
    return json.dumps(
        {"$schema": "https://json-schema.org/draft/2020-12/schema"} | shape, indent=2, ensure_ascii=False
    )


def _model(what: Literal["case", "rules", "ranking", "plan"]) -> type[BaseModel]:
    if what == "case":
        from diagnose.case import Case

        return Case
    if what == "rules":
        from diagnose.rulebase.model import RuleFile

        return RuleFile
    if what == "plan":
        from diagnose.report.plan_json import PlanDocument

        return PlanDocument
    from diagnose.report.as_json import RankingDocument

    return RankingDocument
