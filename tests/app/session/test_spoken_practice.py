"""Real spoken practices without hardware: the tool's own streams, voice, ear and engine, keys at a terminal."""

from pathlib import Path
from uuid import UUID

import pytest

from saythesum.core.exercises.adding import Sum
from saythesum.core.records.codec import row_from_dict
from saythesum.core.records.rows import Row
from saythesum.core.sums import Part
from saythesum.hearing.vocal_tract.factor import FEWEST_ANSWERS
from saythesum.settings.reading import settings_from
from saythesum.store.reading import open_to_read
from saythesum.wording.numbers import words
from tests.log_lines import Line, checked_lines, of_kind, said_in
from tests.proofs.said_numbers import numbers_said
from tests.tools.rig.server import Rig
from tests.tools.rig.spoken import F9, LOG_NAME, Program, Pupil, program_on, said_again_and_cut

pytestmark = pytest.mark.rig

STARTS, AMOUNTS = (38, 57), (3, 5, 8)
GRID = f'title = "Rows of oars"\nadd = {list(AMOUNTS)}\nstart = {list(STARTS)}\n'
BRISK = """
[speech]
rate_wpm = 200
[waits]
said_back_ms = 500
after_number_ms = 600
after_bare_ten_ms = 900
after_other_ms = 600
[wording]
length = "brief"
"""
"""Six cells in the time that three take otherwise."""
BY_VOICE = ("practise", "--by", "voice", "--ear", "open", "--grid", "oars.toml")


@pytest.fixture
def home(tmp_path: Path) -> Path:
    (tmp_path / "oars.toml").write_text(GRID)
    (tmp_path / "settings.toml").write_text(BRISK)
    return tmp_path


def right(ask: Line) -> str:
    asked = Sum(STARTS[ask["row"]], AMOUNTS[ask["column"]])
    return words(asked.answer_to(Part(ask["part"])))


def the_adult_takes_a_turn(program: Program) -> None:
    """Talks to the pupil with the tool's ear shut, and gives the turn back."""
    program.press(F9)
    program.wait_until_shown("The adult's turn.", 5)
    asked_ms = program.rig.clock.since_start_ms()
    program.says("thirty-three")
    begun_ms = program.rig.pupil.first_sound_ms(asked_ms)
    assert begun_ms is not None
    assert program.rig.pupil.silent_from_ms(begun_ms, for_ms=1_000) is not None
    program.press(F9)


def test_a_whole_practice(rig: Rig, home: Path) -> None:
    """Two rows of three: two wrong answers, one changed in mid-sentence, one asked for again, one not known, and an
    adult who takes a turn.
    """
    with program_on(rig, home, *BY_VOICE) as program:
        Pupil(
            program,
            {
                (0, 0, "whole"): [the_adult_takes_a_turn],
                (0, 1, "whole"): ["forty-five"],
                (0, 2, "whole"): ["forty-seven, no, forty-six"],
                (1, 0, "whole"): ["say that again"],
                (1, 1, "whole"): ["fifty-two"],
                (1, 2, "whole"): ["I don't know"],
            },
            right,
        ).practise(within_s=200)
        assert program.process.returncode == 0, program.shown
        assert "Traceback" not in program.shown
    lines = checked_lines(home / LOG_NAME)
    assert came_of(lines) == {
        (0, 0): [("whole", 41, "independent")],
        # The whole amount put onto the ten: met there, and worked through.
        (0, 1): [("whole", 45, "independent"), ("gap", 2, "asked"), ("rest", 3, "asked"), ("total", 43, "asked")],
        (0, 2): [("whole", 46, "independent")],
        (1, 0): [("whole", 60, "repeated")],
        # Several mistakes may give 52: the small question tells them apart, and help goes on from its answer.
        (1, 1): [("whole", 52, "independent"), ("ones", 12, "asked"), ("total", 62, "asked")],
        (1, 2): [
            ("next-ten", 60, "asked"),
            ("gap", 3, "asked"),
            ("rest", 5, "asked"),
            ("total", 65, "asked"),
        ],
    }
    assert of_kind(lines, "void") == []
    assert 33 not in [heard["number"] for heard in of_kind(lines, "heard")], "said in the adult's turn"
    (end,) = of_kind(lines, "end")
    assert (end["cells"], end["right_first_time"], end["reason"]) == (6, 3, "finished")
    assert stored_rows(home, lines) == logged_rows(lines)
    no_right_answer_was_given_away(lines)
    learnt = settings_from((home / "pupils" / "pupil-1.toml").read_text(encoding="utf-8"))[0].listening
    assert (learnt.vocal_tract_factor, learnt.vocal_tract_answers >= FEWEST_ANSWERS) == (1.0, True)


def came_of(lines: list[Line]) -> dict[tuple[int, int], list[tuple[str, int, str]]]:
    cells: dict[tuple[int, int], list[tuple[str, int, str]]] = {}
    for answer in of_kind(lines, "answer"):
        cell = cells.setdefault((answer["row"], answer["column"]), [])
        cell.append((answer["part"], answer["given"], answer["support"]))
    return cells


def stored_rows(home: Path, lines: list[Line]) -> list[Row]:
    records = open_to_read(home / "records.sqlite")
    try:
        return list(records.practice(UUID(lines[0]["practice"])).rows)
    finally:
        records.close()


def logged_rows(lines: list[Line]) -> list[Row]:
    return [row_from_dict(line) for line in lines if line["kind"] in ("ask", "answer", "void", "note", "end")]


def no_right_answer_was_given_away(lines: list[Line]) -> None:
    """No sentence has the whole answer before the pupil said it."""
    given: set[int] = set()
    total = -1
    for line in lines:
        match line["kind"]:
            case "ask":
                total = STARTS[line["row"]] + AMOUNTS[line["column"]]
                given = given if line["part"] != "whole" else set()
            case "heard" if line["number"] is not None:
                given.add(line["number"])
            case "say":
                assert total in given or total not in numbers_said(line["text"]), line
            case _:
                pass


SILENT_WITHIN_MS = 100
CUTS = 3


def test_a_key_cuts_speech_and_stop_means_stop(rig: Rig, home: Path) -> None:
    (home / "oars.toml").write_text('title = "Rows of oars"\nadd = [8]\nstart = [57]\n')
    # Without its sound cue the silence after a cut is whole.
    (home / "settings.toml").write_text("[sound]\ncues = false\n")
    with program_on(rig, home, *BY_VOICE) as program:
        program.wait_for_kind("listen", 20)
        took_ms = sorted(said_again_and_cut(program, 250 + 60 * number).to_silence_ms for number in range(CUTS))
        assert took_ms[CUTS // 2] <= SILENT_WITHIN_MS, took_ms
        program.says("sixty-four")
        program.wait_for(lambda line: line["kind"] == "answer", 15)
        program.wait_for_kind("listen", 15)
        program.says("stop there")
        assert program.ends(within_s=20) == 0
    lines = checked_lines(home / LOG_NAME)
    (answer,) = of_kind(lines, "answer")
    assert (answer["given"], answer["right"]) == (64, False)
    last_heard = max(at for at, line in enumerate(lines) if line["kind"] == "heard")
    after = lines[last_heard:]
    (stop_line,) = said_in(after)
    assert "sixty" not in stop_line  # neither the answer nor a step towards it
    assert "?" not in stop_line
    assert len(stop_line.split()) <= 20
    assert of_kind(after, "listen") == []
    assert [end["reason"] for end in of_kind(after, "end")] == ["stopped"]
    assert stored_rows(home, lines) == logged_rows(lines)
    with program_on(rig, home, *BY_VOICE) as program:
        program.wait_for_kind("listen", 20)
        assert program.said() == ["Fifty-seven add eight."]
