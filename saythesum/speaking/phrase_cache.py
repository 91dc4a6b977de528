"""Rendered phrases kept on disk, so that what was said once is ready at once.

Nothing here is needed: a folder that cannot be written, a full disk or a damaged file cost only time.
"""

import os
from contextlib import suppress
from hashlib import sha256
from pathlib import Path
from tempfile import NamedTemporaryFile
from typing import Protocol

from saythesum.ports import Sound, Voice
from saythesum.speaking.pcm import DamagedFileError, read_pcm, write_pcm

MOST_BYTES = 200_000_000
"""Measured: the numbers to 1099, each said alone, take 96 million."""
LEFT_AFTER_DROPPING = 0.9


class KnownVoice(Voice, Protocol):
    @property
    def identity(self) -> str:
        """All that a phrase's sound depends on, besides the phrase."""


class KeptVoice:
    """A `Voice` with a memory. Several processes may share one folder."""

    def __init__(self, voice: KnownVoice, folder: Path, *, most_bytes: int = MOST_BYTES) -> None:
        self._voice = voice
        self._folder = folder
        self._most_bytes = most_bytes
        self._identity: str | None = None
        """Asked for once, so that what is kept never waits for a voice that is busy."""
        self._bytes: int | None = None
        """In the folder as far as known here; None before it was looked at."""

    def render(self, phrase: str) -> Sound:
        """The same samples whether it was kept or not. Raises VoiceError."""
        self._identity = self._identity or self._voice.identity
        key = sha256(f"{self._identity}\n{phrase}".encode(errors="surrogatepass")).hexdigest()
        path = self._folder / f"{key}.wav"
        with suppress(OSError, DamagedFileError):
            kept = read_pcm(path)
            os.utime(path)  # the time of last use: the longest unused goes first
            return kept
        sound = self._voice.render(phrase)
        with suppress(OSError, DamagedFileError):
            self._keep(path, sound)
            return read_pcm(path)
        return sound

    def close(self) -> None:
        self._voice.close()

    def _keep(self, path: Path, sound: Sound) -> None:
        """Other processes that read this folder see the whole file or none."""
        self._folder.mkdir(parents=True, exist_ok=True)
        with NamedTemporaryFile(dir=self._folder, suffix=".part", delete=False) as part:
            pass
        try:
            write_pcm(Path(part.name), sound)
            os.replace(part.name, path)
        except OSError:
            Path(part.name).unlink(missing_ok=True)
            raise
        self._count(path.stat().st_size)

    def _count(self, written: int) -> None:
        if self._bytes is None or self._bytes + written > self._most_bytes:
            self._bytes = _drop_oldest(self._folder, self._most_bytes)
        else:
            self._bytes += written


def _drop_oldest(folder: Path, most_bytes: int) -> int:
    """Down to LEFT_AFTER_DROPPING of the most, where there is more than the most; the bytes that are left."""
    files = []
    for path in (*folder.glob("*.wav"), *folder.glob("*.part")):
        with suppress(FileNotFoundError):  # another process drops, too
            status = path.stat()
            files.append((status.st_mtime_ns, status.st_size, path))
    total = sum(size for _, size, _ in files)
    if total <= most_bytes:
        return total
    for _, size, path in sorted(files):
        if total <= most_bytes * LEFT_AFTER_DROPPING:
            break
        with suppress(OSError):
            path.unlink(missing_ok=True)
            total -= size
    return total
