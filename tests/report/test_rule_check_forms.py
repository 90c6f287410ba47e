"""What the checks found, as a JSON document and as SARIF 2.1.0 (OASIS Standard, errata 01 of 2023)."""

import json
from pathlib import Path
from urllib.parse import unquote, urlsplit

import jsonschema
import pytest

from diagnose.problems import Problem
from diagnose.report.rule_check import CheckDocument, check_document, remark_line, sarif
from diagnose.rulebase.check import CHECKS

HERE = Path("/somewhere/at work")
PROBLEMS = [
    Problem(
        "/somewhere/at work/own rules.toml",
        12,
        "evidence x, when",
        "a <b> & {c}",
        "one side",
        "mend it",
        "opposite",
    ),
    Problem("rules/käfer.toml", None, "finding y", "nothing", "a use", "", "unused_finding"),
    Problem("/elsewhere/z.toml", 1, "", "no", "yes", "", "toml"),
    Problem(None, None, "fact t", "70 different tests of it", "at most 60", "", "engine"),
]

MESSAGE = {"type": "object", "required": ["text"], "properties": {"text": {"type": "string", "minLength": 1}}}
SARIF = {
    # the required properties of the standard's schema, of the objects that are written (sections 3.13 to 3.30, 3.49)
    "type": "object",
    "required": ["version", "runs"],
    "additionalProperties": False,
    "properties": {
        "$schema": {"type": "string", "format": "uri"},
        "version": {"const": "2.1.0"},
        "runs": {
            "type": "array",
            "items": {
                "type": "object",
                "required": ["tool"],
                "additionalProperties": False,
                "properties": {
                    "columnKind": {"enum": ["utf16CodeUnits", "unicodeCodePoints"]},
                    "tool": {
                        "type": "object",
                        "required": ["driver"],
                        "properties": {
                            "driver": {
                                "type": "object",
                                "required": ["name"],
                                "properties": {
                                    "name": {"type": "string"},
                                    "rules": {
                                        "type": "array",
                                        "uniqueItems": True,
                                        "items": {
                                            "type": "object",
                                            "required": ["id"],
                                            "additionalProperties": False,
                                            "properties": {
                                                "id": {"type": "string"},
                                                "shortDescription": MESSAGE,
                                                "defaultConfiguration": {
                                                    "type": "object",
                                                    "properties": {"level": {"enum": ["none", "note", "warning", "error"]}},
                                                },
                                            },
                                        },
                                    },
                                },
                            }
                        },
                    },
                    "results": {
                        "type": "array",
                        "items": {
                            "type": "object",
                            "required": ["message"],
                            "additionalProperties": False,
                            "properties": {
                                "ruleId": {"type": "string"},
                                "ruleIndex": {"type": "integer", "minimum": 0},
                                "level": {"enum": ["none", "note", "warning", "error"]},
                                "message": MESSAGE,
                                "locations": {
                                    "type": "array",
                                    "items": {
                                        "type": "object",
                                        "properties": {
                                            "physicalLocation": {
                                                "type": "object",
                                                "required": ["artifactLocation"],
                                                "properties": {
                                                    "artifactLocation": {
                                                        "type": "object",
                                                        "properties": {"uri": {"type": "string"}},
                                                    },
                                                    "region": {
                                                        "type": "object",
                                                        "properties": {"startLine": {"type": "integer", "minimum": 1}},
                                                    },
                                                },
                                            }
                                        },
                                    },
                                },
                            },
                        },
                    },
                },
            },
        },
    },
}  # fmt: skip


def test_sarif_has_what_the_standard_requires():
    log = json.loads(json.dumps(sarif(PROBLEMS, HERE)))
    jsonschema.validate(log, SARIF)
    (run,) = log["runs"]
    rules = run["tool"]["driver"]["rules"]
    assert len(run["results"]) == len(PROBLEMS)
    for result, problem in zip(run["results"], PROBLEMS, strict=True):
        assert rules[result["ruleIndex"]]["id"] == result["ruleId"] == problem.check
        assert result["level"] == rules[result["ruleIndex"]]["defaultConfiguration"]["level"]
    assert [result["level"] for result in run["results"]] == ["error", "note", "error", "error"]


def test_sarif_names_files_by_uri_and_lines_only_where_they_are_known():
    first, second, third, fourth = sarif(PROBLEMS, HERE)["runs"][0]["results"]
    place = first["locations"][0]["physicalLocation"]
    assert place == {"artifactLocation": {"uri": "own%20rules.toml"}, "region": {"startLine": 12}}
    place = second["locations"][0]["physicalLocation"]
    assert unquote(place["artifactLocation"]["uri"]) == "rules/käfer.toml"
    assert place["artifactLocation"]["uri"].isascii()
    assert "region" not in place
    assert urlsplit(third["locations"][0]["physicalLocation"]["artifactLocation"]["uri"])[:3] == (
        "file",
        "",
        "/elsewhere/z.toml",
    )
    assert "locations" not in fourth


def test_no_problem_is_a_run_without_results():
    log = sarif([], HERE)
    jsonschema.validate(log, SARIF)
    assert log["runs"][0]["results"] == []


def test_the_document_counts_and_follows_its_schema(base):
    document = check_document(base, PROBLEMS).model_dump(mode="json")
    jsonschema.validate(document, CheckDocument.model_json_schema(mode="serialization"))
    assert (document["version"], document["faults"], document["advice"]) == (1, 3, 1)
    assert document["remarks"][0]["line"] == 12
    assert document["remarks"][0]["sentence"] == PROBLEMS[0].sentence()


@pytest.mark.parametrize("problem", PROBLEMS, ids=lambda problem: problem.check)
def test_a_line_of_text_ends_with_its_check(problem):
    advice = "advice, " if CHECKS[problem.check].severity == "advice" else ""
    assert remark_line(problem) == f"{problem.sentence()} [{advice}{problem.check}]"
