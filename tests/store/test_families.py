"""Copies of one practice, in any order and any number of times, come to the same lines."""

import json
from uuid import UUID

from hypothesis import given
from hypothesis import strategies as st

from saythesum.core.records.rows import row_id
from saythesum.store.beside.families import CopiedRow, Copy, copies, laid_out

ROOT = UUID("6f2a8c1e-94b7-4d0a-8a55-0f6f2b1c7d3e")


def row(place: int, choice: int, back: int) -> CopiedRow:
    """`choice` tells two computers apart; `back`: how far back is the row that it names."""
    because = row_id(ROOT, place - back) if 0 < back <= place else None
    at = f"2031-05-12T09:{30 + (place + choice) % 20}:00.000Z"
    return CopiedRow(at, place, "ask", json.dumps({"row": choice, "because": because}))


@st.composite
def some_copies(draw: st.DrawFn) -> list[Copy]:
    """They part at different places, and from each other, too."""
    made: list[Copy] = []
    for _ in range(draw(st.integers(1, 5))):
        before = draw(st.sampled_from(made)) if made else ()
        shared = before[: draw(st.integers(0, len(before)))]
        more = draw(st.lists(st.tuples(st.integers(0, 2), st.integers(0, 3)), max_size=5))
        made.append(shared + tuple(row(len(shared) + n, choice, back) for n, (choice, back) in enumerate(more)))
    return made


def without_beginnings(all_of_them: set[Copy]) -> set[Copy]:
    return {one for one in all_of_them if not any(other != one and other[: len(one)] == one for other in all_of_them)}


@given(some_copies(), st.randoms(use_true_random=False))
def test_any_order_and_twice_gives_the_same_lines_and_nothing_is_lost(some: list[Copy], dice: object) -> None:
    at_once = laid_out(ROOT, some)
    in_order = [*some, *some]
    dice.shuffle(in_order)  # type: ignore[attr-defined]
    lines = laid_out(ROOT, [()])
    for copy in in_order:
        lines = laid_out(ROOT, copies(ROOT, lines) | {copy})
    assert set(lines) == set(at_once)
    assert without_beginnings(copies(ROOT, lines)) == without_beginnings(set(some))


@given(some_copies())
def test_no_row_is_kept_twice(some: list[Copy]) -> None:
    rows = {copy[: place + 1] for copy in some for place in range(len(copy))}
    assert sum(len(line.rows) for line in laid_out(ROOT, some)) == len(rows)


def test_the_way_on_that_began_first_keeps_the_id() -> None:
    early, late = row(1, 0, 1), row(1, 1, 1)
    begun = row(0, 0, 0)
    main, fork = laid_out(ROOT, [(begun, late), (begun, early)])
    assert (main.id, main.rows) == (ROOT, (begun, early))
    assert (fork.parent, fork.serial) == (ROOT, 1)
    assert json.loads(fork.rows[0].fields)["because"] == row_id(ROOT, 0)
