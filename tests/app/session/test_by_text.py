"""A practice in plain text from its first line to its last, as a process of its own, with real records and log."""

import os
import signal
import subprocess

import pytest

from tests.app.command import AT_MOST_S, COMMAND, Person, is_one_sentence
from tests.log_lines import of_kind, said_in

BY_TEXT = ("practise", "--by", "text")
LOGGED = (*BY_TEXT, "--log", "log.jsonl")
FERRY = """
title = "Seats on the ferry"
add   = [5, 8]
start = [47, 59]
"""


def test_from_the_first_line_to_the_last(person: Person) -> None:
    person.writes("ferry.toml", FERRY)
    done = person.runs(*LOGGED, "--grid", "ferry.toml", given="52\nfifty-five\n64\n\nsixty-seven\nno\n")
    assert (done.code, done.told) == (0, [])
    assert done.shown[:2] == ["Two rows, two sums in each.", "Forty-seven add five."]
    assert done.shown[-3:] == ["That's all four done.", "Shall we look for a pattern? Yes or no.", "Bye for now."]
    lines = person.log()
    answers = of_kind(lines, "answer")
    assert [(answer["given"], answer["right"]) for answer in answers] == [(52, 1), (55, 1), (64, 1), (67, 1)]
    # The empty line has the question said again: the last answer is to the repeated one.
    assert [answer["support"] for answer in answers] == ["independent"] * 3 + ["repeated"]
    (end,) = of_kind(lines, "end")
    assert (end["cells"], end["right_first_time"], end["reason"]) == (4, 4, "finished")


def test_what_is_shown_is_what_the_log_says_was_said(person: Person) -> None:
    done = person.runs(*LOGGED, given="41\n45\n3\nI don't know\nstop\n")
    assert done.shown == said_in(person.log())


def test_wrong_then_helped_then_right(person: Person) -> None:
    """38 add 5 is 45 where the whole amount is put onto the ten: help starts from the 45."""
    person.writes("oars.toml", 'title = "Oars"\nadd = [5]\nstart = [38]\n')
    person.runs(*LOGGED, "--grid", "oars.toml", given="forty-five\ntwo\nthree\nforty-three\n")
    lines = person.log()
    assert [(answer["part"], answer["given"], answer["support"]) for answer in of_kind(lines, "answer")] == [
        ("whole", 45, "independent"),
        ("gap", 2, "asked"),
        ("rest", 3, "asked"),
        ("total", 43, "asked"),
    ]
    assert "Forty and five is forty-five." in said_in(lines)
    (end,) = of_kind(lines, "end")
    assert (end["cells"], end["right_first_time"]) == (1, 0)


def test_the_end_of_the_input_keeps_the_place(person: Person) -> None:
    first = person.runs(*LOGGED, given="41\n43\n")
    assert first.code == 0
    assert first.shown[-2:] == ["Thirty-eight add eight.", "We'll go on from here next time."]
    second = person.runs(*LOGGED, given="46\n")
    assert second.shown[0] == "Thirty-eight add eight."
    lines = person.log()
    assert [answer["given"] for answer in of_kind(lines, "answer")] == [41, 43, 46]
    assert [end["reason"] for end in of_kind(lines, "end")] == ["end-of-input"] * 2
    assert len({line["practice"] for line in lines}) == 1


def test_killed_in_the_middle_of_a_part_it_comes_back_with_the_same_words(person: Person) -> None:
    person.writes("oars.toml", 'title = "Oars"\nadd = [5]\nstart = [38]\n')
    words = (*LOGGED, "--grid", "oars.toml")
    running = person.starts(*words)
    assert running.stdin
    assert running.stdout
    running.stdin.write(b"45\n3\n")
    running.stdin.flush()
    shown: list[str] = []
    while len(shown) < 7:
        shown.append(running.stdout.readline().decode().strip())
    assert shown[-1] == "How many to forty?"
    running.send_signal(signal.SIGKILL)
    assert running.wait(AT_MOST_S) == -signal.SIGKILL
    _close(running)
    again = person.runs(*words, given="2\n3\n43\n")
    assert again.shown[:2] == shown[-2:]
    answers = of_kind(person.log(), "answer")
    assert [(answer["part"], answer["given"]) for answer in answers] == [
        ("whole", 45),
        ("gap", 3),
        ("gap", 2),
        ("rest", 3),
        ("total", 43),
    ]


@pytest.mark.skipif(os.name != "posix", reason="the signal of Ctrl and C, as POSIX has it")
def test_ctrl_and_c_keeps_the_place(person: Person) -> None:
    program = person.starts(*BY_TEXT)
    assert program.stdin and program.stdout
    program.stdin.write(b"41\n")
    program.stdin.flush()
    assert [program.stdout.readline() for _ in range(4)][-1] == b"Thirty-eight add five.\n"
    program.send_signal(signal.SIGINT)
    shown, told = program.communicate(timeout=AT_MOST_S)
    assert (program.returncode, shown, told) == (0, b"\nWe'll go on from here next time.\n", b"")
    assert person.runs(*BY_TEXT).shown[0] == "Thirty-eight add five."


@pytest.mark.skipif(os.name != "posix", reason="the signal of Ctrl and C, as POSIX has it")
def test_ctrl_and_c_before_the_first_line_is_a_line(person: Person) -> None:
    """While the program is still being loaded: a library that comes first sends the signal in the middle of it."""
    shim = person.home / "shim"
    shim.mkdir()
    (shim / "tomlkit.py").write_text("import os, signal\nos.kill(os.getpid(), signal.SIGINT)\n")
    more = {"PYTHONPATH": f"{shim}{os.pathsep}{person.environment()['PYTHONPATH']}"}
    done = person.runs(*BY_TEXT, more=more)
    assert (done.code, done.shown, done.told) == (0, [], ["Stopped."])


@pytest.mark.skipif(os.name != "posix", reason="rights of folders, as POSIX has them")
def test_a_lock_that_is_somebody_elses(person: Person) -> None:
    """A folder under its name: left alone, and said with the way on."""
    lock = person.home / "practising.lock"
    lock.mkdir()
    done = person.runs(*BY_TEXT, given="41\n")
    assert (done.code, done.shown) == (2, [])
    assert is_one_sentence(done.told)
    assert str(lock) in done.told[0] and "SAYTHESUM_HOME" in done.told[0]


@pytest.mark.parametrize("round", range(4))
def test_two_first_starts_at_once(round: int, person: Person) -> None:
    """Whoever comes first practises; the other is told, or comes after. Neither breaks off, and no answer is lost."""
    home = person.home / "new" / "home"
    ways = [
        subprocess.Popen(
            [*COMMAND, *BY_TEXT],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            env=person.environment({"SAYTHESUM_HOME": str(home)}),
        )
        for _ in range(2)
    ]
    said = [way.communicate(b"41\n", timeout=AT_MOST_S) for way in ways]
    codes = [way.returncode for way in ways]
    assert sorted(codes) in ([0, 0], [0, 2]), said
    for code, (shown, told) in zip(codes, said, strict=True):
        assert (b"Yes." in shown or b"add five" in shown) if code == 0 else b"Another copy of saythesum" in told
    assert person.runs(*BY_TEXT, more={"SAYTHESUM_HOME": str(home)}).shown[0] != "Thirty-eight add three."


def test_a_second_copy_is_told_and_the_first_goes_on(person: Person) -> None:
    first = person.starts(*BY_TEXT)
    assert first.stdout
    assert first.stdout.readline()
    second = person.runs(*BY_TEXT, given="41\n")
    assert (second.code, second.shown, len(second.told)) == (2, [], 1)
    shown, told = first.communicate(b"41\n", timeout=AT_MOST_S)
    assert (first.returncode, told) == (0, b"")
    assert b"Yes." in shown


@pytest.mark.parametrize("word", ["stop", "stop there"])
def test_stop_after_a_miss_is_one_line_without_the_answer_and_no_question(person: Person, word: str) -> None:
    person.writes("oars.toml", 'title = "Oars"\nadd = [8]\nstart = [57]\n')
    words = (*LOGGED, "--grid", "oars.toml")
    done = person.runs(*words, given=f"64\n{word}\n66\n")
    last = done.shown[-1]
    assert last == "We'll stop there. We'll come back to that one. Bye for now."
    assert "?" not in last
    assert len(last.split()) <= 20
    assert person.runs(*words).shown[0] == "Fifty-seven add eight."


def test_the_adults_turn_is_nobodys_answer(person: Person) -> None:
    done = person.runs(*LOGGED, given="adult\nso forty and what? one\n41\nstop\nadult\n41\n")
    lines = person.log()
    assert [answer["given"] for answer in of_kind(lines, "answer")] == [41]
    assert [heard["number"] for heard in of_kind(lines, "heard")] == [41]
    assert done.shown.count("Thirty-eight add three.") == 2


def test_pupils_have_a_place_each(person: Person) -> None:
    person.runs(*BY_TEXT, "--pupil", "rk-7", given="41\n")
    assert person.runs(*BY_TEXT, "--pupil", "mo").shown[1] == "Thirty-eight add three."
    assert person.runs(*BY_TEXT, "--pupil", "RK-7").shown[0] == "Thirty-eight add five."


def test_a_shuffled_grid_comes_again_with_its_seed(person: Person) -> None:
    person.writes("rolls.toml", 'title = "Rolls"\nadd = [4, 6, 7]\nstart = [28, 36, 49]\norder = "shuffled"\n')
    words = (*BY_TEXT, "--grid", "rolls.toml", "--seed", "12")
    asked = [person.runs(*words, "--pupil", pupil, given="help\n").shown[1] for pupil in ("a", "b")]
    assert asked[0] == asked[1]


def _close(process: subprocess.Popen[bytes]) -> None:
    for stream in (process.stdin, process.stdout, process.stderr):
        if stream:
            stream.close()


def test_an_answer_in_letters_of_braille_is_read_back(person: Person) -> None:
    person.writes("settings.toml", "[braille]\nletters_as_digits = true\n")
    done = person.runs(*LOGGED, given="da\n#dd\nwhere am I\n")
    assert done.shown[1:6] == ["Thirty-eight add three.", "Forty-one.", "Yes.", "Thirty-eight add five.", "Forty-four."]
    assert done.shown[6] == "Not yet."
    assert [answer["given"] for answer in of_kind(person.log(), "answer")] == [41, 44]


def test_letters_are_no_digits_unless_the_settings_say_so(person: Person) -> None:
    done = person.runs(*LOGGED, given="da\n")
    assert done.shown[2].startswith("A number, please")
    assert of_kind(person.log(), "answer") == []
