"""Rehearsals: whole practices by ear in sample time, and what is written of them."""

import os
import subprocess
import sys
import wave
from collections import Counter
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest

from saythesum.app.rehearsal.kinds import KINDS
from tests.app.command import Person
from tests.app.here import asked
from tests.log_lines import Line, checked_lines, of_kind, said_in

Rehearsed = Callable[..., list[Line]]


@pytest.fixture(scope="module")
def phrases(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """What the tool has said once is kept for the next rehearsal."""
    return tmp_path_factory.mktemp("cache")


@pytest.fixture
def rehearsed(home: Path, phrases: Path, capture: pytest.CaptureFixture[str]) -> Rehearsed:
    """Rehearses a grid of two cells, 38 add 5 and 57 add 5; the log."""
    (home / "cache").symlink_to(phrases)
    (home / "oars.toml").write_text('title = "Rows of oars"\nadd = [5]\nstart = [38, 57]\n')

    def rehearse(*words: str) -> list[Line]:
        done = asked(capture, "rehearse", "--grid", "oars.toml", "--into", "made", *words)
        assert (done.code, done.told) == (0, [])
        assert done.shown[-1] == "Written to made: rehearsal.wav, rehearsal.jsonl, transcript.txt."
        assert (home / "made" / "transcript.txt").read_text().splitlines() == done.shown[:-1]
        return checked_lines(home / "made" / "rehearsal.jsonl")

    return rehearse


def whole(lines: list[Line]) -> list[tuple[int, str]]:
    return [(answer["given"], answer["support"]) for answer in of_kind(lines, "answer") if answer["part"] == "whole"]


def test_all_right(rehearsed: Rehearsed, home: Path) -> None:
    lines = rehearsed()
    answers = of_kind(lines, "answer")
    assert whole(lines) == [(43, "independent"), (62, "independent")]
    assert {(answer["by"], answer["settled"], answer["tries"]) for answer in answers} == {("voice", "said-back", 1)}
    assert all(answer["took_ms"] is not None for answer in answers)
    (end,) = of_kind(lines, "end")
    assert (end["cells"], end["right_first_time"], end["reason"]) == (2, 2, "finished")
    # Everything that was said came to its end, and each ear that opened for a question heard one answer.
    assert len(of_kind(lines, "said")) == len(of_kind(lines, "say"))
    assert all(line["cut"] is None for line in of_kind(lines, "said"))
    assert all(line["ear"] == "open" for line in of_kind(lines, "listen"))
    assert not (home / "records.sqlite").exists(), "a rehearsal is nobody's practice"
    the_tool_is_on_the_left_and_the_pupil_on_the_right(home, lines)


def the_tool_is_on_the_left_and_the_pupil_on_the_right(home: Path, lines: list[Line]) -> None:
    with wave.open(str(home / "made" / "rehearsal.wav")) as file:
        assert (file.getnchannels(), file.getframerate(), file.getsampwidth()) == (2, 16_000, 2)
        sides = np.frombuffer(file.readframes(file.getnframes()), "<i2").reshape(-1, 2).T
    tool, pupil = (_loud_tenths(side) for side in sides)
    assert len(tool) > 3 * len(pupil) > 0
    assert not set(tool) & set(pupil), "this pupil speaks when the tool does not"
    # The tool sounds when the log says that it does.
    began = next(line["at_ms"] for line in lines if line["kind"] == "say")
    assert abs(min(tool) * 100 - began) < 300


def _loud_tenths(side: "np.ndarray[tuple[int], np.dtype[np.int16]]") -> list[int]:
    """The tenths of a second in which there is sound."""
    frames = side[: len(side) // 1600 * 1600].reshape(-1, 1600)
    return [int(at) for at in np.flatnonzero(np.abs(frames).max(axis=1) > 300)]


def test_one_named_mistake(rehearsed: Rehearsed) -> None:
    """The whole amount put onto the ten: 45 and 65. Each is met where it stands and worked through to the end."""
    lines = rehearsed("--pupil-kind", "whole-amount-after-bridging", "--seed", "1")  # with which no slip comes
    assert whole(lines) == [(45, "independent"), (65, "independent")]
    for answer in of_kind(lines, "answer"):
        assert answer["right"] == (answer["part"] != "whole")
        assert ("whole-amount-after-bridging" in answer["could_be"]) == (answer["part"] == "whole")
    totals = [answer for answer in of_kind(lines, "answer") if answer["part"] == "total"]
    assert [(total["given"], total["right"]) for total in totals] == [(43, True), (62, True)]
    assert all(total["support"] != "independent" for total in totals), "what was helped is never independent"
    (end,) = of_kind(lines, "end")
    assert (end["cells"], end["right_first_time"]) == (2, 0)


def test_misheard(rehearsed: Rehearsed, home: Path) -> None:
    """Every third answer is another number at first, put right in the pause: no wrong row, nothing to void."""
    (home / "oars.toml").write_text('title = "Rows of oars"\nadd = [5, 3]\nstart = [38, 57]\n')
    lines = rehearsed("--pupil-kind", "misheard")
    assert whole(lines) == [(43, "independent"), (41, "independent"), (62, "independent"), (60, "independent")]
    assert of_kind(lines, "void") == []
    assert "Seventy-two." in said_in(lines)
    (end,) = of_kind(lines, "end")
    assert (end["cells"], end["right_first_time"]) == (4, 4)


def test_counts_aloud(rehearsed: Rehearsed) -> None:
    lines = rehearsed("--pupil-kind", "counts")
    assert whole(lines) == [(43, "independent"), (62, "independent")]
    assert Counter(answer["tries"] for answer in of_kind(lines, "answer")) == {1: 2}
    assert "Thirty-nine." not in said_in(lines)


def test_does_not_know(rehearsed: Rehearsed) -> None:
    lines = rehearsed("--pupil-kind", "does-not-know")
    assert whole(lines) == []
    assert [line["command"] for line in of_kind(lines, "heard") if line["command"]] == ["dont-know"] * 2
    assert {ask["because"] for ask in of_kind(lines, "ask")} >= {None, "dont-know"}
    totals = [answer for answer in of_kind(lines, "answer") if answer["part"] == "total"]
    assert [total["given"] for total in totals] == [43, 62]
    (end,) = of_kind(lines, "end")
    assert (end["cells"], end["right_first_time"]) == (2, 0)


def test_the_same_seed_gives_the_same_rehearsal(rehearsed: Rehearsed, home: Path) -> None:
    (home / "oars.toml").write_text('title = "Rows of oars"\nadd = [5]\nstart = [38]\n')
    rows = []
    sounds = []
    for _ in range(2):
        lines = rehearsed("--seed", "4")
        rows.append([_timeless(line) for line in lines if line["kind"] in ("ask", "answer", "end")])
        sounds.append((home / "made" / "rehearsal.wav").read_bytes())
    assert rows[0] == rows[1]
    assert sounds[0] == sounds[1]


def _timeless(line: Line) -> Line:
    """Without the moment of the day, and the ids of what was heard, which are new each time."""
    return {name: value for name, value in line.items() if name not in ("at", "heard")}


def test_a_pupil_who_learns_is_met_with_help(rehearsed: Rehearsed) -> None:
    """The mind behind it knows what it said: nothing that was heard differs from what was meant."""
    lines = rehearsed("--pupil-kind", "learning", "--seed", "2")
    assert any(not answer["right"] for answer in of_kind(lines, "answer"))
    assert of_kind(lines, "end")[0]["reason"] == "finished"


def test_a_file_that_no_rehearsal_wrote_is_left(home: Path, capture: pytest.CaptureFixture[str]) -> None:
    """Under one of its names; whatever else is in the folder stays beside it, and an older rehearsal gives way."""
    (home / "one.toml").write_text("add = [5]\nstart = [47]\n")
    rehearse = ("rehearse", "--grid", "one.toml", "--into", "harbour")
    (home / "harbour").mkdir()
    (home / "harbour/oars.txt").write_text("twelve oars\n")
    for name in ("transcript.txt", "rehearsal.wav", "rehearsal.jsonl"):
        (home / "harbour" / name).write_text("of the harbour master\n")
        done = asked(capture, *rehearse)
        told = f"harbour/{name} is not from a rehearsal: name another folder, or a new one."
        assert (done.code, done.shown, done.told) == (2, [], [told])
        assert (home / "harbour" / name).read_text() == "of the harbour master\n"
        (home / "harbour" / name).unlink()
    for _ in range(2):
        assert asked(capture, *rehearse).code == 0
    assert (home / "harbour/oars.txt").read_text() == "twelve oars\n"


@pytest.mark.skipif(os.name != "posix", reason="a program that is killed, as POSIX has it")
def test_the_next_rehearsal_clears_what_a_killed_one_left(person: Person) -> None:
    tmp = person.home / "tmp"
    tmp.mkdir()
    program = subprocess.Popen(
        [sys.executable, "-c", HOLDS],
        env=person.environment({"TMPDIR": str(tmp)}),
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
    )
    assert program.stdout
    left = Path(program.stdout.readline().decode().strip())
    person.writes("one.toml", "add = [5]\nstart = [47]\n")
    rehearse = ("rehearse", "--grid", "one.toml", "--into", "harbour")
    assert person.runs(*rehearse, more={"TMPDIR": str(tmp)}).code == 0
    assert list(tmp.iterdir()) == [left], "it still runs"
    program.kill()
    program.communicate()
    assert list(tmp.iterdir()) == [left]
    assert person.runs(*rehearse, more={"TMPDIR": str(tmp)}).code == 0
    assert list(tmp.iterdir()) == []


HOLDS = """
import sys
from saythesum.app.rehearsal.scratch import scratch_folder
with scratch_folder() as folder:
    (folder / "records").mkdir()
    print(folder, flush=True)
    sys.stdin.read()
"""
"""A rehearsal that goes on until it is killed, as far as its folder knows."""


def test_help_lists_every_kind(capture: pytest.CaptureFixture[str]) -> None:
    """A line each, so that a screen reader reads them one by one."""
    lines = asked(capture, "rehearse", "--help").shown
    for name in KINDS:
        assert any(line.split(":")[0] == name for line in lines)
    assert any("no evidence about children" in line for line in lines)
    assert lines[-1] == "Example: saythesum rehearse --pupil-kind stopped-at-the-ten"
