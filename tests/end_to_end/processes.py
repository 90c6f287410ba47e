"""What a process has started."""

import subprocess


def children(process):
    """Return the ids of a process's children, oldest first."""
    found = subprocess.run(
        ["ps", "-o", "pid=", "--ppid", str(process)], capture_output=True, text=True, check=False
    )
    return [int(word) for word in found.stdout.split()]


def lives(process):
    """Whether a process still runs; one that has ended and waits to be counted does not."""
    found = subprocess.run(
        ["ps", "-o", "stat=", "-p", str(process)], capture_output=True, text=True, check=False
    )
    return bool(found.stdout.strip()) and not found.stdout.startswith("Z")
