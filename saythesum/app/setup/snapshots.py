"""What is known of a pupil after so many practices, kept in files so that no start has to go through all the rows.

The rows are the truth. A snapshot belongs to a list of practices, each with how many rows it had then, and to one
version of the program. Whatever is missing, damaged or belongs to another list is worked out anew, and the files may
be erased at any time.
"""

import os
from collections.abc import Iterator, Sequence
from contextlib import suppress
from dataclasses import fields
from hashlib import sha256
from pathlib import Path
from tempfile import NamedTemporaryFile
from typing import NamedTuple

import msgspec

from saythesum import __version__
from saythesum.learner.pupil import Pupil
from saythesum.learner.replay import WEIGHED_AS
from saythesum.ports import EarlierPractice

MOST_KEPT = 4
"""Of one pupil. A grid that is gone on with after others has fewer practices before it than the newest one."""
SUFFIX = ".known"
_DIGEST_BYTES = sha256().digest_size


class Snapshot(NamedTuple):
    practices: int
    """It stands after so many of the pupil's practices, counted from the oldest."""
    pupil: Pupil


def latest_snapshot(folder: Path, earlier: Sequence[EarlierPractice]) -> Snapshot | None:
    """The one after the most of these practices. `folder` is the pupil's own."""
    for practices, path in sorted(_kept(folder), reverse=True):
        if practices <= len(earlier) and path == _path(folder, earlier[:practices]):
            pupil = _read(path)
            if pupil is not None:
                return Snapshot(practices, pupil)
    return None


def keep_snapshot(folder: Path, earlier: Sequence[EarlierPractice], pupil: Pupil) -> None:
    """Whole or not at all. A folder that cannot be written costs only time, at the next start."""
    path = _path(folder, earlier)
    content = msgspec.msgpack.encode(pupil)
    with suppress(OSError):
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        with NamedTemporaryFile(dir=folder, suffix=".part", delete=False) as part:
            part.write(_digest(path, content) + content)
        os.replace(part.name, path)
        _drop_oldest(folder)


def _read(path: Path) -> Pupil | None:
    try:
        data = path.read_bytes()
        digest, content = data[:_DIGEST_BYTES], data[_DIGEST_BYTES:]
        if _digest(path, content) != digest:
            return None
        pupil = msgspec.msgpack.decode(content, type=Pupil)
        os.utime(path)  # the time of last use: the longest unused goes first
    except (OSError, msgspec.MsgspecError):
        return None
    return pupil


def _digest(path: Path, content: bytes) -> bytes:
    """Also of the name, so that a file that was renamed is not taken for another."""
    return sha256(path.name.encode() + content).digest()


def _path(folder: Path, earlier: Sequence[EarlierPractice]) -> Path:
    """Named by all that its content depends on."""
    listed = "\n".join(f"{practice.id.int:x} {practice.rows}" for practice in earlier)
    shape = " ".join(field.name for field in fields(Pupil))
    key = sha256(f"{__version__} {WEIGHED_AS} {shape}\n{listed}".encode()).hexdigest()
    return folder / f"{len(earlier)}-{key}{SUFFIX}"


def _kept(folder: Path) -> Iterator[tuple[int, Path]]:
    for path in folder.glob(f"*-*{SUFFIX}"):
        practices, _, _ = path.name.partition("-")
        if practices.isdecimal():
            yield int(practices), path


def _drop_oldest(folder: Path) -> None:
    """A part that was left behind by a kill goes, too, once it is older than what is kept."""
    newest_first = sorted(folder.iterdir(), key=lambda path: path.stat().st_mtime_ns, reverse=True)
    for path in newest_first[MOST_KEPT:]:
        path.unlink(missing_ok=True)
