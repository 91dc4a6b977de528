"""The records go away in the middle of a practice in plain text, as a process of its own."""

import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest

from saythesum.core.records.rows import Answer
from saythesum.wording.speak.said_records import RECORDS_BACK, RECORDS_LOST
from tests.app.command import AT_MOST_S, COMMAND, Person
from tests.tools.kills import came_of, killed_after, reference, rows_of

BY_TEXT = ("practise", "--by", "text")


class Typed:
    """A practice that is typed line by line, with records in a folder `home` of the person's."""

    def __init__(self, person: Person) -> None:
        self.home = person.home / "home"
        self._more = {"SAYTHESUM_HOME": str(self.home), "HOME": str(person.home), "TMPDIR": str(person.home)}
        self._person = person
        self._running = subprocess.Popen(
            [*COMMAND, *BY_TEXT],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
            env=person.environment(self._more),
            cwd=person.home,
        )
        self.shown: list[str] = []

    def reads_up_to(self, line: str) -> None:
        assert self._running.stdout
        while not self.shown or self.shown[-1] != line:
            came = self._running.stdout.readline()
            assert came, self.shown
            self.shown.append(came.strip())

    def types(self, answer: str) -> None:
        assert self._running.stdin
        self._running.stdin.write(f"{answer}\n")
        self._running.stdin.flush()

    def ends(self) -> tuple[int, str]:
        shown, told = self._running.communicate(timeout=AT_MOST_S)
        self.shown += shown.splitlines()
        return self._running.returncode, told

    def starts_again(self) -> list[str]:
        return self._person.runs(*BY_TEXT, more=self._more).shown

    @property
    def answers(self) -> list[int]:
        return [row.given for row in rows_of(self.home) if isinstance(row, Answer)]


@pytest.fixture
def typed(person: Person) -> Typed:
    started = Typed(person)
    started.reads_up_to("Thirty-eight add three.")
    started.types("41")
    started.reads_up_to("Thirty-eight add five.")
    return started


def test_a_moved_folder_is_said_once_and_found_again_when_it_comes_back(typed: Typed) -> None:
    away = typed.home.with_name("away")
    typed.home.rename(away)
    typed.types("43")
    typed.reads_up_to("Thirty-eight add eight.")
    away.rename(typed.home)
    typed.types("46")
    typed.reads_up_to("Fifty-seven add three.")
    code, told = typed.ends()
    assert (code, told.count("\n")) == (0, 1)
    assert "were moved, deleted or replaced while they were in use. From here on this practice is kept in" in told
    assert (typed.shown.count(RECORDS_LOST), typed.shown.count(RECORDS_BACK)) == (1, 1)
    assert typed.answers == [41, 43, 46]


def delete(home: Path) -> None:
    shutil.rmtree(home)


def move(home: Path) -> None:
    home.rename(home.with_name("away"))


@pytest.mark.parametrize("lose", [delete, move])
def test_what_never_comes_back_is_there_at_the_next_start(lose: Callable[[Path], None], typed: Typed) -> None:
    lose(typed.home)
    typed.types("43")
    typed.types("46")
    code, told = typed.ends()
    assert (code, told.count("\n"), typed.shown.count(RECORDS_LOST)) == (0, 1, 1)
    assert typed.starts_again()[-2] == "Fifty-seven add three."
    assert typed.answers == [41, 43, 46]
    assert not list(typed.home.parent.glob("saythesum-rescue-*"))


def test_two_first_starts_at_once_make_one_set_of_records(person: Person) -> None:
    both = [person.starts(*BY_TEXT) for _ in range(2)]
    done = [(*one.communicate(b"41\n", timeout=AT_MOST_S), one.returncode) for one in both]
    assert all(code == 0 or (code, shown, told.count(b"\n")) == (2, b"", 1) for shown, told, code in done)
    assert any(code == 0 for _, _, code in done)
    assert person.runs(*BY_TEXT).code == 0


def test_a_few_kills_lose_nothing(tmp_path: Path) -> None:
    """`python -m tests.tools.kills` makes hundreds."""
    (tmp_path / "reference").mkdir()
    whole = reference(tmp_path / "reference")
    for number, wait_s in enumerate((0.2, 0.4, 0.7)):
        home = tmp_path / f"home-{number}"
        home.mkdir()
        came = came_of(home, killed_after(home, wait_s), whole)
        assert (came.lost, came.is_same_question) == (0, True)
