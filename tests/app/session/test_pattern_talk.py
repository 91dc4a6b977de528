"""A talk about a pattern by the command: kept as what it is, told in the log, and the next one is another."""

from tests.app.command import Person
from tests.log_lines import of_kind

GRID = 'title = "Rows of oars"\nadd = [5, 8]\nstart = [38, 57]\n'
RIGHT = "43\n46\n62\n65\n"
TALK = "yes\ngo on\n3\n3\n35\nbecause my sister says so\n87\n46\n54\n"
PRACTISE = ("practise", "--by", "text", "--grid", "oars.toml", "--log", "log.jsonl", "--why")


def test_a_talk_is_kept_with_its_pattern_and_nobody_reads_what_was_thought(person: Person) -> None:
    person.writes("oars.toml", GRID)
    done = person.runs(*PRACTISE, given=RIGHT + TALK)
    assert (done.code, done.told) == (0, [])
    assert done.shown[-3:] == [
        "The sums were not chosen: the order was rows.",
        "Why this pattern:",
        "How far apart the columns add five and add eight are: the next in the order of teaching.",
    ]
    lines = person.log()
    asks = [line for line in of_kind(lines, "ask") if line["exercise"] == "pattern"]
    assert [line["part"] for line in asks] == [
        *("listen", "how-much-more", "every-row", "predict", "why", "turn-round", "make-one", "make-one"),
    ]
    assert {(line["about"], tuple(line["lines"]), line["row"], line["column"]) for line in asks} == {
        ("columns-apart", (0, 1), None, None)
    }
    assert asks[0]["why"] == done.shown[-1]
    assert "sister" not in (person.home / "log.jsonl").read_text()
    (end,) = of_kind(lines, "end")
    assert (end["cells"], end["right_first_time"]) == (4, 4)


def test_stopped_in_a_talk_it_goes_on_there_and_the_next_practice_finds_another(person: Person) -> None:
    person.writes("oars.toml", GRID)
    stopped = person.runs(*PRACTISE, given=RIGHT + "yes\ngo on\nstop\n").shown
    assert "We'll stop there. Four done. Bye for now." in stopped
    again = person.runs(*PRACTISE, given="3\nno\n").shown
    assert again[0] == "In row thirty-eight, from forty-three to forty-six, how much more?"
    assert again[-1] == "Bye for now." or "Bye for now." in again
    third = person.runs(*PRACTISE, given=RIGHT + "yes\nno\n").shown
    heard = next(line for line in third if line.startswith("Listen."))
    assert not heard.startswith("Listen. Add five: forty-three")


def test_the_setting_switches_the_offer_off(person: Person) -> None:
    person.writes("oars.toml", GRID)
    person.writes("settings.toml", "[patterns]\noffer = false\n")
    assert "That's all four done. Bye for now." in person.runs(*PRACTISE, given=RIGHT).shown
