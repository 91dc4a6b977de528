"""What `hear` makes of recordings of every kind, right and wrong."""

import json
from pathlib import Path

import numpy as np
import pytest

from saythesum.app.cli.hear_verb import Progress
from saythesum.app.rehearsal.recorded_phrases import recording_name
from saythesum.settings.shipped_files import audio_folder
from tests.app.command import Done, is_one_sentence
from tests.app.here import asked
from tests.by_sound import recorded
from tests.fakes.clock import FakeClock
from tests.log_lines import FIELDS
from tests.sound.wav_files import wav
from tests.tools.listening.conditions import raised

Capture = pytest.CaptureFixture[str]


def recording(phrase: str) -> str:
    return str(audio_folder() / "pupil" / recording_name(phrase))


def five() -> "np.ndarray[tuple[int], np.dtype[np.int16]]":
    """The samples of a recording of "five", mono at 16 kHz."""
    return np.frombuffer(Path(recording("five")).read_bytes()[44:], "<i2")


def one_json(done: Done) -> list[dict[str, object]]:
    assert (done.code, done.told) == (0, [])
    return [json.loads(line) for line in done.shown]


def test_one_object_a_file_in_the_order_given(capture: Capture) -> None:
    files = [recording(phrase) for phrase in ("fifty-two", "forty", "say that again")]
    lines = one_json(asked(capture, "hear", *files, "--json"))
    assert [line["file"] for line in lines] == files
    assert [line["number"] for line in lines] == [52, 40, None]
    assert lines[2]["command"] == "say-again"
    for line in lines:
        assert set(line) == {"kind", "file", "ms", *FIELDS["heard"]}
        assert all(check(line[name]) for name, check in FIELDS["heard"].items())
        assert isinstance(line["ms"], int)
        assert line["verdict"] == "taken"


@pytest.mark.parametrize(
    ("kind", "phrase", "field", "meaning"),
    [
        ("number", "fifty-two", "number", 52),
        ("step", "three", "number", 3),
        ("choice", "yes", "choice", "yes"),
        ("choice", "no", "choice", "no"),
        ("command", "where am I", "command", "where-am-i"),
    ],
)
def test_each_kind_of_answer(kind: str, phrase: str, field: str, meaning: object, capture: Capture) -> None:
    (line,) = one_json(asked(capture, "hear", recording(phrase), "--listening-for", kind, "--json"))
    assert line[field] == meaning


def test_a_line_for_a_person(capture: Capture) -> None:
    (line,) = asked(capture, "hear", recording("fifty-two")).shown
    assert "fifty-two.wav: 52, taken, certainty 0." in line or "fifty-two.wav: 52, taken, certainty 1." in line


CHILD = 1.4


@pytest.fixture
def childs_recordings(home: Path) -> list[str]:
    """Of one speaker whose mouth is that much smaller."""
    names = [
        f"{phrase}.wav" for phrase in ("forty-one", "sixty", "thirty-seven", "fifty-two", "sixty-five", "thirteen")
    ]
    for name in names:
        sound = raised(recorded(name.removesuffix(".wav")), CHILD)
        (home / name).write_bytes(wav((sound * 32_000).astype("<i2").tobytes()))
    return names


def test_the_factor_of_a_speaker_is_found_and_used(childs_recordings: list[str], capture: Capture) -> None:
    first, *lines = one_json(asked(capture, "hear", *childs_recordings, "--learn-factor", "--json"))
    assert first["kind"] == "vocal-tract"
    assert first["answers"] == len(childs_recordings)
    assert isinstance(first["factor"], float)
    assert first["factor"] >= 1.2
    by_hand = one_json(asked(capture, "hear", *childs_recordings, "--factor", str(first["factor"]), "--json"))
    assert [line["text"] for line in lines] == [line["text"] for line in by_hand]
    assert [line["number"] for line in lines] == [41, 60, 37, 52, 65, 13]


def test_a_line_tells_the_factor(childs_recordings: list[str], capture: Capture) -> None:
    shown = asked(capture, "hear", *childs_recordings, "--learn-factor").shown
    assert shown[0].startswith("Factor 1.")
    assert shown[0].endswith(", learnt from 6 recordings.")
    few = asked(capture, "hear", *childs_recordings[:4], "--learn-factor").shown
    assert few[0] == "Factor 1: nothing can be learnt from fewer than 5 recordings in which somebody speaks."
    assert len(few) == 5


def test_a_pupils_recordings_are_heard_with_the_pupils_factor(
    childs_recordings: list[str], home: Path, capture: Capture
) -> None:
    (home / "pupils").mkdir()
    (home / "pupils" / "rk-7.toml").write_text(f"[listening]\nvocal_tract_factor = {CHILD}\n")
    with_pupil = one_json(asked(capture, "hear", *childs_recordings, "--pupil", "RK-7", "--json"))
    with_factor = one_json(asked(capture, "hear", *childs_recordings, "--factor", str(CHILD), "--json"))
    assert [line["text"] for line in with_pupil] == [line["text"] for line in with_factor]


@pytest.mark.parametrize(
    ("words", "right"),
    [
        (("--factor", "1.22"), "it is a number from 1 to 1.5 in steps of 0.05"),
        (("--factor", "nan"), "it is a number from 1 to 1.5"),
        (("--factor", "wide"), "it is a number, for example 1.2"),
        (("--pupil", "Rosa K"), "for example rk-7"),
        (("--factor", "1.2", "--pupil", "rk-7"), "do not go together"),
        (("--factor", "1.2", "--engine", "vosk"), "Only the embedded engine lowers what it hears"),
    ],
)
def test_a_factor_that_is_none(words: tuple[str, ...], right: str, capture: Capture) -> None:
    done = asked(capture, "hear", recording("five"), *words)
    assert (done.code, done.shown) == (2, [])
    assert is_one_sentence(done.told)
    assert right in done.told[0]


RECORDINGS = {
    "stereo": lambda: wav(np.repeat(five(), 2).tobytes(), channels=2),
    "44.1 kHz": lambda: wav(
        np.interp(np.arange(0, len(five()), 16 / 44.1), np.arange(len(five())), five()).astype("<i2").tobytes(),
        rate_hz=44_100,
    ),
    "8 bit": lambda: wav(((five() // 256) + 128).astype("u1").tobytes(), bits=8),
    "cut off": lambda: wav(five().tobytes())[:-2000],
}


@pytest.mark.parametrize("kind", RECORDINGS)
def test_a_recording_that_can_be_heard_all_the_same(kind: str, home: Path, capture: Capture) -> None:
    (home / "five.wav").write_bytes(RECORDINGS[kind]())
    (line,) = one_json(asked(capture, "hear", "five.wav", "--json"))
    assert (line["number"], line["verdict"]) == (5, "taken")


@pytest.mark.parametrize(
    "content",
    [b"", b"RIFF", b"ID3\x04 not a WAV at all", wav(b""), wav(b"\x00" * 44)[:30], wav(b"\x00" * 80, codec=85)],
    ids=["empty", "4 bytes", "not a WAV", "no sound", "no header", "MP3 in a WAV"],
)
def test_a_recording_that_cannot_be_heard(content: bytes, home: Path, capture: Capture) -> None:
    """It is told, the others are heard all the same, and the exit code is the caller's mistake."""
    (home / "bad.wav").write_bytes(content)
    done = asked(capture, "hear", "bad.wav", recording("five"))
    assert done.code == 2
    assert is_one_sentence(done.told)
    assert "bad.wav" in done.told[0]
    assert len(done.shown) == 1
    assert "five.wav: 5, taken" in done.shown[0]


@pytest.mark.parametrize(
    "samples",
    [
        np.zeros(32_000),
        np.full(32_000, 20_000),
        np.where(np.arange(32_000) // 80 % 2, 32_767, -32_768),
        3_000 * np.sin(2 * np.pi * 50 * np.arange(32_000) / 16_000),
    ],
    ids=["silence", "an offset", "a square wave that clips", "hum of the mains"],
)
def test_a_recording_in_which_nobody_speaks(samples: "np.ndarray", home: Path, capture: Capture) -> None:
    (home / "nobody.wav").write_bytes(wav(samples.astype("<i2").tobytes()))
    (line,) = one_json(asked(capture, "hear", "nobody.wav", "--json"))
    assert (line["number"], line["verdict"]) == (None, "refused")


def test_a_long_recording_says_how_far_it_is(capture: Capture) -> None:
    """Every ten seconds, whatever the machine's pace; beside what the command is for."""
    clock = FakeClock(5_000)
    progress = Progress(Path("harbour.wav"), np.zeros(16_000 * 240, np.float32), clock)
    for second in range(0, 240, 2):
        progress.passed(16_000 * second)
        clock.pass_ms(500)
    shown, told = capture.readouterr()
    assert shown == ""
    assert told.splitlines() == [
        f"harbour.wav: {second} of 240 seconds listened to." for second in (40, 80, 120, 160, 200)
    ]
