"""What an adult is told: why a sum was chosen, and what a mistake could be. None of it is ever said to a pupil."""

import re
from dataclasses import replace
from datetime import date
from importlib import import_module
from pkgutil import iter_modules

import pytest

from saythesum.core import mistakes
from saythesum.core.exercises.adding import Sum
from saythesum.core.exercises.skills import Item, Skill
from saythesum.core.mistakes.adding import CATALOGUE
from saythesum.core.mistakes.pattern import PartMistake, Pattern
from saythesum.core.records.rows import RowId
from saythesum.learner.findings import Finding
from saythesum.learner.selection import ChoiceReason, WhyChosen
from saythesum.wording.for_adults.mistake_words import MISTAKE_WORDS
from saythesum.wording.for_adults.said_findings import finding_said, nothing_shows
from saythesum.wording.for_adults.said_whys import REASONS, item_said, why_said
from tests.learner.believers import evidence
from tests.learner.learners import answer

OARS = Sum(38, 5)
BOND = Item(Skill.BOND, (2,))


def why(reason: ChoiceReason, *, last: date | None = None, mistakes: tuple[str, ...] = ()) -> WhyChosen:
    return WhyChosen(reason, OARS, BOND, 0.7, last, mistakes)


def test_every_reason_has_a_sentence_of_its_own() -> None:
    said = [why_said(why(reason, last=date(2031, 3, 9))) for reason in ChoiceReason]
    assert set(REASONS) == set(ChoiceReason)
    assert len(set(said)) == len(said)
    assert all(re.fullmatch(r"Thirty-eight add five: [^{}]+\.", line) for line in said)


@pytest.mark.parametrize(
    ("given", "sentence"),
    [
        (why(ChoiceReason.NEW), "new, the next kind in the order of teaching"),
        (why(ChoiceReason.UPKEEP, last=date(2031, 3, 9)), "known well, and not asked since 9 March"),
        (why(ChoiceReason.BROKEN), "it needs the bond of two and eight, which did not hold a moment ago"),
        (why(ChoiceReason.EASIER), "too few were right lately; this one is likely to go well"),
        (
            replace(why(ChoiceReason.EASIER), is_likely=False),
            "too few were right lately; of those left, the likeliest to go well",
        ),
        (why(ChoiceReason.TELLING), "its answer tells most about what a mistake could be"),
        (why(ChoiceReason.TELLING, mistakes=("one-short",)), "its answer shows whether ending one short comes again"),
        (
            why(ChoiceReason.TELLING, mistakes=("one-short", "gap-used-twice")),
            "its answer tells ending one short from using the gap to the ten twice",
        ),
    ],
)
def test_a_reason_in_words(given: WhyChosen, sentence: str) -> None:
    assert why_said(given) == f"Thirty-eight add five: {sentence}."


def test_every_skill_has_words() -> None:
    numbers = {Skill.BOND: (2,), Skill.PARTITION: (8, 3), Skill.FACT: (5, 8), Skill.IN_DECADE: (5, 8, 3)}
    said = [item_said(Item(skill, numbers.get(skill, ()))) for skill in Skill]
    assert all(said)
    assert item_said(Item(Skill.PARTITION, (8, 3))) == "eight split into three and five"


def test_a_finding_with_the_answers_for_it_and_against_it() -> None:
    answers = [answer(Sum(47, 8), 54, id="a"), answer(Sum(29, 6), 34, id="b"), answer(OARS, 43, id="c")]
    finding = Finding("one-short", 0.9, (RowId("a"), RowId("b")), (RowId("c"),))
    assert finding_said(finding, {row.id: row for row in answers}) == (
        "Could be ending one short: two of the last three sums that could show it agree. "
        "The start itself was counted as the first step.",
        "For it: 47 add 8 answered 54, 29 add 6 answered 34.",
        "Against it: 38 add 5 answered 43.",
        "To say next, for example: Tap the table and say 29. Now the next word goes with the first finger, "
        "until 6 are up.",
    )


def test_every_mistake_of_the_catalogue_can_be_told() -> None:
    answers = {RowId("a"): answer(Sum(47, 8), 54, id="a")}
    for pattern in CATALOGUE:
        lines = finding_said(Finding(pattern.name, 0.9, (RowId("a"),), ()), answers)
        assert lines[0].startswith(f"Could be {MISTAKE_WORDS[pattern.name]}: one of the last one ")
        assert pattern.name not in " ".join(lines) or "-" not in pattern.name
        assert lines[2] == "Against it: none."
        assert not any("{" in line for line in lines)


def test_every_mistake_has_words() -> None:
    """Whatever kind of sum it belongs to, and at a step as well: a report and the desk tell of all of them."""
    modules = [import_module(f"{mistakes.__name__}.{one.name}") for one in iter_modules(mistakes.__path__)]
    tables = [one for module in modules for one in vars(module).values() if isinstance(one, tuple)]
    names = {one.name for table in tables for one in table if isinstance(one, Pattern | PartMistake)}
    assert len(names) > 50 and names - {*MISTAKE_WORDS} == set()
    assert len({*MISTAKE_WORDS.values()}) == len(MISTAKE_WORDS), "each has its own"


def test_where_nothing_shows_it_says_so() -> None:
    told = nothing_shows([evidence(OARS, 43), evidence(Sum(47, 8), 54)])
    assert told == "Nothing shows: no mistake comes again. First answers without help: 2, right: 1."
