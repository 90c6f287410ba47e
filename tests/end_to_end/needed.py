"""Programs that some tests need: without one they are skipped, or fail where DIAGNOSE_REQUIRE names their kind."""

import os
import shutil

import pytest


def program(kind, *names):
    """Return the path of the first of `names` that is installed, for tests of one kind ("terminal" or "browser")."""
    for name in names:
        if path := shutil.which(name):
            return path
    return absent(kind, f"{names[0]}, which the {kind} tests drive, is not installed")


def absent(kind, reason):
    """Skip the test for want of something, or fail it where its kind is required."""
    if kind in os.environ.get("DIAGNOSE_REQUIRE", "").split(","):
        pytest.fail(reason)
    pytest.skip(reason)
