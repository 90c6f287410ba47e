"""`diagnose serve` as a process of its own, at any free port."""

import signal
import subprocess
import sys
from pathlib import Path

DIAGNOSE = str(Path(sys.executable).with_name("diagnose"))


class Served:
    """A running server; `address` is what it told to open, token included."""

    def __init__(self, *arguments):
        command = [DIAGNOSE, "serve", "--port", "0", *map(str, arguments)]
        self.process = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
        line = self.process.stdout.readline()
        assert line.startswith("Open http://"), line + self.process.communicate()[1]
        self.address = line.split()[1]

    def __enter__(self):
        return self

    def __exit__(self, *_):
        if self.process.poll() is None:
            self.interrupt()

    def interrupt(self):
        """Press Ctrl-C; return the exit code and what the server had to say."""
        self.process.send_signal(signal.SIGINT)
        said = self.process.communicate(timeout=30)[1]
        return self.process.returncode, said
