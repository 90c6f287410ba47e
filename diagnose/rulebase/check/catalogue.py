"""All checks of rules by id: whether what they find is a fault or advice, and what they look for."""

from dataclasses import dataclass
from typing import Literal

from diagnose.language import marked
from diagnose.problems import Problem

Severity = Literal["fault", "advice"]


@dataclass(frozen=True, slots=True)
class Check:
    """One check. A fault must be mended; advice may be meant so."""

    id: str
    severity: Severity
    looks_for: str


CHECKS = {
    check.id: check
    for check in (
        Check("file", "fault", marked("files and folders that cannot be read")),
        Check("toml", "fault", marked("text that is not TOML")),
        Check("shape", "fault", marked("keys that are missing, unknown or of the wrong kind")),
        Check("ids", "fault", marked("ids given twice, overrides and switch-offs of nothing")),
        Check(
            "names",
            "fault",
            marked("facts, findings, causes ... that nothing provides, and tests that do not fit their fact"),
        ),
        Check("template", "fault", marked("braces in a sentence that its condition does not fill")),
        Check("origin", "fault", marked("built-in entries whose origin is no known source")),
        Check("engine", "fault", marked("rules that the engine cannot hold")),
        Check("never", "fault", marked("conditions, or parts of them, that can never hold")),
        Check("always", "fault", marked("conditions that hold whenever their facts are known")),
        Check("idle", "advice", marked("parts of a condition that hold whenever their fact is known")),
        Check("unconcluded", "fault", marked("findings that no rule concludes")),
        Check("unused_finding", "advice", marked("findings that nothing uses")),
        Check("unused_question", "advice", marked("questions that no condition and no measure uses")),
        Check("unused_advice", "advice", marked("advice that no cause gives")),
        Check("one_sided", "advice", marked("causes with evidence only for or only against them")),
        Check("loop", "fault", marked("findings that need each other in a circle")),
        Check("same", "fault", marked("two rules that say the same on the same condition")),
        Check(
            "opposite",
            "fault",
            marked("two rules on the same condition that speak for and against one cause"),
        ),
        Check(
            "overlap",
            "advice",
            marked(
                "a rule that speaks against a cause wherever another, wider one speaks for it, or the reverse"
            ),
        ),
        Check("example", "fault", marked("worked examples that do not do what they say")),
        Check(
            "unseen", "advice", marked("rules whose otherwise speaks in no worked example and no demo case")
        ),
    )
}


def severity(problem: Problem) -> Severity:
    """Return whether a problem is a fault or advice."""
    return CHECKS[problem.check].severity
