"""Where the order is chosen, the next cell is what this pupil needs: from the kept rows alone."""

from dataclasses import replace
from datetime import UTC, datetime
from random import Random

from saythesum.core.grids.grid import Cell, Grid, Order
from saythesum.core.records.rows import Answer, Ask, Row
from saythesum.core.sums import Part
from saythesum.dialogue.turns.effects import Ear, Keep
from saythesum.dialogue.tutor.plan import Plan, activity, planned
from saythesum.dialogue.tutor.progress import cell_of
from saythesum.learner.replay import Kept, learned
from saythesum.learner.selection import ChoiceReason, WhyChosen
from saythesum.settings import Choosing, Settings
from tests.talk import PRACTICE, Talk

GRID = Grid("Rows of oars", (24, 38, 57), (1, 3, 5), Order.CHOSEN)
BEGAN_AT = datetime(2031, 5, 12, 9, 30, tzinfo=UTC)


def chosen_plan(rows_before: list[Row] | None = None, *, right_percent: tuple[int, int] | None = None) -> Plan:
    before = learned([Kept(row, BEGAN_AT, GRID) for row in rows_before or []])
    settings = Settings(choosing=Choosing(right_percent))
    return planned(PRACTICE, [activity(GRID, 0)], settings, began_at=BEGAN_AT, before=before)


def practised(plan: Plan, *, misses: frozenset[Cell] = frozenset(), killed: bool = False) -> Talk:
    talk = Talk(plan, Ear.TEXT)
    talk.begin()
    while not talk.finished:
        ask = talk.state.progress.ask
        assert ask is not None
        right = plan.exercise_at(cell_of(ask)).answer_to(ask.part)
        is_missed = ask.part is Part.WHOLE and cell_of(ask) in misses
        talk.type(str(right + 10 if is_missed else right))
        if killed:
            talk = talk.again()
            talk.begin()
    return talk


def asked(talk: Talk) -> list[Cell]:
    wholes = [row for row in talk.rows if isinstance(row, Ask) and row.part is Part.WHOLE]
    return [cell for at, cell in enumerate(map(cell_of, wholes)) if at == 0 or cell_of(wholes[at - 1]) != cell]


def test_every_cell_is_asked_once() -> None:
    cells = asked(practised(chosen_plan()))
    assert sorted(cells) == sorted(chosen_plan().activities[0].cells)


def test_the_order_depends_on_how_it_goes() -> None:
    smooth = asked(practised(chosen_plan()))
    missed = asked(practised(chosen_plan(), misses=frozenset({smooth[0], smooth[1]})))
    assert smooth[0] == missed[0]
    assert smooth != missed


def test_what_was_known_before_changes_where_it_begins() -> None:
    first = practised(chosen_plan(), misses=frozenset(chosen_plan().activities[0].cells[:4]))
    again = practised(chosen_plan(first.rows))
    assert asked(again) != asked(practised(chosen_plan()))


def reasons(plan: Plan) -> list[ChoiceReason]:
    talk = Talk(plan, Ear.TEXT)
    effects = talk.begin()
    while not talk.finished:
        ask = talk.state.progress.ask
        assert ask is not None
        right = plan.exercise_at(cell_of(ask)).answer_to(ask.part)
        effects += talk.type(str(right + 10 if len(talk.answers) < 1 else right))
    return [effect.why.reason for effect in effects if isinstance(effect, Keep) and isinstance(effect.why, WhyChosen)]


def test_the_band_of_the_settings_decides_what_follows_a_miss() -> None:
    """After one miss the share is 0: below any band but one that begins at 0."""
    low, high = reasons(chosen_plan(right_percent=(0, 10))), reasons(chosen_plan(right_percent=(90, 100)))
    assert ChoiceReason.EASIER not in low
    assert high[1] is ChoiceReason.EASIER
    assert low[-1] is high[-1] is ChoiceReason.LAST
    assert len(low) == len(high) == len(GRID.starts) * len(GRID.amounts)


def test_without_a_band_it_is_the_usual_one() -> None:
    assert reasons(chosen_plan()) == reasons(chosen_plan(right_percent=(70, 85)))


def test_killed_after_every_answer_it_asks_the_same() -> None:
    misses = frozenset(Random(3).sample(chosen_plan().activities[0].cells, 3))
    whole = practised(chosen_plan(), misses=misses)
    killed = practised(chosen_plan(), misses=misses, killed=True)
    assert asked(killed) == asked(whole)
    given = [replace(row, heard=None, took_ms=None) for row in whole.rows if isinstance(row, Answer)]
    assert [replace(row, heard=None, took_ms=None) for row in killed.rows if isinstance(row, Answer)] == given
