"""A child that hangs, dies or babbles is started again, and the phrase comes back once."""

import os
import signal
import sys
from collections.abc import Iterator
from pathlib import Path
from threading import Thread

import pytest

from saythesum.errors import VoiceError
from saythesum.ports import Sound
from saythesum.settings import Speech
from saythesum.speaking.voice import ChildVoice

FAILING = Path(__file__).with_name("failing_child.py")
PHRASE = "Seventy-four add nine."
WAYS = (
    "hangs at the start",
    "dies at the start",
    "babbles at the start",
    "babbles without an end",
    "is never ready",
    "hangs in the phrase",
    "dies in the phrase",
    "babbles in the phrase",
    "babbles numbers",
    "writes no file",
    "writes half a file",
    "answers another phrase",
    "says that it failed",
)


@pytest.fixture(scope="module")
def healthy() -> Iterator[Sound]:
    voice = ChildVoice(Speech())
    yield voice.render(PHRASE)
    voice.close()


def failing(folder: Path, times: int, way: str, deadline_ms: int = 3_000) -> ChildVoice:
    """The deadline is short, as a test waits for it, and yet many times what a busy machine takes to get ready."""
    command = [sys.executable, "-P", str(FAILING), str(folder), str(times), way]
    return ChildVoice(Speech(), command=command, deadline_ms=deadline_ms)


@pytest.mark.parametrize("way", WAYS)
def test_a_child_that_fails_once_says_the_phrase_once(tmp_path: Path, way: str, healthy: Sound) -> None:
    voice = failing(tmp_path, 1, way)
    sound = voice.render(PHRASE)
    voice.close()
    assert abs(sound.duration_ms - healthy.duration_ms) < 30
    assert len(runs(tmp_path)) == 2


@pytest.mark.parametrize(
    ("way", "reason"),
    [
        ("dies in the phrase", "it died"),
        ("babbles in the phrase", "no answer"),
        ("says that it failed", "no voice today"),
    ],
)
def test_a_child_that_fails_twice_is_told_in_one_sentence(tmp_path: Path, way: str, reason: str) -> None:
    voice = failing(tmp_path, 2, way)
    with pytest.raises(VoiceError) as told:
        voice.render(PHRASE)
    assert PHRASE in str(told.value)
    assert str(told.value).count(reason) == 2
    assert "\n" not in str(told.value)
    assert voice.render(PHRASE).duration_ms > 500, "the next phrase has two tries of its own"
    voice.close()


def test_a_child_that_always_hangs_is_given_up(tmp_path: Path) -> None:
    voice = failing(tmp_path, 9, "hangs at the start", deadline_ms=200)
    with pytest.raises(VoiceError, match=r"did not answer within 0\.2 seconds; again: it did not"):
        voice.render(PHRASE)
    voice.close()
    assert len(runs(tmp_path)) <= 2


def test_a_missing_library_says_what_to_install(tmp_path: Path) -> None:
    """pyttsx3 itself, and the library that it cannot load."""
    voice = failing(tmp_path, 9, "cannot load the library")
    with pytest.raises(VoiceError, match="apt-get install espeak-ng"):
        voice.render(PHRASE)
    voice.close()
    assert len(runs(tmp_path)) == 1, "starting again would not help"


def test_a_missing_package_says_what_to_install(tmp_path: Path) -> None:
    voice = failing(tmp_path, 9, "has no pyttsx3")
    with pytest.raises(VoiceError, match=r"pyttsx3.*install saythesum again"):
        voice.render(PHRASE)
    voice.close()


def test_a_program_that_is_not_there() -> None:
    voice = ChildVoice(Speech(), command=["no-such-program-anywhere"])
    with pytest.raises(VoiceError, match="cannot be started"):
        voice.render(PHRASE)
    voice.close()


def test_a_real_child_killed_in_the_middle_of_a_phrase(tmp_path: Path, healthy: Sound) -> None:
    """It is stopped first, so that it cannot have answered; the phrase waits in its pipe when it is killed."""
    voice = failing(tmp_path, 0, "", deadline_ms=60_000)
    voice.render("Ready.")
    (running,) = runs(tmp_path)
    os.kill(running, signal.SIGSTOP)
    rendered: list[Sound] = []
    thread = Thread(target=lambda: rendered.append(voice.render(PHRASE)))
    thread.start()
    os.kill(running, signal.SIGKILL)
    thread.join()
    voice.close()
    (sound,) = rendered
    assert abs(sound.duration_ms - healthy.duration_ms) < 30
    assert len(runs(tmp_path)) == 2


def test_a_child_killed_between_two_phrases(tmp_path: Path, healthy: Sound) -> None:
    voice = failing(tmp_path, 0, "", deadline_ms=60_000)
    voice.render("Ready.")
    (running,) = runs(tmp_path)
    os.kill(running, signal.SIGKILL)
    assert abs(voice.render(PHRASE).duration_ms - healthy.duration_ms) < 30
    voice.close()


def test_closing_ends_a_wait_in_another_thread(tmp_path: Path) -> None:
    voice = failing(tmp_path, 9, "hangs in the phrase", deadline_ms=100_000)
    told: list[str] = []

    def say() -> None:
        try:
            voice.render(PHRASE)
        except VoiceError as error:
            told.append(str(error))

    thread = Thread(target=say)
    thread.start()
    voice.close()
    thread.join(timeout=20)
    assert len(told) == 1


def runs(folder: Path) -> list[int]:
    """The process ids of the runs so far."""
    return [int(path.name.split("-")[0]) for path in folder.glob("*.run")]
