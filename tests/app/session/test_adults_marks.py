"""The adult's turn in plain text: marks are listed and kept, and the log has no `say` while they are made."""

import json
from pathlib import Path

from tests.app.command import Person


def test_every_mark_by_its_digit_is_kept_and_never_said(tmp_path: Path) -> None:
    person = Person(tmp_path)
    marks = "3\n1\n4\n2\n5\n2\n6\n8\n"
    given = f"41\nadult\n{marks}adult\nstop there\n"
    came = person.runs("practise", "--by", "text", "--log", tmp_path / "log.jsonl", given=given)
    assert came.code == 0, came.told
    assert "The adult's turn. The last answer: 38 + 3, 41, right." in came.shown
    assert "3 with my help (words): noted" in came.shown
    assert "2 fingers" in came.shown and "4 worked with (fingers): noted" in came.shown
    log = [json.loads(line) for line in (tmp_path / "log.jsonl").read_text().splitlines()]
    kinds = [line["kind"] for line in log]
    first, last = kinds.index("note"), len(kinds) - 1 - kinds[::-1].index("note")
    assert "say" not in kinds[first : last + 1]
    notes = [(line["what"], line["value"]) for line in log if line["kind"] == "note"]
    assert notes == [
        *(("support", "adult-help words"), ("worked-with", "fingers"), ("way", "bridged")),
        *(("waits", "longer"), ("not-counted", "from-here")),
    ]
    assert all(line["by"] == "adult" and line["at"] for line in log if line["kind"] == "note")


def test_what_else_is_typed_in_the_adults_turn_goes_nowhere(tmp_path: Path) -> None:
    came = Person(tmp_path).runs("practise", "--by", "text", given="adult\n41\nhelp me\nadult\nstop there\n")
    assert "Yes." not in came.shown and came.shown[-1] == "We'll stop there. Bye for now."
