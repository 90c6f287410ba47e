"""Files written whole or not at all."""

import os
import tempfile
from pathlib import Path


def write_whole(path: Path, content: bytes) -> None:
    """Write a file so that a crash or a full disk leaves the old file or the new one, never half of it.

    Only its owner can read it. The folder must exist. Raises OSError if the file cannot be written.
    """
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=".new-", suffix=path.suffix)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        Path(name).replace(path)
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise
