"""What another language costs at the start: `python tests/bench/languages.py`.

Processor time of a process of its own that speaks and reads the built-in rules; fastest of several runs. The first
run of a language compiles its files into an empty cache, later ones read what was kept.
"""

import os
import subprocess
import sys
import tempfile

from diagnose.language import languages

START = """
import time
before = time.process_time()
from diagnose.language import speak
from diagnose.diagnosis import read_rules
imported = time.process_time()
speak({language!r})
spoken = time.process_time()
read_rules()
print(1000 * (spoken - imported), 1000 * (time.process_time() - spoken), 1000 * (time.process_time() - before))
"""
TIMES = 12


def started(language: str, cache: str) -> tuple[float, ...]:
    """Return the milliseconds of speaking, of reading the rules, and of both with what is imported for them."""
    program = START.format(language=language)
    environment = os.environ | {"XDG_CACHE_HOME": cache}
    done = subprocess.run([sys.executable, "-c", program], env=environment, capture_output=True, check=True)
    return tuple(float(part) for part in done.stdout.split())


def main() -> None:
    """Print both times of every language."""
    print("language         speak ms  read the rules ms  with imports ms")
    for language in languages():
        with tempfile.TemporaryDirectory() as cache:
            first = started(language, cache)
            runs = [started(language, cache) for _ in range(TIMES)]
        later = tuple(min(run[part] for run in runs) for part in range(3))
        for when, (speaking, reading, whole) in (("first", first), ("kept", later)):
            print(f"{language} {when:<12}  {speaking:8.1f}  {reading:17.1f}  {whole:15.1f}")


if __name__ == "__main__":
    main()
