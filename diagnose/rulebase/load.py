"""Rule folders into one RuleBase: every file alone, then all together. A faulty file is left out and told."""

import hashlib
import itertools
import os
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from diagnose.language import _, numeral, quoted
from diagnose.measures.registry import DECLARED
from diagnose.problems import BadInputError, Problem, nearest
from diagnose.rulebase.model import TABLES, RuleFile
from diagnose.rulebase.resolve import dangling
from diagnose.rulebase.rulebase import FIELDS, AnyEntry, RuleBase, Standing
from diagnose.rulebase.switch import without
from diagnose.rulebase.vocabulary import vocabulary
from diagnose.tomlfiles.lines import line_index, line_of
from diagnose.tomlfiles.read import fit, read_toml

HOUSE = "house"
MOST_FAULTS = 50  # told of one file; one with more is not mended key by key
MOST_FILES = 2000  # far above any rule base; a folder with more is the wrong folder


@dataclass(frozen=True, slots=True)
class ReadFile:
    """One file's entries, and whether it is a house file."""

    name: str
    text: str
    house: bool
    content: RuleFile


def load(
    built_in: Path, house: Sequence[Path] = (), *, house_too: bool = True, leave_out: Path | None = None
) -> RuleBase:
    """Return the rule base of the built-in folder (its house/ is house) with the grower's folders on top.

    `leave_out` is a file or folder that is taken for absent, wherever it lies.
    Never raises for a faulty file: it is left out, and its faults ride along in `problems`.
    """
    problems: list[Problem] = []
    files = [file for file in _read_all(built_in, house, problems, leave_out) if house_too or not file.house]
    while True:
        base, faults = _merge(files)
        if not faults:
            return replace(base, problems=tuple(problems))
        problems += faults
        at_fault = _to_leave_out(files, faults)
        files = [file for file in files if file.name not in at_fault]


def read_folder(folder: Path) -> tuple[list[ReadFile], tuple[Problem, ...]]:
    """Return the files of one rules folder as they stand, each alone, and the faults of those that cannot be read."""
    problems: list[Problem] = []
    return list(_read_all(folder, (), problems)), tuple(problems)


def _to_leave_out(files: Iterable[ReadFile], faults: Iterable[Problem]) -> set[str]:
    """House files at fault go first: what they broke in built-in files is then whole again."""
    at_fault = {fault.file for fault in faults}
    house = {file.name for file in files if file.house and file.name in at_fault}
    return house or {name for name in at_fault if name}


def _read_all(
    built_in: Path, house: Sequence[Path], problems: list[Problem], leave_out: Path | None = None
) -> Iterator[ReadFile]:
    seen: set[str] = set()
    for folder, is_house in [(built_in, False), *((path, True) for path in house)]:
        for path in _toml_files(folder, problems):
            if (really := os.path.realpath(path)) in seen:  # a folder given again, or one inside another
                continue
            if leave_out is not None and Path(really).is_relative_to(leave_out.resolve()):
                continue
            seen.add(really)
            in_house = is_house or path.relative_to(folder).parts[0] == HOUSE
            try:
                data, text = read_toml(path)
                yield ReadFile(str(path), text, in_house, fit(data, text, RuleFile, str(path), MOST_FAULTS))
            except BadInputError as error:
                problems += error.problems


def _toml_files(folder: Path, problems: list[Problem]) -> list[Path]:
    def refuse(found: str, expected: str, mend: str) -> list[Path]:
        problems.append(Problem(str(folder), None, "", found, expected, mend, "file"))
        return []

    if not folder.exists():
        return refuse(_("no such folder"), _("a folder of rule files"), _("check the name"))
    if not folder.is_dir():
        return [folder]
    found = itertools.islice(folder.rglob("*.toml"), MOST_FILES + 1)
    files = sorted(path for path in found if not path.name.startswith("."))
    if len(files) > MOST_FILES:
        found_many = _("more than {most} .toml files").format(most=numeral(MOST_FILES, ","))
        return refuse(found_many, _("a folder of rule files"), _("name a smaller folder"))
    return files


def _merge(files: Sequence[ReadFile]) -> tuple[RuleBase, list[Problem]]:
    """Put all files together, house on top, then look whether every name used exists."""
    tables: dict[str, dict[str, AnyEntry]] = {table: {} for table in TABLES}
    standing: dict[tuple[str, str], Standing] = {}
    faults: list[Problem] = []
    texts = {file.name: file.text for file in files}
    for file in sorted(files, key=lambda file: file.house):
        for table in TABLES:
            for index, entry in enumerate(getattr(file.content, table)):
                here = Standing(file.name, table, index, file.house)
                before = standing.get((table, entry.id))
                if (fault := _clash(entry, here, before, texts)) is not None:
                    faults.append(fault)
                    continue
                tables[table][entry.id] = entry
                standing[table, entry.id] = here
    off, more = _switched_off(files, standing, texts)
    faults += more
    whole = RuleBase(
        **_by_field(tables),
        vocabulary=vocabulary(tables["question"].values(), tables["plant"].values(), DECLARED),  # type: ignore[arg-type]
        standing=standing,
        hash=_hash(files),
        switched_off=frozenset(off),
        files=tuple(file.name for file in files),
        texts=texts,
    )
    faults += [at_line(fault, texts) for fault in _few_a_file(dangling(whole))]
    return replace(whole, **_by_field(without(tables, off))), faults


def _few_a_file(faults: Iterable[Problem]) -> Iterator[Problem]:
    told: Counter[str | None] = Counter()
    for fault in faults:
        told[fault.file] += 1
        if told[fault.file] <= MOST_FAULTS:
            yield fault


def _by_field(tables: Mapping[str, Mapping[str, AnyEntry]]) -> dict[str, Any]:
    return {FIELDS[table]: entries for table, entries in tables.items()}


def at_line(fault: Problem, texts: Mapping[str, str]) -> Problem:
    """Return the fault with the line its path stands at."""
    return replace(fault, line=line_of(line_index(texts[fault.file or ""]), fault.path))


def _clash(entry: AnyEntry, here: Standing, before: Standing | None, texts: dict[str, str]) -> Problem | None:
    path = (here.table, here.index, "id")
    if before is None and entry.override:
        found = _("override of {id}, which no {table} has").format(id=quoted(entry.id), table=here.table)
        expected, mend = _("the id of an existing entry"), _("remove override or correct the id")
    elif before is not None and not (entry.override and here.house):
        found = _("the id {id} again ({file} has it)").format(
            id=quoted(entry.id), file=Path(before.file).name
        )
        expected = _("an id of its own")
        mend = _("choose another id")
        if here.house:
            mend = _("choose another id, or write override = true to replace it")
    else:
        return None
    return at_line(
        Problem(here.file, None, f"{here.table} {entry.id}", found, expected, mend, "ids", path), texts
    )


def _switched_off(
    files: Sequence[ReadFile], standing: dict[tuple[str, str], Standing], texts: dict[str, str]
) -> tuple[set[str], list[Problem]]:
    known = {entry_id for _, entry_id in standing}
    off: set[str] = set()
    faults = []
    for file in files:
        for position, entry_id in enumerate(file.content.switch_off):
            if entry_id in known:
                off.add(entry_id)
                continue
            found = _("{id}, which no entry has").format(id=quoted(entry_id))
            expected, path = _("the id of an existing entry"), ("switch_off", position)
            fault = Problem(file.name, None, path[0], found, expected, nearest(entry_id, known), "ids", path)
            faults.append(at_line(fault, texts))
    return off, faults


def _hash(files: Iterable[ReadFile]) -> str:
    digest = hashlib.sha256()
    for file in files:
        digest.update(file.text.encode())
    return digest.hexdigest()[:12]
