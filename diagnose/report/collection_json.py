"""Records of the collection as data for other programs: their fields by name, dates in ISO form, versioned."""

import dataclasses
import datetime as dt
import json
import math
from typing import Any

VERSION = 1


def document(what: str, record: Any) -> str:
    """Return a record, or several, as JSON under its name; infinite ratios (nothing lost before) are null."""
    return json.dumps({"version": VERSION, what: _plain(record)}, indent=1, ensure_ascii=False)


def _plain(value: Any) -> Any:
    if dataclasses.is_dataclass(value):
        return {field.name: _plain(getattr(value, field.name)) for field in dataclasses.fields(value)}
    if isinstance(value, dict):
        return {key: _plain(inner) for key, inner in value.items()}
    if isinstance(value, list | tuple | frozenset):
        return [_plain(inner) for inner in (sorted(value) if isinstance(value, frozenset) else value)]
    if isinstance(value, dt.date):
        return value.isoformat()
    if isinstance(value, float) and not math.isfinite(value):
        return None
    return value
