"""The file of a pupil's own words: what comes back, and what becomes of one that is damaged or does not fit."""

import stat
from collections.abc import Callable
from dataclasses import replace
from datetime import date
from pathlib import Path

import numpy as np
import pytest

from saythesum.hearing.embedded.own_words.own_words import OwnWords
from saythesum.hearing.embedded.own_words.words_file import (
    keep_own_words,
    none_yet,
    read_own_words,
)

DAY = date(2031, 3, 4)
FACTOR = 1.2


@pytest.fixture(scope="module")
def own() -> OwnWords:
    """Takes of made-up frames, each word's with a shape of its own."""
    kept = none_yet(FACTOR)
    for number in (3, 7, 60):
        frames = np.random.default_rng(number).standard_normal((45 + number, 288)).astype(np.float32)
        for _ in range(2):
            with_one = kept.with_take(number, frames, on=DAY)
            assert isinstance(with_one, OwnWords)
            kept = with_one
    return kept


@pytest.fixture
def path(own: OwnWords, tmp_path: Path) -> Path:
    path = tmp_path / "pupils" / "rk-7.words"
    keep_own_words(path, own)
    return path


def read(path: Path, factor: float = FACTOR) -> tuple[OwnWords, list[str]]:
    told: list[str] = []
    return read_own_words(path, factor, told.append), told


def test_what_was_kept_comes_back_to_the_byte(path: Path, own: OwnWords) -> None:
    assert read(path) == (own, [])
    assert own.counts == {3: 2, 7: 2, 60: 2}


def test_nobody_else_may_read_it(path: Path) -> None:
    assert stat.S_IMODE(path.stat().st_mode) == 0o600


def test_it_is_compact(path: Path, own: OwnWords) -> None:
    """A take of a second is 40 frames: all words eight times over stay below 3 MB."""
    frames = sum(take.length for take in own.takes)
    assert path.stat().st_size <= frames * 288 + 3000


def test_without_a_file_there_are_none_yet(tmp_path: Path) -> None:
    assert read(tmp_path / "rk-7.words") == (none_yet(FACTOR), [])


def cut_off(path: Path) -> None:
    path.write_bytes(path.read_bytes()[: path.stat().st_size // 2])


def emptied(path: Path) -> None:
    path.write_bytes(b"")


def one_byte_changed(path: Path) -> None:
    content = bytearray(path.read_bytes())
    content[len(content) // 2] ^= 0x40
    path.write_bytes(content)


def something_else(path: Path) -> None:
    path.write_text("seven, seven, sixty")


def an_array_alone(path: Path) -> None:
    with path.open("wb") as file:
        np.save(file, np.arange(9))


def objects(path: Path) -> None:
    """Only pickle could read them, and with them would run whatever they say."""
    _changed(path, "numbers", np.array([{"three": 3}], dtype=object))


def another_number(path: Path) -> None:
    _changed(path, "numbers", np.array([3, 3, 7, 7, 42, 42]))


def frames_missing(path: Path) -> None:
    _changed(path, "frames", np.zeros(288, np.int8))


def of_a_later_version(path: Path) -> None:
    _changed(path, "version", np.int64(99))


def _changed(path: Path, name: str, value: np.ndarray | np.generic) -> None:
    with np.load(path) as held:
        parts = {**{name: held[name] for name in held.files}, name: value}
    with path.open("wb") as file:
        np.savez(file, **parts)


@pytest.mark.parametrize(
    "spoil",
    [cut_off, emptied, one_byte_changed, something_else, an_array_alone, objects, another_number, frames_missing,
     of_a_later_version],
)  # fmt: skip
def test_a_file_that_is_no_good_is_left_aside_with_a_sentence(spoil: Callable[[Path], None], path: Path) -> None:
    spoil(path)
    before = path.read_bytes()
    assert read(path) == (none_yet(FACTOR), [f"{path} is cut off or damaged; listening goes on without the pupil's "
                                             "own words, until they are said anew."])  # fmt: skip
    assert path.read_bytes() == before


def test_whichever_byte_is_changed_it_is_noticed_or_was_nothing(path: Path, own: OwnWords) -> None:
    whole, dice = path.read_bytes(), np.random.default_rng(1)
    for at in (*dice.integers(0, len(whole), 20), *range(0, 200, 4), *range(len(whole) - 900, len(whole), 23)):
        changed = bytearray(whole)
        changed[at] ^= 1 << int(dice.integers(8))
        path.write_bytes(changed)
        found, told = read(path)
        assert (found, told) == (own, []) or (found == none_yet(FACTOR) and len(told) == 1)


def test_a_folder_in_its_place_is_told_of(tmp_path: Path) -> None:
    path = tmp_path / "rk-7.words"
    path.mkdir()
    found, told = read(path)
    assert (found, len(told)) == (none_yet(FACTOR), 1)
    assert "cannot be read" in told[0]


def test_words_of_another_model_are_left_aside(path: Path, own: OwnWords) -> None:
    keep_own_words(path, replace(own, model="0" * 64))
    found, (told,) = read(path)
    assert found == none_yet(FACTOR)
    assert "another speech model" in told


def test_words_that_were_lowered_otherwise_are_left_aside(path: Path) -> None:
    found, (told,) = read(path, 1.3)
    assert found == none_yet(1.3)
    assert "lowered by 1.2" in told and "lowered by 1.3 now" in told
