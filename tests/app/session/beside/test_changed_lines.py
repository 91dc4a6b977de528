"""What of the adult's list is said, on the real lists of a turn."""

from saythesum.app.session.beside.changed_lines import ChangedLines
from saythesum.dialogue.turns.events import AdultMarked
from saythesum.scene.scene import for_adult
from tests.dialogue.topics.test_marking import begun
from tests.talk import Talk


def said(lines: ChangedLines, talk: Talk, digit: int) -> tuple[str, ...]:
    talk.post(AdultMarked(digit, talk.now_ms))
    return lines.to_say(for_adult(talk.state))


def test_all_of_it_first_then_what_has_changed() -> None:
    talk, lines = begun("42"), ChangedLines()
    talk.adult_takes()
    assert len(lines.to_say(for_adult(talk.state))) == 10
    about = "The adult's turn. The last answer: 47 + 5, "
    assert said(lines, talk, 1) == (f"{about}52, right.", "1 that was right: noted")
    assert said(lines, talk, 1) == (f"{about}42, not right.", "1 that was right")
    assert said(lines, talk, 3)[:3] == (f"{about}42, not right.", "With my help:", "1 words")
    assert said(lines, talk, 1) == ("3 with my help (words): noted",)
    assert said(lines, talk, 3) == ("1 words: noted",)
    assert said(lines, talk, 0) == (f"{about}42, not right.",), "back in the list, where nothing has changed"
    talk.adult_gives()
    assert lines.to_say(for_adult(talk.state)) == ()
    talk.adult_takes()
    assert len(lines.to_say(for_adult(talk.state))) == 10
