"""Sound sheets: every sum heard back, the pauses as asked for, and as loud as the practice (by FFmpeg's meter)."""

import re
import subprocess
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pytest

from saythesum.ports import Samples, Sound
from saythesum.publishing.sheets.as_sound import joined, write_sound
from saythesum.reports.sheets.said_sheet import row_phrases
from saythesum.settings import Settings
from saythesum.sound.resample import for_listening
from saythesum.sound.wav import read_wav, write_wav
from saythesum.speaking.voice import ToolVoice
from tests.publishing.sums_heard import sum_heard
from tests.reports.sheets.made_sheets import FERRY, sheet

PAUSE_MS = 3000
LABEL, *SUMS = row_phrases(sheet(), 0)


@pytest.fixture(scope="module")
def voice(tmp_path_factory: pytest.TempPathFactory) -> Iterator[ToolVoice]:
    voice = ToolVoice(Settings().speech, tmp_path_factory.mktemp("cache"))
    yield voice
    voice.close()


@pytest.fixture(scope="module")
def rows(voice: ToolVoice, tmp_path_factory: pytest.TempPathFactory) -> list[Path]:
    folder = tmp_path_factory.mktemp("sound")
    write_sound(sheet(), voice, PAUSE_MS, folder)
    return sorted(folder.iterdir())


def spoken_in(sound: Sound, quiet_ms: int = 900) -> list[tuple[int, Samples]]:
    """What stands between silences of that length, each with how long the silence after it is, in milliseconds."""
    loud = np.flatnonzero(np.abs(sound.samples) > 0.002)
    gaps = np.flatnonzero(np.diff(loud) > quiet_ms * sound.rate_hz // 1000)
    begins, ends = [loud[0], *loud[gaps + 1]], [*loud[gaps], loud[-1]]
    around = sound.rate_hz // 50
    nexts = [*begins[1:], len(sound.samples)]
    return [
        (int(next - end) * 1000 // sound.rate_hz, sound.samples[begin - around : end + around])
        for begin, end, next in zip(begins, ends, nexts, strict=True)
    ]


def loudness(path: Path) -> float:
    """Integrated, in LUFS. Source: ITU-R BS.1770-4, whose gate leaves pauses out, as FFmpeg's ebur128 measures it."""
    told = subprocess.run(
        ["ffmpeg", "-nostats", "-i", path, "-af", "ebur128", "-f", "null", "-"],
        capture_output=True,
        text=True,
        check=True,
    ).stderr
    return float(re.findall(r"I:\s+(-[\d.]+) LUFS", told)[-1])


def test_a_file_for_each_row_says_its_label_and_every_sum(rows: list[Path]) -> None:
    assert [path.name for path in rows] == [f"gymyu-row-{row:02d}.wav" for row in (1, 2, 3)]
    assert (LABEL, *SUMS) == (
        *("Seats on the ferry. Row 1 of 3.", "Forty-seven add five."),
        *("Forty-seven add eight.", "Forty-seven take away seven."),
    )
    heard = []
    for path in rows:
        sound = read_wav(path)
        _, *sums = spoken_in(sound)
        heard += [sum_heard(for_listening(Sound(samples, sound.rate_hz))) for _, samples in sums]
    assert heard == [sheet(FERRY).asked(cell).shown for cell in sheet(FERRY).cells]


def test_the_pauses_are_as_asked_for(rows: list[Path]) -> None:
    for path in rows:
        (after_label, _), *sums = spoken_in(read_wav(path))
        assert len(sums) == 3
        assert 1000 <= after_label < 1250
        assert all(PAUSE_MS <= pause_ms < PAUSE_MS + 250 for pause_ms, _ in sums), sums


def test_a_row_is_as_loud_as_the_practice(rows: list[Path], voice: ToolVoice, tmp_path: Path) -> None:
    phrases = [voice.render(phrase) for phrase in ("Forty-five.", "Not yet.", "How many of the five get you to forty?")]
    write_wav(tmp_path / "practice.wav", [joined(phrases, [300, 300, 300])], phrases[0].rate_hz)
    practice = loudness(tmp_path / "practice.wav")
    assert all(abs(loudness(path) - practice) < 1.5 for path in rows)


def test_answers_have_sentences_of_their_own() -> None:
    assert row_phrases(sheet().filled, 0)[0] == "Seats on the ferry: answers. Row 1 of 3."
    assert row_phrases(sheet().filled, 0)[1] == "Forty-seven add five is fifty-two."
