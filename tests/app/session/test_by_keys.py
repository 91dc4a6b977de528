"""A practice by keys: through a pipe and at a real terminal, with the real records and the real log."""

import json
import subprocess
import sys
from collections.abc import Mapping
from pathlib import Path

import pytest

from saythesum.app.session.by_keys import TypedLine
from tests.app.at_a_terminal import at_a_terminal

PRACTISE = """
import sys
from pathlib import Path
from saythesum.app.session.by_keys import practise_by_keys
from saythesum.app.session.practice import Wish
from saythesum.app.terminal.console import write
practise_by_keys(Wish("p1", Path(sys.argv[1]) if sys.argv[1:] else None, log_file=Path({log!r})), sys.stdin, write)
"""


def kept(log: Path, kind: str) -> list[Mapping[str, object]]:
    lines = [json.loads(line) for line in log.read_text(encoding="utf-8").splitlines()]
    return [line for line in lines if line["kind"] == kind]


def piped(folder: Path, data: bytes) -> tuple[list[str], Path]:
    """What was shown, and the log."""
    log = folder / "log.jsonl"
    done = subprocess.run(
        [sys.executable, "-c", PRACTISE.format(log=str(log))],
        input=data,
        capture_output=True,
        check=True,
        env={"SAYTHESUM_HOME": str(folder), "PATH": "/usr/bin:/bin"},
    )
    assert done.stderr == b""
    return done.stdout.decode().splitlines(), log


def test_keys_at_a_real_terminal(tmp_path: Path) -> None:
    log = tmp_path / "log.jsonl"
    with at_a_terminal(PRACTISE.format(log=str(log)), {"SAYTHESUM_HOME": str(tmp_path)}) as terminal:
        terminal.wait_for("Thirty-eight add three.\r\n")
        terminal.type(b"4")
        terminal.wait_for("add three.\r\n4")
        terminal.type(b"7")
        terminal.wait_for("47")
        terminal.type(b"\x7f")
        terminal.wait_for("Rubbed out seven.\r\n4")
        terminal.type(b"4")
        terminal.wait_for("\r\n44")
        terminal.type(b"\r")
        terminal.wait_for("Not yet.")
        terminal.type(b"\x1b[Z\x1b[Z")
        terminal.wait_for("Stop, button.")
        assert terminal.program.poll() is None
        terminal.type(b"\r")
        terminal.wait_for("Bye for now.\r\n")
        assert terminal.program.wait() == 0
        assert terminal.now == terminal.before
        assert "\x1b" not in terminal.shown
        assert "\b" not in terminal.shown
    (answer,) = kept(log, "answer")
    assert (answer["given"], answer["row"], answer["column"], answer["by"]) == (44, 0, 0, "keys")
    (end,) = kept(log, "end")
    assert end["reason"] == "stopped"


def test_a_stop_by_ctrl_and_c_is_kept(tmp_path: Path) -> None:
    log = tmp_path / "log.jsonl"
    with at_a_terminal(PRACTISE.format(log=str(log)), {"SAYTHESUM_HOME": str(tmp_path)}) as terminal:
        terminal.wait_for("Thirty-eight add three.\r\n")
        terminal.type(b"4\x03")
        terminal.wait_for("Bye for now.\r\n")
        assert terminal.program.wait() == 0
        assert "Traceback" not in terminal.shown
        assert "^C" not in terminal.shown
    assert [end["reason"] for end in kept(log, "end")] == ["stopped"]


def test_a_pipe_says_what_a_terminal_would(tmp_path: Path) -> None:
    lines, log = piped(tmp_path, b"47\x7f4\n")
    assert lines[1:6] == ["Thirty-eight add three.", "47", "Rubbed out seven.", "44", "Not yet."]
    assert lines[-1] == "We'll go on from here next time."
    assert [answer["given"] for answer in kept(log, "answer")] == [44]
    assert [end["reason"] for end in kept(log, "end")] == ["end-of-input"]


def test_the_next_start_goes_on_in_the_same_place(tmp_path: Path) -> None:
    piped(tmp_path, b"41\n4")
    lines, _ = piped(tmp_path, b"\x04")
    assert lines[-2:] == ["Thirty-eight add five.", "We'll go on from here next time."]


@pytest.mark.parametrize("data", [b"", b"\x04", b"\x1b", b"\xff\xfe\x00"])
def test_no_keys_at_all(tmp_path: Path, data: bytes) -> None:
    lines, log = piped(tmp_path, data)
    assert lines[-1] == "We'll go on from here next time."
    assert kept(log, "answer") == []


def test_an_answer_taken_back_and_put_back(tmp_path: Path) -> None:
    lines, log = piped(tmp_path, b"41\n\x7f\x7f")
    at = lines.index("Taken back.")
    assert "Forty-one, put back." in lines[at:]
    assert [answer["given"] for answer in kept(log, "answer")] == [41, 41]
    assert len(kept(log, "void")) == 1
    assert lines[-2] == "Thirty-eight add five."


def test_the_adults_turn(tmp_path: Path) -> None:
    lines, log = piped(tmp_path, b"\x1b[20~44\n\x1b[20~41\n")
    assert "The adult's turn. F9 gives it back." in lines
    assert [answer["given"] for answer in kept(log, "answer")] == [41]
    assert [turn["whose"] for turn in kept(log, "turn")] == ["adult", "pupil"]


def test_keys_of_the_pupils_own_and_letters_of_braille(tmp_path: Path) -> None:
    """A braille display sends its dots 7 and 8 as Backspace and Enter."""
    (tmp_path / "settings.toml").write_text(
        '[keys]\nwhere_am_i = "F5"\nadult = "pad slash"\n[braille]\nletters_as_digits = true\n', encoding="utf-8"
    )
    lines, log = piped(tmp_path, b"\x1b[15~//dg\x7fa\r\x1bOP")
    assert "Row thirty-eight, add three. Zero of six done." in lines
    assert "The adult's turn. F9 gives it back." in lines
    at = lines.index("Rubbed out seven.")
    assert lines[at - 1 : at + 4] == ["47", "Rubbed out seven.", "41", "Forty-one.", "Yes."]
    (answer,) = kept(log, "answer")
    assert (answer["given"], answer["right"]) == (41, True)
    (told,) = [line for line in lines if line.startswith("Type the number")]
    assert told.endswith("F5 says where you are. Pad slash is the adult's turn.")


def test_the_keys_told_are_those_of_today(tmp_path: Path) -> None:
    """Also in the middle of a grid that was begun at other ones."""
    settings = tmp_path / "settings.toml"
    settings.write_text('[keys]\nhelp = "F5"\n', encoding="utf-8")
    piped(tmp_path, b"41\n")
    settings.write_text('[keys]\nskip = "F6"\n', encoding="utf-8")
    lines, _ = piped(tmp_path, b"\x1bOP")
    (told,) = [line for line in lines if line.startswith("Type the number")]
    assert told.endswith("F12 changes whether I speak or a screen reader. F6 skips this one.")


def test_a_terminal_has_no_view(tmp_path: Path) -> None:
    lines, _ = piped(tmp_path, b"\x1bOQ41\n")
    assert lines[2:5] == ["There is no window.", "41", "Yes."]


def test_what_is_typed_stands_behind_the_last_line() -> None:
    written: list[str] = []
    line = TypedLine(written.append)
    line.show("Thirty-eight add five.")
    line.type((4,))
    line.type((4, 7))
    line.show("Rubbed out seven.")
    line.type((4,))
    line.type((4, 3))
    line.type((9,))
    line.end()
    line.end()
    assert "".join(written) == "Thirty-eight add five.\n47\nRubbed out seven.\n43\n9\n"
