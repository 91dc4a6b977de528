"""The five questions of the first start, by ear and key, and the settings file they are kept in."""

from pathlib import Path
from typing import Any

import pytest

from saythesum.app.session.first_start import FirstStart
from saythesum.app.session.inbox import Inbox
from saythesum.app.setup.settings_file import FOR_NOW, change_settings, own_settings
from saythesum.dialogue.turns.events import InputEnded, ListenId, SpeechBegan
from saythesum.keyboard.keys import Key, Pressed
from saythesum.ports import Over, OwnSound
from saythesum.wording.speak.said_start import (
    HEADSET,
    KEPT,
    PRINT,
    SPEED,
    START_QUESTIONS,
    WAY,
    StartQuestion,
    welcome,
)


class Listener:
    """Somebody who hears the questions and presses keys."""

    def __init__(self, *keys: Key) -> None:
        self.inbox = Inbox(lambda: 0)
        self.said: list[str] = []
        self.tried: list[tuple[str, Any]] = []
        self.aside: list[object] = []
        for key in keys:
            self.inbox.post(Pressed(key, 0))
        self.shown: list[tuple[str, str] | None] = []
        self.start = FirstStart(self.inbox, self._say, self._try_out, self.aside.append)

    def _say(self, text: str, question: StartQuestion | None, at: int) -> None:
        self.said.append(text)
        self.shown.append((question.setting, question.choices[at]) if question else None)

    def _try_out(self, question: StartQuestion, value: Any) -> None:
        self.tried.append((question.setting, value))


def test_enter_keeps_what_is_set() -> None:
    listener = Listener(*[Key.ENTER] * 5)
    changes = listener.start.ask(has_window=True, has_microphone=True)
    assert changes == {
        "start": {"asked": True, "by": "voice"},
        "speech": {"rate_wpm": 140},
        "sound": {"headset": False},
        "window": {"screen_reader": False, "size": 5},
    }
    assert listener.said == [welcome(5), *(question.asked(question.begins_at) for question in START_QUESTIONS), KEPT]
    assert [asked for asked in listener.shown if asked] == [
        (question.setting, question.choices[question.begins_at]) for question in START_QUESTIONS
    ]


def test_up_and_down_change_an_answer_and_are_heard_and_seen() -> None:
    keys = (Key.UP, Key.ENTER, Key.DOWN, Key.ENTER, Key.UP, Key.ENTER, Key.ENTER, *[Key.UP] * 9, Key.ENTER)
    listener = Listener(*keys)
    changes = listener.start.ask(has_window=True, has_microphone=True)
    assert changes is not None
    assert changes["speech"] == {"rate_wpm": 160}
    assert changes["start"]["by"] == "keys"
    assert changes["sound"] == {"headset": True}
    assert changes["window"]["size"] == 8
    assert listener.tried[0] == (SPEED.setting, 160)
    assert listener.tried[-1] == (PRINT.setting, 8)
    assert HEADSET.choices[1] in listener.said


def test_escape_passes_over_all_that_is_left() -> None:
    listener = Listener(Key.ENTER, Key.ESCAPE)
    assert listener.start.ask(has_window=True, has_microphone=True) == {
        "start": {"asked": True},
        "speech": {"rate_wpm": 140},
    }


def test_space_says_the_question_again_with_the_answer_so_far() -> None:
    listener = Listener(Key.SPACE, Key.ENTER, Key.DOWN, Key.SPACE, *[Key.ENTER] * 4)
    listener.start.ask(has_window=True, has_microphone=True)
    assert listener.said.count(SPEED.words) == 2
    at = listener.said.index("With the keys.")
    assert listener.said[at - 1].endswith("then Enter. Now it's by voice.")
    assert listener.said[at + 1].endswith("then Enter. Now it's with the keys.")


def test_an_adult_is_offered_the_desk_and_nothing_is_kept_then() -> None:
    listener = Listener(Key.ENTER, Key.ADULT, *[Key.ENTER] * 4)
    assert listener.start.ask(has_window=True, has_microphone=True) is None
    assert listener.start.wants_desk
    assert "F9 opens the desk" in listener.said[0]


def test_what_changes_the_look_is_no_answer() -> None:
    listener = Listener(Key.COLOURS, *[Key.ENTER] * 5)
    listener.start.ask(has_window=True, has_microphone=True)
    assert listener.aside == [Pressed(Key.COLOURS, 0)]


def test_without_a_window_the_print_is_not_asked_about() -> None:
    listener = Listener(*[Key.ENTER] * 4)
    changes = listener.start.ask(has_window=False, has_microphone=True)
    assert changes is not None
    assert "size" not in changes["window"]
    assert listener.said[0].startswith("Hello. Four short questions first")


def test_without_a_microphone_nobody_is_asked_whether_to_speak() -> None:
    listener = Listener(*[Key.ENTER] * 4)
    changes = listener.start.ask(has_window=True, has_microphone=False)
    assert changes is not None
    assert "by" not in changes["start"]
    assert WAY.asked(WAY.begins_at) not in listener.said


def test_the_end_of_the_input_keeps_nothing() -> None:
    listener = Listener(Key.ENTER)
    listener.inbox.post(InputEnded(0))
    assert listener.start.ask(has_window=True, has_microphone=True) is None


@pytest.mark.parametrize(
    ("thing", "is_somebody"),
    [
        (Pressed(Key.SPACE, 0), True),
        (SpeechBegan(ListenId(0), 0), True),
        (InputEnded(0), False),
        (Pressed(Key.CLOSE, 0), False),
    ],
)
def test_it_is_silent_until_a_key_or_a_word(thing: Any, is_somebody: bool) -> None:
    listener = Listener()
    listener.inbox.post(Over(OwnSound(1), 0))
    listener.inbox.post(thing)
    assert listener.start.wait_for_someone() is is_somebody
    assert listener.said == []
    assert listener.aside == [Over(OwnSound(1), 0)]


def test_every_choice_is_a_setting_that_can_be_read_again(tmp_path: Path) -> None:
    file = tmp_path / "folder" / "settings.toml"
    for question in START_QUESTIONS:
        assert len(question.choices) == len(question.values)
        for value in question.values:
            change_settings(file, {question.table: {question.setting: value}})
            room = getattr(own_settings(file), question.table)
            assert getattr(room, question.setting) == value


def test_comments_in_the_settings_stay(tmp_path: Path) -> None:
    file = tmp_path / "settings.toml"
    file.write_text("# for Year 2\n[speech]\nrate_wpm = 120 # slow\n", encoding="utf-8")
    change_settings(file, {"speech": {"volume_percent": 50}, "window": {"size": 3}})
    text = file.read_text(encoding="utf-8")
    assert "# for Year 2" in text
    assert "rate_wpm = 120 # slow" in text
    settings = own_settings(file)
    assert (settings.speech.rate_wpm, settings.speech.volume_percent, settings.window.size) == (120, 50, 3)


def test_settings_that_are_no_toml_are_told_and_left_alone(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = tmp_path / "settings.toml"
    file.write_text("[speech", encoding="utf-8")
    change_settings(file, {"speech": {"volume_percent": 50}})
    assert file.read_text(encoding="utf-8") == "[speech"
    told = capsys.readouterr().err
    assert told == f"The settings file {file} cannot be read as it is, and nothing is added to it: {FOR_NOW}.\n"
