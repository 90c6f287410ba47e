"""How tests look at screens: as plain text, and only once all work is done."""

import asyncio
import os
import time
from pathlib import Path

PICTURES = Path(__file__).parent / "pictures"
UPDATE = "UPDATE_PICTURES"
"""Set this in the environment to write the pictures anew."""


def text_of(app):
    """Return the screen as plain text (the one place that knows how Textual keeps it)."""
    strips = app.screen._compositor.render_strips()
    return "\n".join("".join(segment.text for segment in strip).rstrip() for strip in strips) + "\n"


async def until(pilot, holds, seconds=15.0):
    """Wait for a condition; fail with a picture of the screen if it does not come."""
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        await pilot.pause()
        if holds():
            return
        await asyncio.sleep(0.01)
    raise AssertionError(f"it did not come to pass:\n{text_of(pilot.app)}")


async def shows(pilot, *texts):
    """Wait until the screen shows all these texts."""
    await until(pilot, lambda: all(one in text_of(pilot.app) for one in texts))


async def tells(pilot, sentence):
    """Wait until the screen shows a sentence, wherever its lines break."""

    def joined(text):
        return "".join(c for c in text if c not in " \n│")

    await until(pilot, lambda: joined(sentence) in joined(text_of(pilot.app)))


async def settled(pilot):
    """Wait until no work is going on."""
    await until(pilot, lambda: not any(worker.is_running for worker in pilot.app.workers))
    await pilot.pause()


async def type_text(pilot, text):
    """Type a text into the field that has the focus."""
    for letter in text:
        await pilot.press({" ": "space", "-": "minus", ".": "full_stop"}.get(letter, letter))


def compare(app, name):
    """Compare the screen with its stored picture."""
    file = PICTURES / f"{name}.txt"
    seen = text_of(app)
    if os.environ.get(UPDATE):
        PICTURES.mkdir(exist_ok=True)
        file.write_text(seen, encoding="utf-8")
    assert file.exists(), f"no picture {file.name}; set {UPDATE}=1 to write it"
    assert seen == file.read_text(encoding="utf-8"), f"{file.name} differs; set {UPDATE}=1 to accept"
