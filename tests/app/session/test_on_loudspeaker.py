"""Without a headset: what the tool says is in its microphone, 10 dB below the pupil. It never hears itself."""

from pathlib import Path

import pytest

from saythesum.core.exercises.adding import Sum
from saythesum.core.sums import Part
from saythesum.wording.numbers import words
from tests.log_lines import Line, checked_lines, of_kind
from tests.tools.rig.server import Rig
from tests.tools.rig.spoken import LOG_NAME, Program, Pupil, program_on

pytestmark = pytest.mark.rig

LEAK_DB = -10
SPOKEN_MS = 800
"""At least, of "forty-three"."""
STARTS, AMOUNTS = (38,), (5, 6)
GRID = f'title = "Rows of oars"\nadd = {list(AMOUNTS)}\nstart = {list(STARTS)}\n'
BY_VOICE = ("practise", "--by", "voice", "--ear", "open", "--grid", "oars.toml")


@pytest.fixture
def home(tmp_path: Path) -> Path:
    (tmp_path / "oars.toml").write_text(GRID)
    (tmp_path / "settings.toml").write_text("[waits]\nafter_number_ms = 600\nsaid_back_ms = 500\n")
    return tmp_path


def right(ask: Line) -> str:
    return words(Sum(STARTS[ask["row"]], AMOUNTS[ask["column"]]).answer_to(Part(ask["part"])))


def test_with_the_ear_always_open_it_would_hear_itself(rig: Rig, home: Path) -> None:
    """What the other tests rest on: there is something to hear in this room."""
    with (home / "settings.toml").open("a") as settings:
        settings.write("[sound]\nheadset = true\n")
    with rig.loudspeaker_in_the_room(LEAK_DB), program_on(rig, home, *BY_VOICE) as program:
        program.wait_for_kind("heard", 20)


def test_a_practice_in_which_only_the_pupil_is_heard(rig: Rig, home: Path) -> None:
    with rig.loudspeaker_in_the_room(LEAK_DB), program_on(rig, home, *BY_VOICE) as program:
        Pupil(
            program,
            {(0, 0, "whole"): ["forty-five"], (0, 1, "whole"): ["I don't know"]},
            right,
            after_ms=300,  # the cue that the ear is open has sounded then, in the microphone as well
        ).practise(within_s=150)
        assert program.process.returncode == 0, program.shown
    lines = checked_lines(home / LOG_NAME)
    assert len(of_kind(lines, "say")) > len(of_kind(lines, "listen")) + 8, "there are sentences to listen between"
    assert all(said["cut"] is None for said in of_kind(lines, "said")), "nothing made it fall silent"
    heard = [line["number"] or line["command"] for line in of_kind(lines, "heard")]
    assert heard == [45, 2, 3, 43, "dont-know", 40, 2, 4, 44]
    assert [answer["given"] for answer in of_kind(lines, "answer")] == [one for one in heard if one != "dont-know"]


def test_an_answer_between_two_sentences_stops_the_next(rig: Rig, home: Path) -> None:
    with rig.loudspeaker_in_the_room(LEAK_DB), program_on(rig, home, *BY_VOICE) as program:
        program.wait_for_kind("listen", 20)
        program.says("forty-five")
        _said_whole(program, "Forty and five is forty-five.")
        asked_ms = rig.clock.since_start_ms()
        program.says("forty-three")
        heard = program.wait_for_kind("heard", 10)
        assert heard["number"] == 43
        pupil_ms = rig.pupil.first_sound_ms(asked_ms)
        tool_ms = rig.tool.first_sound_ms(asked_ms)
        assert pupil_ms
        assert tool_ms
        assert tool_ms > pupil_ms + SPOKEN_MS, "the tool let the pupil finish"
        answered = program.wait_for(lambda line: line["kind"] == "answer", 10)
    assert (answered["given"], answered["right"], answered["took_ms"]) == (43, True, None)
    lines = program.lines
    (question,) = [line for line in of_kind(lines, "say") if line["text"] == "How many of the five get you to forty?"]
    (unsaid,) = [line for line in of_kind(lines, "said") if line["of"] == question["id"]]
    assert unsaid["cut"] == 0


def _said_whole(program: Program, text: str) -> None:
    """Waits until that sentence has been said."""
    say = program.wait_for(lambda line: line["kind"] == "say" and line["text"] == text, 20)
    program.wait_for(lambda line: line["kind"] == "said" and line["of"] == say["id"], 20)
