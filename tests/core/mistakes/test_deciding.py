"""Which patterns decide: a slip gives way to whatever explains the number better."""

from saythesum.core.exercises.adding import Sum
from saythesum.core.mistakes.adding import CATALOGUE

ANY = Sum(38, 5)


def codes(*names: str) -> list[str]:
    return [pattern.code for pattern in ANY.deciding(names)]


def test_slips_give_way() -> None:
    assert codes("one-short", "key-slip") == ["A7"]
    assert codes("gap-used-twice", "fact-slip") == ["A12"]
    assert codes("fact-slip", "key-slip") == ["A23", "A28"]
    assert [pattern.code for pattern in CATALOGUE if pattern.gives_way] == ["A23", "A28"]


def test_all_others_count() -> None:
    assert codes("one-short", "neighbour-cell", "previous-answer") == ["A7", "A24", "A25"]


def test_names_of_parts_and_of_newer_versions_decide_nothing() -> None:
    assert codes("total-unjoined", "a-name-to-come", "stopped-at-the-ten") == ["A10"]
    assert codes("a-name-to-come") == codes() == []
