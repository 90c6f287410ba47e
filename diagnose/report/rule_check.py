"""What the checks of rules found: as text, as a JSON document, and as SARIF, which editors and code hosts read."""

from collections import Counter
from collections.abc import Sequence
from pathlib import Path
from typing import Any, Literal

from diagnose.language import _, ngettext
from diagnose.problems import Problem
from diagnose.report.documents import Document
from diagnose.report.rule_text import tables
from diagnose.rulebase.check import CHECKS, severity
from diagnose.rulebase.rulebase import RuleBase

_SARIF_SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
_LEVELS = {"fault": "error", "advice": "note"}


class RemarkDocument(Document):
    """One thing found, with its place."""

    check: str
    severity: Literal["fault", "advice"]
    file: str | None
    line: int | None
    key: str
    found: str
    expected: str
    mend: str
    sentence: str


class CheckDocument(Document):
    """All that was found in a rule base."""

    version: Literal[1] = 1
    rules: str
    """Hash of the rule base."""
    files: int
    entries: dict[str, int]
    faults: int
    advice: int
    remarks: tuple[RemarkDocument, ...]


def check_document(base: RuleBase, problems: Sequence[Problem]) -> CheckDocument:
    """Return what was found as a document for other programs."""
    kinds = Counter(severity(problem) for problem in problems)
    return CheckDocument(
        rules=base.hash,
        files=len(base.files),
        entries={name: len(entries) for name, entries in tables(base).items()},
        faults=kinds["fault"],
        advice=kinds["advice"],
        remarks=tuple(
            RemarkDocument(
                check=problem.check,
                severity=severity(problem),
                file=problem.file,
                line=problem.line,
                key=problem.key,
                found=problem.found,
                expected=problem.expected,
                mend=problem.mend,
                sentence=problem.sentence(),
            )
            for problem in problems
        ),
    )


def remark_line(problem: Problem) -> str:
    """Return a problem as one line: its sentence, whether it is advice, and the id of its check."""
    text = _("{sentence} [advice, {check}]") if severity(problem) == "advice" else "{sentence} [{check}]"
    return text.format(sentence=problem.sentence(), check=problem.check)


def summary(base: RuleBase, problems: Sequence[Problem]) -> str:
    """Return how much was looked at and how much was found."""
    entries = ", ".join(f"{len(entries)} {name}" for name, entries in tables(base).items() if entries)
    kinds = Counter(severity(problem) for problem in problems)
    faults = ngettext("{count} fault", "{count} faults", kinds["fault"]) if kinds["fault"] else _("no faults")
    found = [faults.format(count=kinds["fault"])]
    if kinds["advice"]:
        advice = ngettext("{count} piece of advice", "{count} pieces of advice", kinds["advice"])
        found.append(advice.format(count=kinds["advice"]))
    text = ngettext(
        "{count} file, {entries}: {found}.", "{count} files, {entries}: {found}.", len(base.files)
    )
    return text.format(count=len(base.files), entries=entries, found=", ".join(found))


def sarif(problems: Sequence[Problem], folder: Path) -> dict[str, Any]:
    """Return what was found as a SARIF 2.1.0 log (OASIS Standard, 2020); files below `folder` are named from it."""
    ids = sorted({problem.check for problem in problems})
    driver = {
        "name": "diagnose rules check",
        "rules": [
            {
                "id": check,
                "shortDescription": {"text": CHECKS[check].looks_for},
                "defaultConfiguration": {"level": _LEVELS[CHECKS[check].severity]},
            }
            for check in ids
        ],
    }
    results = [_result(problem, ids.index(problem.check), folder) for problem in problems]
    run = {"tool": {"driver": driver}, "columnKind": "unicodeCodePoints", "results": results}
    return {"$schema": _SARIF_SCHEMA, "version": "2.1.0", "runs": [run]}


def _result(problem: Problem, index: int, folder: Path) -> dict[str, Any]:
    result: dict[str, Any] = {
        "ruleId": problem.check,
        "ruleIndex": index,
        "level": _LEVELS[severity(problem)],
        "message": {"text": problem.sentence()},
    }
    if problem.file:
        place: dict[str, Any] = {"artifactLocation": {"uri": _uri(Path(problem.file), folder)}}
        if problem.line is not None:
            place["region"] = {"startLine": problem.line}
        result["locations"] = [{"physicalLocation": place}]
    return result


def _uri(file: Path, folder: Path) -> str:
    """Return a file as a relative reference if it lies below the folder, as a file: address otherwise."""
    file = folder / file
    if file.is_relative_to(folder):
        return file.as_uri().removeprefix(folder.as_uri().rstrip("/") + "/")
    return file.as_uri()
