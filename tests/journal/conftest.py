"""A journal in a folder of its own."""

import pytest

from diagnose.journal import open_journal


@pytest.fixture
def path(tmp_path):
    return tmp_path / "kept" / "journal.sqlite"


@pytest.fixture
def book(path):
    with open_journal(path) as journal:
        yield journal
