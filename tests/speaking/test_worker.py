"""The child program on its own: the choice of a voice, and its lines."""

import json
import subprocess
import sys
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from types import ModuleType

import pytest

from saythesum.speaking.worker import LOOPS, Speaker, nearest_voice


@dataclass
class Listed:
    """As pyttsx3 lists a voice."""

    id: str
    name: str
    languages: list[str] = field(default_factory=list)


ON_WINDOWS = [
    Listed("HKEY\\TTS_MS_DE-DE_HEDDA", "Microsoft Hedda - German", ["de-DE"]),
    Listed("HKEY\\TTS_MS_EN-US_ZIRA", "Microsoft Zira - English (United States)", ["en-US"]),
    Listed("HKEY\\TTS_MS_EN-GB_HAZEL", "Microsoft Hazel - English (Great Britain)", ["en-GB"]),
]
ON_A_MAC = [
    Listed("com.apple.voice.Anna", "Anna", ["de_DE"]),
    Listed("com.apple.voice.Daniel", "Daniel", ["en_GB"]),
    Listed("com.apple.voice.Samantha", "Samantha", ["en_US"]),
]


@pytest.mark.parametrize(("voices", "nearest"), [(ON_WINDOWS, "HAZEL"), (ON_A_MAC, "Daniel")])
def test_british_english_comes_before_other_english(voices: list[Listed], nearest: str) -> None:
    """The lists are ours, in the form that pyttsx3's drivers for these systems have; neither was run there."""
    assert nearest_voice("gmw/en", voices).endswith(nearest)


def test_other_english_comes_before_no_english() -> None:
    assert nearest_voice("gmw/en", [*ON_A_MAC[:1], *ON_A_MAC[2:]]).endswith("Samantha")
    assert nearest_voice("gmw/en", ON_A_MAC[:1]).endswith("Anna")


def test_a_slip_of_the_pen_in_the_name_of_a_voice() -> None:
    assert nearest_voice("com.apple.voice.samanta", ON_A_MAC).endswith("Samantha")


def test_no_voice_at_all_is_as_bad_as_no_library() -> None:
    with pytest.raises(RuntimeError):
        nearest_voice("gmw/en", [])


def test_only_answers_are_written_to_stdout(tmp_path: Path) -> None:
    """pyttsx3 itself prints "Audio saved to" there."""
    wanted = {"voice": "gmw/en", "rate_wpm": 140, "pitch": 50}
    phrases = [{"number": n, "phrase": "Ten.", "file": str(tmp_path / f"{n}.wav")} for n in (1, 2)]
    nowhere = {"number": 3, "phrase": "Ten.", "file": str(tmp_path / "no-folder" / "3.wav")}
    lines = "".join(json.dumps(request) + "\n" for request in (wanted, *phrases, nowhere))
    command = [sys.executable, "-m", "saythesum.speaking.worker"]
    done = subprocess.run(command, input=lines, capture_output=True, text=True, check=True, timeout=60)
    ready, first, second, third = (json.loads(line) for line in done.stdout.splitlines())
    assert ready["voice"] == "gmw/en"
    assert (first, second) == ({"number": 1}, {"number": 2})
    assert "no-folder" in third["failed"]
    assert "Audio saved to" in done.stderr, "else this test proves nothing"


def test_it_ends_with_its_parent() -> None:
    command = [sys.executable, "-m", "saythesum.speaking.worker"]
    assert subprocess.run(command, input="", capture_output=True, text=True, check=True, timeout=60).stdout == ""


class CutShort:
    """An engine in pyttsx3's place that ends each loop as it was seen to do: `endings` and bytes written, in turn."""

    def __init__(self, loops: Iterator[tuple[list[bool], int]]) -> None:
        self._loops = loops
        self._finished: Callable[..., None]
        self._file: str | None = None

    def connect(self, topic: str, call: Callable[..., None]) -> None:
        if topic == "finished-utterance":
            self._finished = call

    def setProperty(self, name: str, value: object) -> None:  # noqa: N802
        pass

    def getProperty(self, name: str) -> object:  # noqa: N802
        return "gmw/en"

    def save_to_file(self, phrase: str, file: str) -> None:
        self._file = file

    def runAndWait(self) -> None:  # noqa: N802
        if self._file is None:
            return
        endings, written = next(self._loops)
        for completed in endings:
            self._finished(name=None, completed=completed)
        Path(self._file).write_bytes(b"." * written)


LoopEnd = tuple[list[bool], int]
WHOLE: LoopEnd = ([True], 5_000)
CUT: LoopEnd = ([True, False], 3_000)
EMPTY: LoopEnd = ([True], 44)
UNENDED: LoopEnd = ([], 5_000)


@pytest.mark.parametrize("failing", [[], [CUT], [EMPTY], [UNENDED], [CUT, ([True, False], 0), CUT]])
def test_a_loop_that_was_cut_short_is_run_again(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, failing: list[tuple[list[bool], int]]
) -> None:
    speaker = speaker_with(monkeypatch, CutShort(iter([*failing, WHOLE])))
    assert speaker.render("Ten.", str(tmp_path / "ten.wav")) is None
    assert (tmp_path / "ten.wav").stat().st_size == 5_000


def test_an_engine_that_always_cuts_short_has_failed(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    speaker = speaker_with(monkeypatch, CutShort(iter([CUT] * LOOPS)))
    assert "cut the phrase short" in str(speaker.render("Ten.", str(tmp_path / "ten.wav")))


def speaker_with(monkeypatch: pytest.MonkeyPatch, engine: CutShort) -> Speaker:
    module = ModuleType("pyttsx3")
    module.__dict__["init"] = lambda: engine
    monkeypatch.setitem(sys.modules, "pyttsx3", module)
    return Speaker({"voice": "gmw/en", "rate_wpm": 140, "pitch": 50})
