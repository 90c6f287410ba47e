"""Wait for what should come about, up to a deadline; the machine may be busy."""

import time

DEADLINE_S = 120


def wait_for(what, told, every_s=0.1):
    """Return the first true value of what(), asked again and again; at the deadline fail with told()."""
    end = time.monotonic() + DEADLINE_S
    while not (value := what()):
        if time.monotonic() > end:
            raise AssertionError(told())
        time.sleep(every_s)
    return value
