"""Copies what is in a folder, a .zip or a .tar.gz into a folder of ours, even where it was made to do harm."""

import errno
import gzip
import lzma
import os
import stat
import struct
import tarfile
import unicodedata
import zipfile
import zlib
from collections.abc import Callable, Generator, Iterable, Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import IO, BinaryIO

from saythesum.errors import CallerError
from saythesum.store.file_names import DEVICES

MOST_FILES = 2_000
MOST_BYTES = 4_000_000_000
"""The largest models of Vosk's makers are below 3 GB unpacked (from memory)."""
MOST_TIMES_LARGER = 50
"""Than the archive. Measured: a small model is three times as large as the archive it came in."""
NEVER_TOO_LARGE_BYTES = 20_000_000
DEEPEST = 10
LONGEST_NAME = 200
_LONGEST_READ_BYTES = 1_000_000
"""Longer than any honest header or directory; files are read in smaller pieces."""
_PIECE_BYTES = 65_536
_NOT_IN_NAMES = frozenset('<>:"\\|?*')
ARCHIVES = (".zip", ".tar.gz", ".tgz")
RIGHT = "right would be the folder, the .zip or the .tar.gz of a model"


class _UnsafeError(Exception):
    """The text continues a sentence that begins with the name of the source."""


@dataclass(frozen=True, slots=True)
class _Entry:
    name: str
    """With slashes, as the source has it."""
    open: Callable[[], IO[bytes]] | None
    """None for a folder."""


def unpack(source: Path, into: Path) -> None:
    """`into` is made. Only plain files and folders come out, and only inside it.

    Raises CallerError; what was unpacked by then is left for the caller to remove.
    """
    with _errors_in_plain_words(source):
        opened, most_bytes = _opened(source)
        with closing(opened) as entries:
            into.mkdir()
            _write(entries, into, most_bytes)


def check_kind(source: Path) -> None:
    """Raises CallerError unless the source is there and of a kind that can be unpacked."""
    with _errors_in_plain_words(source):
        _check_kind(source)


@contextmanager
def _errors_in_plain_words(source: Path) -> Iterator[None]:
    try:
        yield
    except _UnsafeError as found:
        raise CallerError(f"{source} {found}: nothing was added; {RIGHT}.") from found
    except OSError as failure:
        if isinstance(failure, gzip.BadGzipFile) or failure.errno == errno.EINVAL:  # a seek to before its beginning
            raise _damaged(source) from failure
        raise CallerError(
            f"{source} cannot be unpacked: {failure.strerror or failure}. Nothing was added."
        ) from failure
    except (zipfile.BadZipFile, tarfile.TarError, zlib.error, lzma.LZMAError, struct.error) as failure:
        raise _damaged(source) from failure
    except (EOFError, ValueError, NotImplementedError, RuntimeError, IndexError, OverflowError, KeyError) as failure:
        # What the libraries raise for archives that are truncated, encrypted or forged.
        raise _damaged(source) from failure


def _damaged(source: Path) -> CallerError:
    return CallerError(f"{source} is damaged or cannot be read: get it once more; {RIGHT}.")


def _check_kind(source: Path) -> None:
    if not source.exists():
        raise _UnsafeError("is not there")
    if not (source.is_dir() or (source.is_file() and source.name.lower().endswith(ARCHIVES))):
        raise _UnsafeError("is neither a folder nor an archive of a kind that can be unpacked")


def _opened(source: Path) -> tuple[Generator[_Entry, None, None], int]:
    """Its entries, and how many bytes they may have together."""
    _check_kind(source)
    if source.is_dir():
        return _in_folder(source), MOST_BYTES
    entries = _in_zip(source) if source.name.lower().endswith(".zip") else _in_tar(source)
    larger = MOST_TIMES_LARGER * source.stat().st_size
    return entries, min(MOST_BYTES, max(NEVER_TOO_LARGE_BYTES, larger))


def _write(entries: Iterable[_Entry], into: Path, most_bytes: int) -> None:
    seen: set[str] = set()
    left = most_bytes
    for count, entry in enumerate(entries, start=1):
        if count > MOST_FILES:
            raise _UnsafeError(f"has more than {MOST_FILES:,} files in it")
        parts = _parts(entry.name)
        path = into.joinpath(*parts)
        if entry.open is None:
            path.mkdir(parents=True, exist_ok=True)
            continue
        # Two names may differ and still be one file on some systems.
        same = unicodedata.normalize("NFC", "/".join(parts)).casefold()
        if not parts or same in seen:
            raise _UnsafeError(f"has the file {entry.name!r} twice")
        seen.add(same)
        path.parent.mkdir(parents=True, exist_ok=True)
        with entry.open() as reader, path.open("xb") as file:
            while piece := reader.read(_PIECE_BYTES):
                left -= len(piece)
                if left < 0:
                    raise _UnsafeError(f"becomes larger than {most_bytes:,} bytes when it is unpacked")
                file.write(piece)


def _parts(name: str) -> list[str]:
    parts = name.split("/")
    if parts[0] == "" or ".." in parts:
        raise _UnsafeError(f"has a file in it that would go elsewhere ({name!r})")
    parts = [part for part in parts if part not in {"", "."}]
    if len(parts) > DEEPEST or not all(map(is_safe_name, parts)):
        raise _UnsafeError(f"has a file in it whose name cannot be used everywhere ({name[:100]!r})")
    return parts


def is_safe_name(name: str) -> bool:
    """One part of a path, on every system."""
    if not name.isprintable() or (_NOT_IN_NAMES | {"/"}) & set(name):
        return False
    is_bare = name == name.strip(" ") == name.rstrip(".")
    return is_bare and 0 < len(name.encode()) <= LONGEST_NAME and name.partition(".")[0].lower() not in DEVICES


def _in_folder(source: Path) -> Generator[_Entry, None, None]:
    def cannot(failure: OSError) -> None:
        raise failure

    for place, folders, files in os.walk(source, onerror=cannot):
        for name in sorted(folders + files):
            path = Path(place, name)
            mode = path.lstat().st_mode
            inside = path.relative_to(source).as_posix()
            if stat.S_ISREG(mode):
                yield _Entry(inside, lambda path=path: path.open("rb"))  # type: ignore[misc]
            elif not stat.S_ISDIR(mode):
                raise _UnsafeError(f"has something in it that is neither file nor folder, a link perhaps ({inside!r})")


class _ShortReads:
    """A file whose single reads are limited, so that no archive can make its reader take in gigabytes."""

    def __init__(self, file: BinaryIO | gzip.GzipFile) -> None:
        self._file = file
        self.seek, self.tell, self.close = file.seek, file.tell, file.close
        self.seekable, self.closed = file.seekable, False

    def read(self, size: int = -1) -> bytes:
        data = b"" if size > _LONGEST_READ_BYTES else self._file.read(size if size >= 0 else _LONGEST_READ_BYTES + 1)
        if max(size, len(data)) > _LONGEST_READ_BYTES:
            raise _UnsafeError("says far more about itself than an archive does")
        return data


def _in_zip(source: Path) -> Generator[_Entry, None, None]:
    with source.open("rb") as file, zipfile.ZipFile(_ShortReads(file)) as archive:
        for info in archive.infolist():
            kind = stat.S_IFMT(info.external_attr >> 16)
            if kind not in (0, stat.S_IFREG, stat.S_IFDIR):
                raise _UnsafeError(f"has a link or a device in it ({info.filename!r})")
            if info.flag_bits & 1:
                raise _UnsafeError("is locked with a password")
            yield _Entry(info.filename, None if info.is_dir() else lambda info=info: archive.open(info))  # type: ignore[misc]


def _in_tar(source: Path) -> Generator[_Entry, None, None]:
    with gzip.open(source) as unzipped:
        reads = _ShortReads(unzipped)
        with tarfile.open(fileobj=reads, mode="r:", errorlevel=2) as archive:  # type: ignore[call-overload]
            for member in archive:
                if not (member.isreg() or member.isdir()) or member.issparse():
                    raise _UnsafeError(f"has a link or a device in it ({member.name!r})")
                if member.size > MOST_BYTES:
                    raise _UnsafeError(f"becomes larger than {MOST_BYTES:,} bytes when it is unpacked")
                yield _Entry(member.name, None if member.isdir() else lambda member=member: archive.extractfile(member))  # type: ignore[misc]
        # gzip checks its sum only at the end, which lies behind the empty blocks that close a tar file.
        if len(unzipped.read(_LONGEST_READ_BYTES)) == _LONGEST_READ_BYTES:
            raise _UnsafeError("has something hidden behind its end")
