"""Plants and totals made by hand."""

import datetime as dt

import pytest

from diagnose.journal.records import LeafTotals, PlantRecord

DAY = dt.date(2026, 6, 1)


@pytest.fixture
def day():
    return DAY


@pytest.fixture
def plant():
    def plant(number, **fields):
        return PlantRecord(number, fields.pop("name", f"Plant {number}"), **fields)

    return plant


@pytest.fixture
def totals():
    def totals(number, now=0, before=0, *, days_ago=3, leaves=5, **fields):
        told = {
            "counts": 60,
            "first_on": dt.date(2025, 1, 1),
            "present": leaves,
            "present_before": leaves + 2,
            "days_recent": 90,
            "leaf_days_recent": 450.0,
            "days_earlier": 360,
            "leaf_days_earlier": 1800.0,
        }
        last = DAY - dt.timedelta(days=days_ago)
        return LeafTotals(number, last_on=last, lost_recent=now, lost_earlier=before, **(told | fields))

    return totals
