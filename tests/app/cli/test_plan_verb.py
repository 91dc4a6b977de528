"""A week planned by the command line, and practices that follow the plan."""

from datetime import date
from pathlib import Path

from saythesum.office.plans.week import Day
from tests.app.command import Person

TODAY = f"{Day.of(date.today())}=ferry,probe"  # noqa: DTZ011 - the command asks for the day as well


def person_with_a_plan(folder: Path) -> Person:
    person = Person(folder)
    for code in ("rk-7", "mo"):
        person.runs("pupils", "add", code)
    made = person.runs("plan", "make", "harbour", "--for", "rk-7", "--for", "mo", "--on", TODAY, "--sums", "4")
    assert made.code == 0, made.told
    return person


def test_the_plan_decides_what_a_start_begins_with(tmp_path: Path) -> None:
    person = person_with_a_plan(tmp_path)
    begun = person.runs("--pupil", "rk-7", "--by", "text", given="41\n43\n46\n60\n")
    assert begun.told == ["The plan harbour has for rk-7 today: the grid ferry, then a probe."]
    assert begun.shown[-1] == "Four done. That's it for today. Bye for now."
    on = person.runs("plan", "start", "rk-7", "--by", "text", given="62\n65\nno\n")
    assert "That's all six done." in on.shown and "Eight sums on your own. I won't say which are right." in on.shown
    rest = person.runs("plan", "start", "rk-7", "--by", "text", given="1\n" * 8)
    assert rest.shown[-1] == "That's all eight. Bye for now."
    beside = person.runs("plan", "start", "rk-7", "--by", "text", given="stop there\n")
    assert beside.told[1] == "What was planned for rk-7 today is done; what comes now is beside the plan."
    asked_for = person.runs("practise", "--pupil", "mo", "--grid", "flour", "--by", "text", given="stop there\n")
    assert asked_for.told == [], "a grid that is asked for comes before the plan"


def test_a_grid_left_from_before_waits_while_the_plan_has_something_else(tmp_path: Path) -> None:
    person = Person(tmp_path)
    person.runs("pupils", "add", "rk-7")
    person.runs("practise", "--pupil", "rk-7", "--grid", "flour", "--by", "text", given="stop there\n")
    person.runs("plan", "make", "harbour", "--for", "rk-7", "--on", TODAY)
    begun = person.runs("--pupil", "rk-7", "--by", "text", given="stop there\n")
    assert "Thirty-eight add three." in begun.shown
    person.runs("plan", "put-away", "harbour")
    left = person.runs("--pupil", "rk-7", "--by", "text", "--grid", "flour", given="stop there\n")
    assert left.told == [] and "Thirty-eight add three." not in left.shown


def test_what_is_shown_and_printed(tmp_path: Path) -> None:
    person = person_with_a_plan(tmp_path)
    assert person.runs("plan", "show", "--for", "mo").shown == [
        "mo today, by the plan harbour: the grid ferry, then a probe; at most 4 sums."
    ]
    day = TODAY.partition("=")[0].capitalize()
    assert person.runs("plan", "show").shown == [
        "harbour, for rk-7, mo, every week.",
        f"{day}: the grid ferry, then a probe; at most 4 sums.",
    ]
    assert person.runs("plan", "print", "mo", "--into", tmp_path / "mo.txt").code == 0
    assert (tmp_path / "mo.txt").read_text().startswith("mo, ")
    again = person.runs("plan", "print", "mo", "--into", tmp_path / "mo.txt")
    assert again.code == 2 and "already: name another" in again.told[0]
    kept = person.runs("plan", "not-done", "mo", "unwell")
    assert kept.shown == [f"Kept for {date.today()}: not done, unwell."]  # noqa: DTZ011


def test_what_is_wrong_is_one_sentence_each(tmp_path: Path) -> None:
    person = person_with_a_plan(tmp_path)
    wrong = person.runs("plan", "make", "oars", "--for", "zz", "--on", "monday=boats", "--by", "song")
    assert wrong.code == 2
    assert [line.split(" ", 3)[0:3] for line in wrong.told] == [["Line", "2:", "by"], *[["The", "plan", "oars:"]] * 2]
    for words, told in [
        (("make", "x", "--on", "someday=probe"), "cannot be 'someday'"),
        (("make", "x", "--sums", "many"), '"many" is no number of sums or minutes'),
        (("show", "nix"), "There is no plan nix"),
        (("start", "zz"), "There is no pupil zz"),
        (("print", "mo", "--on", "soon"), "cannot be 'soon'"),
    ]:
        came = person.runs("plan", *words)
        assert came.code == 2 and told in came.told[0], came
    empty = person.runs("plan", "make", "harbour", "--on", f"{TODAY.partition('=')[0]}=")
    assert empty.code == 2 and "There is no day in the plan" in empty.told[0]
    person.runs("plan", "put-away", "harbour")
    nothing = person.runs("plan", "start", "mo")
    assert nothing.told == ["Nothing is planned for mo today. Start without a plan: saythesum --pupil mo"]
