"""Probes and finding out by the command, each time as a process of its own, with real records and log."""

import signal
import sqlite3
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest

from saythesum.app.session.by_text import practise_by_text
from saythesum.app.session.practice import Wish
from saythesum.core.aims import Aim
from saythesum.core.exercises.adding import Sum
from saythesum.core.mistakes.adding_patterns import MISTAKES
from saythesum.core.mistakes.pattern import Mistake
from saythesum.learner.assessment.probe import form
from saythesum.store.reading import open_to_read
from tests.app.command import AT_MOST_S, Person, is_one_sentence
from tests.app.here import asked
from tests.log_lines import Line, of_kind

BY_TEXT = ("practise", "--by", "text")
PROBE = (*BY_TEXT, "--probe", "--log", "log.jsonl")
FIND_OUT = (*BY_TEXT, "--find-out", "--log", "log.jsonl")
FIRST = ["Eight sums on your own. I won't say which are right.", "Twenty-three add four."]


def totals(number: int) -> str:
    return "".join(f"{asked.total}\n" for asked in form(number).sums)


def sums_in(lines: list[Line]) -> list[Sum]:
    return [Sum(line["start"], line["amount"]) for line in of_kind(lines, "answer")]


# ---- probes ------------------------------------------------------------------------------------------------


def test_a_probe_from_its_first_line_to_its_last(person: Person) -> None:
    done = person.runs(*PROBE, given=totals(0))
    assert (done.code, done.told) == (0, [])
    assert done.shown[:2] == FIRST
    assert done.shown[2::2] == [*["Thank you."] * 8]
    assert done.shown[-1] == "That's all eight. Bye for now."
    lines = person.log()
    assert {line["purpose"] for line in of_kind(lines, "answer")} == {"probe"}
    assert {line["why"] for line in of_kind(lines, "ask")} == {None}


def test_each_probe_of_a_pupil_has_another_form(person: Person) -> None:
    for number in range(3):
        person.runs(*PROBE, "--pupil", "rk-7", given=totals(number))
        assert sums_in(person.log())[8 * number :] == list(form(number).sums)
    assert person.runs(*PROBE, "--pupil", "mo").shown[:2] == FIRST


def test_a_probe_that_was_stopped_goes_on_and_is_no_new_one(person: Person) -> None:
    question = person.runs(*PROBE, given="27\nI don't know\nstop\n").shown[-2]
    assert person.runs(*PROBE, given="stop\n").shown[0] == question
    person.runs(*PROBE, given="1\n2\n3\n4\n5\n6\n")
    assert [end["reason"] for end in of_kind(person.log(), "end")] == ["stopped", "stopped", "finished"]
    assert sums_in(person.log())[1:] == list(form(0).sums[2:])


def test_killed_it_comes_back_with_the_same_words_also_without_being_asked_for(person: Person) -> None:
    running = person.starts(*PROBE)
    assert running.stdin and running.stdout and running.stderr
    running.stdin.write(b"27\n60\n")
    running.stdin.flush()
    shown = [running.stdout.readline().decode().strip() for _ in range(6)]
    running.send_signal(signal.SIGKILL)
    assert running.wait(AT_MOST_S) == -signal.SIGKILL
    for stream in (running.stdin, running.stdout, running.stderr):
        stream.close()
    for words in (PROBE, BY_TEXT):
        assert person.runs(*words).shown[0] == shown[-1] == "Eighty-six add seven."


def test_a_grid_that_is_asked_for_by_name_is_no_probe(person: Person) -> None:
    person.writes("oars.toml", "add = [5]\nstart = [38]\n")
    person.runs(*PROBE, given="27\n")
    done = person.runs(*BY_TEXT, "--grid", "oars.toml", given="43\n")
    assert done.shown[1:] == ["Thirty-eight add five.", "Yes.", "That one's done. Bye for now."]
    assert person.runs(*BY_TEXT).shown[0] == "Fifty-four add seven."


def test_by_keys(person: Person) -> None:
    done = person.runs("practise", "--by", "keys", "--probe", given="27\n61\x1b[6~")
    assert done.code == 0
    assert done.shown[:2] == FIRST
    assert "Yes." not in done.shown and "Not yet." not in done.shown


@pytest.mark.parametrize(
    ("more", "named"),
    [
        (("--probe", "--grid", "oars.toml"), "--grid"),
        (("--probe", "--seed", "3"), "--seed"),
        (("--probe", "--find-out"), "--find-out"),
        (("--find-out", "--grid", "oars.toml"), "--grid"),
    ],
)
@pytest.mark.parametrize("by", [(), ("--by", "text"), ("--by", "keys")])
def test_what_does_not_go_together_is_one_sentence(
    capture: pytest.CaptureFixture[str], home: Path, more: tuple[str, ...], named: str, by: tuple[str, ...]
) -> None:
    (home / "oars.toml").write_text("add = [5]\nstart = [38]\n")
    done = asked(capture, "practise", *by, *more)
    assert (done.code, done.shown) == (2, [])
    assert is_one_sentence(done.told)
    assert named in done.told[0] and "leave" in done.told[0]
    assert not list(home.glob("records*"))


def test_a_probe_leaves_the_choice_of_sums_to_practice(person: Person) -> None:
    """Eight wrong answers in a probe are no reason for easier sums: only what was chosen to go well counts there."""
    person.writes("oars.toml", 'add = [1, 3, 5]\nstart = [24, 38, 57]\norder = "chosen"\n')
    person.runs(*PROBE, given="1\n" * 8)
    (why,) = (line["why"] for line in of_kind(_chosen(person), "ask"))
    assert "lately" not in why


def _chosen(person: Person) -> list[Line]:
    person.runs(*BY_TEXT, "--grid", "oars.toml", "--log", "chosen.jsonl")
    return person.log("chosen.jsonl")


def test_the_records_know_an_aim_and_the_cells_that_are_asked(person: Person) -> None:
    person.runs(*PROBE, given="27\n")
    records = open_to_read(person.home / "records.sqlite")
    (id,) = records.practices("pupil-1")
    stored = records.practice(id)
    records.close()
    assert (stored.aim.value, stored.cells) == ("probe", form(0).cells)
    assert datetime.fromisoformat(stored.began_at).tzinfo == UTC
    connection = sqlite3.connect(person.home / "records.sqlite")
    assert connection.execute("SELECT aim FROM practices").fetchall() == [("probe",)]
    connection.close()


# ---- finding out -------------------------------------------------------------------------------------------


def answers_by(mistake: Mistake, person: Person) -> Iterator[str]:
    """Each sum by the mistake; then the help is passed over."""
    for _ in range(20):
        ask = of_kind(person.log(), "ask")[-1]
        asked = Sum(10 + ask["row"], 1 + ask["column"])
        yield str(next(number for number in mistake.gives(asked) if mistake.fits(asked, number)))
        yield "skip"


def test_the_adult_hears_of_it_after_the_end_and_the_pupil_never(
    person: Person, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("SAYTHESUM_HOME", str(person.home))
    (mistake,) = (mistake for mistake in MISTAKES if mistake.name == "whole-amount-after-bridging")
    wish = Wish("pupil-1", log_file=person.home / "log.jsonl", aim=Aim.FIND_OUT)
    practise_by_text(wish, answers_by(mistake, person))
    shown = capsys.readouterr().out.splitlines()
    at = shown.index("For the adult. This is practice, not assessment or diagnosis.")
    assert shown[at - 1].endswith("Bye for now.")
    assert shown[at + 1].startswith("Could be adding the whole amount again after the ten: ")
    assert shown[at + 2].startswith("For it: ")
    said = [line["text"] for line in of_kind(person.log(), "say")]
    assert not any("Could be" in line or "bridging" in line for line in said)
    (finding,) = of_kind(person.log(), "finding")
    answers = {line["id"]: line for line in of_kind(person.log(), "answer")}
    assert finding["mistake"] == "whole-amount-after-bridging"
    assert len(finding["for"]) >= 2
    assert all(finding["mistake"] in answers[id]["could_be"] for id in finding["for"])
    assert finding["text"] == " ".join(shown[at + 1 :])
    heading, day, *again = person.runs("practise", "--found").shown
    assert (heading, again) == (shown[at], shown[at + 1 :])
    assert day.startswith("Found out on ")


def test_before_anything_was_found_out_nothing_is_told_again(person: Person) -> None:
    person.runs(*BY_TEXT, given="stop\n")
    shown = person.runs("practise", "--found").shown
    assert shown == ["Nothing was found out with pupil-1 yet: practise with --find-out first."]


def test_nothing_shows_where_nothing_does(person: Person) -> None:
    shown = person.runs(*FIND_OUT, given="stop\n").shown
    assert shown[0] == "Up to twelve sums."
    assert shown[-2:] == [
        "For the adult. This is practice, not assessment or diagnosis.",
        "Nothing shows: no mistake comes again. First answers without help: 0, right: 0.",
    ]
    assert not of_kind(person.log(), "finding")


def test_why_each_sum_was_asked(person: Person) -> None:
    shown = person.runs(*FIND_OUT, "--why", given="stop\n").shown
    assert shown[-1].endswith(
        "add " + shown[1].split("add ")[1][:-1] + ": its answer tells most about what a mistake could be."
    )
    (ask,) = of_kind(person.log(), "ask")
    assert ask["why"] == shown[-1]
    shown = person.runs(*BY_TEXT, "--why", "--pupil", "mo", given="stop\n").shown
    assert shown[-1] == "The sums were not chosen: the order was rows."


def test_why_of_a_chosen_order(person: Person) -> None:
    person.writes("oars.toml", 'add = [1, 3, 5]\nstart = [24, 38, 57]\norder = "chosen"\n')
    (why,) = (line["why"] for line in of_kind(_chosen(person), "ask"))
    assert why.endswith(": new, the next kind in the order of teaching.")
    again = person.runs(*BY_TEXT, "--grid", "oars.toml", "--why", given="stop\n").shown
    assert again[-1] == "No sum was chosen anew: the one that was asked had been chosen before the last stop."
    skipped = person.runs(*BY_TEXT, "--grid", "oars.toml", "--why", given="skip this one\nstop\n").shown
    assert skipped[-2] == "Why these sums:"
    assert skipped[-1].endswith(".") and skipped[-1] != why
