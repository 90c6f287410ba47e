"""Wait for what should come about, up to a deadline; the machine may be busy."""

import time

DEADLINE_S = 30


def wait_for(what, told, deadline_s=DEADLINE_S):
    """Return the first true value of what(); at the deadline fail with told()."""
    end = time.monotonic() + deadline_s
    while not (value := what()):
        if time.monotonic() > end:
            raise AssertionError(told())
        time.sleep(0.05)
    return value
