"""Hostile and broken archives: nothing comes out but plain files, inside the folder, and not too much of it.

Source of the kinds of attack: "A better zip bomb" (Fifield, 2019) and the warnings of Python's own documentation of
zipfile and tarfile ("Decompression pitfalls", "Extraction filters").
"""

import gzip
import io
import os
import stat
import tarfile
import tempfile
import zipfile
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saythesum.app.models.unpack import LONGEST_NAME, MOST_FILES, NEVER_TOO_LARGE_BYTES, is_safe_name, unpack
from saythesum.errors import CallerError

HELD = {"ferry/am/final.mdl": b"oars " * 3_000, "ferry/README": b"of our own\n", "ferry/empty": b""}


def zipped(*entries: tuple[str | zipfile.ZipInfo, bytes], method: int = zipfile.ZIP_DEFLATED) -> bytes:
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w", method) as archive:
        for name, data in entries:
            archive.writestr(name, data, method)
    return file.getvalue()


def tarred(*members: tuple[tarfile.TarInfo, bytes], form: int = tarfile.PAX_FORMAT) -> bytes:
    file = io.BytesIO()
    with tarfile.open(fileobj=file, mode="w:gz", format=form) as archive:
        for member, data in members:
            archive.addfile(member, io.BytesIO(data))
    return file.getvalue()


def member(name: str, data: bytes = b"", kind: bytes = tarfile.REGTYPE, to: str = "") -> tuple[tarfile.TarInfo, bytes]:
    info = tarfile.TarInfo(name)
    info.size, info.type, info.linkname = len(data), kind, to
    return info, data


def zip_entry(name: str, mode: int) -> zipfile.ZipInfo:
    info = zipfile.ZipInfo(name)
    info.external_attr = mode << 16
    return info


def contents(folder: Path) -> dict[str, bytes]:
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


ZIP = zipped(*HELD.items())
TAR = tarred(*(member(name, data) for name, data in HELD.items()))


@pytest.mark.parametrize(
    ("name", "data"),
    [
        ("a.zip", ZIP),
        ("A.ZIP", zipped(*HELD.items(), method=zipfile.ZIP_STORED)),
        ("a.zip", zipped(*HELD.items(), method=zipfile.ZIP_LZMA)),
        ("a.zip", zipped(*HELD.items(), method=zipfile.ZIP_BZIP2)),
        ("a.zip", zipped(("ferry/", b""), ("ferry/am/", b""), *HELD.items())),
        ("a.tar.gz", TAR),
        ("a.tgz", tarred(*(member(f"./{name}", data) for name, data in HELD.items()), form=tarfile.GNU_FORMAT)),
        ("a.tgz", tarred(*(member(name, data) for name, data in HELD.items()), form=tarfile.USTAR_FORMAT)),
    ],
)
def test_an_honest_archive(name: str, data: bytes, tmp_path: Path) -> None:
    (tmp_path / name).write_bytes(data)
    unpack(tmp_path / name, tmp_path / "into")
    assert contents(tmp_path / "into") == HELD


def test_modes_and_owners_of_an_archive_are_not_taken_over(tmp_path: Path) -> None:
    info, data = member("ferry", b"oars")
    info.mode, info.uid = 0o6777, 12345
    (tmp_path / "a.tgz").write_bytes(tarred((info, data)))
    unpack(tmp_path / "a.tgz", tmp_path / "into")
    found = (tmp_path / "into/ferry").stat()
    assert stat.S_IMODE(found.st_mode) & 0o7111 == 0
    assert found.st_uid == os.getuid()


ELSEWHERE = ("../oars", "ferry/../../oars", "/tmp/oars", "//server/oars", "ferry/..")
UNUSABLE = (
    "..\\oars", "C:oars", "C:\\oars", "oars:stream", "oars.", "oars ", " oars", "...", "con", "ferry/NUL.txt", "lpt1.x",
    "a\nb", "a\x1b[2Jb", "o" * (LONGEST_NAME + 1), "/".join("abcdefghijk"), "what?", "\u202eoars",
)  # fmt: skip


@pytest.mark.parametrize("make", [lambda name: ("a.zip", zipped((name, b"1"))), lambda name: ("a.tgz", tarred(member(name, b"1")))])  # fmt: skip  # noqa: E501
@pytest.mark.parametrize(
    ("name", "sentence"),
    [(name, "that would go elsewhere") for name in ELSEWHERE]
    + [(name, "whose name cannot be used everywhere") for name in UNUSABLE],
)
def test_a_name_that_leads_elsewhere(
    name: str, sentence: str, make: Callable[[str], tuple[str, bytes]], tmp_path: Path
) -> None:
    archive, data = make(name)
    (tmp_path / archive).write_bytes(data)
    before = set(tmp_path.parent.rglob("*"))
    with pytest.raises(CallerError, match=sentence):
        unpack(tmp_path / archive, tmp_path / "into")
    assert set(tmp_path.parent.rglob("*")) - before <= {tmp_path / "into"}


def locked() -> bytes:
    """The bit that says so, in both places where a zip has it."""
    data = bytearray(ZIP)
    for signature, at in ((b"PK\x03\x04", 6), (b"PK\x01\x02", 8)):
        data[data.index(signature) + at] |= 1
    return bytes(data)


def long_about_itself() -> bytes:
    """A directory of more than a megabyte for twenty files."""
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w") as archive:
        for number in range(20):
            info = zipfile.ZipInfo(f"oar-{number}")
            info.comment = b"o" * 60_000
            archive.writestr(info, b"")
    return file.getvalue()


def gzipped(*blocks: bytes) -> bytes:
    return gzip.compress(b"".join(blocks), 1, mtime=0)


def extended(size: int) -> bytes:
    """A header that says that more about the next file follows, as much of it as `size`."""
    info = tarfile.TarInfo("about")
    info.type, info.size = tarfile.XHDTYPE, size
    return info.tobuf(tarfile.USTAR_FORMAT)


def long_name_headers(count: int) -> bytes:
    """Each of which is about the next: readers may call themselves for each."""
    info = tarfile.TarInfo("././@LongLink")
    info.type, info.size = tarfile.GNUTYPE_LONGNAME, 5
    return (info.tobuf(tarfile.GNU_FORMAT) + b"oars\0".ljust(512, b"\0")) * count


def sparse() -> bytes:
    """A few bytes that say they are a gigabyte with a hole in it."""
    info, data = member("oars", b"1" * 512)
    info.type, info.size = tarfile.GNUTYPE_SPARSE, 512
    header = bytearray(info.tobuf(tarfile.GNU_FORMAT))
    header[386:410] = b"00000000000\0" + b"00000001000\0"
    header[482:483], header[483:495] = b"\0", b"10000000000\0"
    header[148:156] = b" " * 8
    header[148:156] = b"%06o\0 " % sum(header)
    return gzipped(bytes(header), data, bytes(1024))


ZEROS = bytes(NEVER_TOO_LARGE_BYTES + 1)
DAMAGED = (
    "is damaged or cannot be read: get it once more; right would be the folder, the .zip or the .tar.gz of a model."
)
LINK = "has a link or a device in it ('oars')"


@pytest.mark.parametrize(
    ("name", "data", "sentence"),
    [
        ("a.zip", zipped((zip_entry("oars", stat.S_IFLNK | 0o777), b"/etc/hostname")), LINK),
        ("a.zip", zipped((zip_entry("oars", stat.S_IFCHR | 0o666), b"")), LINK),
        ("a.zip", zipped((zip_entry("oars", stat.S_IFIFO | 0o666), b"")), LINK),
        ("a.tgz", tarred(member("oars", kind=tarfile.SYMTYPE, to="/etc/hostname")), LINK),
        ("a.tgz", tarred(member("oars", kind=tarfile.LNKTYPE, to="../../oars")), LINK),
        ("a.tgz", tarred(member("oars", kind=tarfile.CHRTYPE)), LINK),
        ("a.tgz", tarred(member("oars", kind=tarfile.BLKTYPE)), LINK),
        ("a.tgz", tarred(member("oars", kind=tarfile.FIFOTYPE)), LINK),
        ("a.tgz", sparse(), LINK),
        ("a.zip", zipped(("oars", ZEROS)), "becomes larger than 20,000,000 bytes when it is unpacked"),
        ("a.tgz", tarred(member("oars", ZEROS)), "becomes larger than 20,000,000 bytes when it is unpacked"),
        ("a.zip", zipped(*((f"{number}", b"") for number in range(MOST_FILES + 1))), "has more than 2,000 files in it"),
        ("a.tgz", tarred(*(member(f"{number}") for number in range(MOST_FILES + 1))), "has more than 2,000 files"),
        ("a.zip", long_about_itself(), "says far more about itself than an archive does"),
        ("a.tgz", gzipped(extended(2_000_000), bytes(2_000_000)), "says far more about itself than an archive does"),
        ("a.tgz", gzipped(long_name_headers(5_000), bytes(1024)), DAMAGED),
        ("a.tgz", gzipped(gzip.decompress(TAR), bytes(2_000_000)), "has something hidden behind its end"),
        ("a.zip", zipped(("ferry/oars", b""), ("ferry/OARS", b"")), "has the file 'ferry/OARS' twice"),
        ("a.zip", zipped(("b\u00f6rd", b""), ("bo\u0308rd", b"")), "has the file"),
        ("a.tgz", tarred(member("oars", b"1"), member("./oars", b"2")), "has the file './oars' twice"),
        ("a.tgz", tarred(member("oars", b"1"), member("oars/blade", b"2")), "cannot be unpacked: "),
        ("a.zip", locked(), "is locked with a password"),
        ("a.zip", b"", DAMAGED),
        ("a.zip", TAR, DAMAGED),
        ("a.zip", ZIP[:-30], DAMAGED),
        ("a.zip", ZIP[40:], DAMAGED),
        ("a.zip", zipped(*HELD.items(), method=zipfile.ZIP_STORED).replace(b"oars oars", b"oars ears"), DAMAGED),
        ("a.tgz", b"", DAMAGED),
        ("a.tgz", ZIP, DAMAGED),
        ("a.tgz", TAR[: len(TAR) // 2], DAMAGED),
        ("a.tgz", TAR[:-8] + b"12341234", DAMAGED),
        ("a.tgz", gzipped(b"oars" * 1_000), DAMAGED),
        ("a.rar", ZIP, "is neither a folder nor an archive of a kind that can be unpacked: nothing was added; right"),
        ("a.tar", gzip.decompress(TAR), "is neither a folder nor an archive of a kind that can be unpacked"),
    ],
)  # fmt: skip
def test_a_hostile_or_broken_archive(name: str, data: bytes, sentence: str, tmp_path: Path) -> None:
    (tmp_path / name).write_bytes(data)
    with pytest.raises(CallerError) as caught:
        unpack(tmp_path / name, tmp_path / "into")
    assert str(caught.value).startswith(f"{tmp_path / name} {sentence}")
    assert str(caught.value).count("\n") == 0
    assert sum(len(data) for data in contents(tmp_path).values()) <= len(data) + NEVER_TOO_LARGE_BYTES


def test_what_is_not_there(tmp_path: Path) -> None:
    with pytest.raises(CallerError, match=r"oars.zip is not there: nothing was added; right would be the folder"):
        unpack(tmp_path / "oars.zip", tmp_path / "into")
    with pytest.raises(CallerError, match="is neither a folder nor an archive"):
        unpack(Path("/dev/null"), tmp_path / "into")


def refused_or_inside(name: str, data: bytes) -> None:
    with tempfile.TemporaryDirectory() as folder:
        place = Path(folder)
        (place / name).write_bytes(data)
        try:
            unpack(place / name, place / "into")
        except CallerError as error:
            assert str(place) in str(error)
        assert {path.name for path in place.iterdir()} <= {name, "into"}
        assert all(path.is_dir() or path.is_file() for path in place.rglob("*"))
        assert not any(path.is_symlink() for path in place.rglob("*"))


@given(
    name=st.sampled_from(["a.zip", "a.tgz"]),
    changes=st.lists(st.tuples(st.floats(0, 1), st.integers(0, 255)), max_size=5),
    cut=st.floats(0.5, 1),
)
def test_any_change_to_an_archive_is_refused_or_stays_inside(
    name: str, changes: list[tuple[float, int]], cut: float
) -> None:
    data = bytearray(ZIP if name == "a.zip" else TAR)
    for place, value in changes:
        data[int(place * (len(data) - 1))] = value
    refused_or_inside(name, bytes(data[: int(cut * len(data))]))


@given(
    changes=st.lists(st.tuples(st.integers(0, 511), st.integers(0, 255)), max_size=8), right_sum=st.booleans()
)  # fmt: skip
def test_any_change_to_a_tar_header_is_refused_or_stays_inside(changes: list[tuple[int, int]], right_sum: bool) -> None:
    data = bytearray(gzip.decompress(TAR))
    for place, value in changes:
        data[place] = value
    if right_sum:
        data[148:156] = b" " * 8
        data[148:156] = b"%06o\0 " % sum(data[:512])
    refused_or_inside("a.tgz", gzipped(bytes(data)))


@given(st.lists(st.text(st.characters(codec="utf-8", exclude_characters="\0"), min_size=1), min_size=1, max_size=4))
def test_any_names_are_refused_or_stay_inside(names: list[str]) -> None:
    refused_or_inside("a.zip", zipped(*((name, b"1") for name in dict.fromkeys(names))))
    refused_or_inside("a.tgz", tarred(*(member(name, b"1") for name in names)))


@given(st.text(st.characters(codec="utf-8"), max_size=12))
def test_a_safe_name_is_one_part_of_a_path_everywhere(name: str) -> None:
    if is_safe_name(name):
        assert Path("in", name).parts == ("in", name)
        assert name.strip(" ") == name
        assert os.path.basename(name) == name
