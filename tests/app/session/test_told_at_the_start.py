"""What is said before the first question: how to answer, in a pupil's first practices."""

from pathlib import Path

import pytest

from saythesum.app.session.practice import TOLD_HOW_IN, Wish, practice, setup_for
from saythesum.dialogue.turns.effects import Ear, Listen, Wake
from saythesum.dialogue.turns.events import Began, InputEnded, UtteranceId
from saythesum.settings import Switch
from saythesum.wording.speak.said_start import how_to_answer


class Ears:
    """Outlets that only take down the notes."""

    def __init__(self) -> None:
        self.notes: list[str] = []

    def say(self, id: UtteranceId, text: str) -> None: ...
    def note(self, text: str, *, cuts: bool) -> None:
        self.notes.append(text)

    def cue(self, name: str) -> None: ...
    def hush(self) -> None: ...
    def speak_slower(self) -> None: ...
    def listen(self, listen: Listen) -> None: ...
    def shut_ear(self) -> None: ...
    def wake(self, wake: Wake, since_ms: int) -> None: ...


@pytest.fixture(autouse=True)
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("SAYTHESUM_HOME", str(tmp_path))


def _told(ear: Ear, grid: str) -> list[str]:
    ears, wish = Ears(), Wish("rk-7", grid_file=Path(grid))
    with practice(wish, setup_for(wish.pupil), ear, ears) as runner:
        runner.post(Began(0))
        runner.post(InputEnded(0))
    return ears.notes


def test_how_to_answer_is_told_once_in_each_of_the_first_practices(tmp_path: Path) -> None:
    told = []
    for count in range(TOLD_HOW_IN + 1):
        grid = tmp_path / f"{count}.toml"
        grid.write_text(f'title = "Boats {count}"\nadd = [5]\nstart = [3{count + 5}]\n', encoding="utf-8")
        told.append(_told(Ear.PRESS, str(grid)))
        assert _told(Ear.PRESS, str(grid)) == []  # it goes on where it was
    assert told == [[how_to_answer(Ear.PRESS, Switch())]] * TOLD_HOW_IN + [[]]


@pytest.mark.parametrize("ear", [Ear.KEYS, Ear.TEXT])
def test_who_types_is_not_told_how_to_speak(ear: Ear, tmp_path: Path) -> None:
    grid = tmp_path / "grid.toml"
    grid.write_text('title = "Boats"\nadd = [5]\nstart = [38]\n', encoding="utf-8")
    assert _told(ear, str(grid)) == []
