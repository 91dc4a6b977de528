"""A pupil's own settings: read after everybody's, changed by what was learnt, told to the adult in a sentence."""

from pathlib import Path

import pytest

from saythesum.app.setup.folders import Places
from saythesum.app.setup.pupil_settings import (
    HEADING,
    keep_look,
    keep_vocal_tract,
    settings_of,
    vocal_tract_of,
    vocal_tract_sentence,
)
from saythesum.hearing.vocal_tract.factor import VocalTract
from saythesum.settings import Listening, Window

Capture = pytest.CaptureFixture[str]


@pytest.fixture
def own(tmp_path: Path) -> Places:
    return Places(tmp_path, tmp_path / "settings.toml", tmp_path / "cache", tmp_path / "models")


def writes(file: Path, text: str) -> None:
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_text(text, encoding="utf-8")


def test_the_pupils_settings_stand_over_everybodys(own: Places) -> None:
    writes(own.settings_file, "[speech]\nrate_wpm = 120\npitch = 60\n[listening]\near = 'press'\n")
    writes(own.pupil_file("rk-7"), "[speech]\nrate_wpm = 100\n[listening]\nvocal_tract_factor = 1.25\n")
    settings = settings_of("rk-7", own)
    assert (settings.speech.rate_wpm, settings.speech.pitch) == (100, 60)
    assert (settings.listening.ear, settings.listening.vocal_tract_factor) == ("press", 1.25)
    assert settings_of("rk-8", own).speech.rate_wpm == 120


def test_what_is_wrong_in_it_is_told_and_everybodys_holds(own: Places, capsys: Capture) -> None:
    writes(own.settings_file, "[listening]\nvocal_tract_factor = 1.1\n")
    writes(own.pupil_file("rk-7"), "[listening]\nvocal_tract_factor = 1.22\n")
    assert settings_of("rk-7", own).listening.vocal_tract_factor == 1.1
    told = capsys.readouterr().err
    assert "rk-7.toml: Line 2: vocal_tract_factor has 1.22; it is a number from 1 to 1.5 in steps of 0.05." in told
    assert "1.1 is used." in told


@pytest.mark.parametrize("content", [b"[listening", b"\xff\xfe\x00"], ids=["no TOML", "no text"])
def test_a_file_that_cannot_be_read_leaves_everybodys(content: bytes, own: Places, capsys: Capture) -> None:
    writes(own.settings_file, "[speech]\nrate_wpm = 120\n")
    writes(own.pupil_file("rk-7"), "")
    own.pupil_file("rk-7").write_bytes(content)
    assert settings_of("rk-7", own).speech.rate_wpm == 120
    (told,) = capsys.readouterr().err.splitlines()
    assert told.endswith("Nothing in it is used.")


def test_what_was_learnt_is_kept_in_plain_words(own: Places) -> None:
    keep_vocal_tract("rk-7", own, VocalTract(1.2, 9))
    written = own.pupil_file("rk-7").read_text(encoding="utf-8")
    assert written.splitlines()[0] == f"# {HEADING}"
    assert "vocal_tract_factor = 1.2 # a child's smaller mouth sounds higher" in written
    assert "no voiceprint" in written
    assert vocal_tract_of(settings_of("rk-7", own).listening) == VocalTract(1.2, 9)


def test_what_else_an_adult_wrote_there_stays(own: Places) -> None:
    writes(own.pupil_file("rk-7"), "# for her new headset\n[listening]\near = 'open' # always\n[speech]\npitch = 70\n")
    keep_vocal_tract("rk-7", own, VocalTract(1.2, 9))
    keep_vocal_tract("rk-7", own, VocalTract(1.3, 14))
    settings = settings_of("rk-7", own)
    assert (settings.listening.ear, settings.speech.pitch) == ("open", 70)
    assert vocal_tract_of(settings.listening) == VocalTract(1.3, 14)
    written = own.pupil_file("rk-7").read_text(encoding="utf-8")
    assert written.startswith("# for her new headset\n")
    assert "# always" in written
    assert written.count("vocal_tract_factor") == 1


@pytest.mark.parametrize(
    ("listening", "told"),
    [
        (Listening(vocal_tract_factor=1.2, vocal_tract_answers=9), "factor 1.2, learnt from 9 answers"),
        (Listening(vocal_tract_factor=1.35), "factor 1.35, set by hand"),
        (Listening(vocal_tract_answers=9), "not lowered: 9 answers were as clear without"),
        (Listening(), "is learnt from 5 answers by voice on"),
        (Listening(learn_vocal_tract=False), "nothing is learnt, as the settings say"),
    ],
)
def test_the_adult_is_told_in_a_sentence(listening: Listening, told: str) -> None:
    sentence = vocal_tract_sentence("rk-7", listening)
    assert sentence.startswith("For rk-7 the listening is ")
    assert told in sentence
    assert ("tells nobody apart" in sentence) == (listening.vocal_tract_factor != 1.0)


@pytest.mark.parametrize(("pupil", "file"), [("pupil-1", "settings.toml"), ("rk-7", "pupils/rk-7.toml")])
def test_a_look_is_the_pupils_where_a_pupil_was_named(own: Places, pupil: str, file: str) -> None:
    keep_look(pupil, own, {"view": "grid", "size": 7})
    assert [path.relative_to(own.data).as_posix() for path in own.data.rglob("*.toml")] == [file]
    assert settings_of(pupil, own).window == Window(view="grid", size=7)
    assert settings_of("mt-2", own).window == (Window() if pupil == "rk-7" else Window(view="grid", size=7))
