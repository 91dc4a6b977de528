"""The search against the sum over all spellings, worked out one by one, in a made-up model of a few pieces."""

import math
from collections.abc import Sequence

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from saythesum.core.meanings import Number
from saythesum.hearing.embedded.beam_search import read_last, searched, searched_between
from saythesum.hearing.embedded.moonshine import Decoded, Utterance
from saythesum.hearing.embedded.tokenizer import END_ID, START_ID
from saythesum.hearing.embedded.trie import MeaningOrRival, Node

PIECES = 9
Scores = list[list[float]]


class MadeUp(Utterance):
    """What comes next depends on the last piece alone; the pieces so far are what is kept."""

    def __init__(self, scores: Scores) -> None:
        self.scores = np.array(scores, dtype=np.float32)
        self.rows_of_each_step: list[int] = []

    def after(self, ids: Sequence[int]) -> Decoded:
        return self._decoded([ids[-1] if ids else START_ID])

    def next(self, before: Decoded, rows: list[int], ids: list[int]) -> Decoded:
        assert all(row < len(before.logits) for row in rows)
        return self._decoded(ids)

    def _decoded(self, last: list[int]) -> Decoded:
        self.rows_of_each_step.append(len(last))
        logits = self.scores[last]
        return Decoded(logits, np.log(np.exp(logits).sum(axis=1)), ())

    def log_probability(self, ids: Sequence[int], before: int, then: int) -> float:
        total = 0.0
        for earlier, later in zip([before, *ids], [*ids, then], strict=True):
            row = self.scores[earlier]
            total += float(row[later] - np.log(np.exp(row).sum()))
        return total


SPELLINGS: dict[tuple[int, ...], MeaningOrRival] = {
    (3,): Number(1),
    (3, 4): Number(2),
    (5, 4): Number(2),
    (5, 6, 7): Number(3),
    (8,): None,
}


def tree() -> Node:
    root = Node()
    for ids, meaning in SPELLINGS.items():
        node = root
        for number in ids:
            node = node.below.setdefault(number, Node())
        node.spells, node.meaning = True, meaning
    return root


def one_by_one(model: MadeUp, before: int = START_ID, then: int = END_ID) -> dict[MeaningOrRival, float]:
    sums: dict[MeaningOrRival, float] = {}
    for ids, meaning in SPELLINGS.items():
        sums[meaning] = sums.get(meaning, 0.0) + math.exp(model.log_probability(ids, before, then))
    return {meaning: math.log(total) for meaning, total in sums.items()}


@st.composite
def gentle_scores(draw: st.DrawFn) -> Scores:
    """No piece so unlikely that the search drops a spelling."""
    score = st.floats(0.0, 0.5, width=32)
    return [[draw(score) for _ in range(PIECES)] for _ in range(PIECES)]


@given(gentle_scores())
def test_a_meaning_has_the_sum_of_its_spellings(scores: Scores) -> None:
    model = MadeUp(scores)
    found = searched(model, tree(), longest_free=4).meanings
    assert found == pytest.approx(one_by_one(model), abs=1e-4)


@given(gentle_scores(), st.sampled_from([3, 5, 8]))
def test_after_other_pieces_the_search_goes_on_from_them(scores: Scores, last: int) -> None:
    model = MadeUp(scores)
    assert searched_between(model, tree(), [4, last]) == pytest.approx(one_by_one(model, last), abs=1e-4)


@given(gentle_scores())
def test_ahead_of_another_piece_a_spelling_ends_in_that_piece(scores: Scores) -> None:
    model = MadeUp(scores)
    assert searched_between(model, tree(), [4], then=6) == pytest.approx(one_by_one(model, 4, then=6), abs=1e-4)


@given(gentle_scores())
def test_the_free_writing_takes_the_likeliest_piece_each_time(scores: Scores) -> None:
    model = MadeUp(scores)
    free = searched(model, tree(), longest_free=4).free
    expected: list[int] = []
    last = START_ID
    while (likeliest := int(model.scores[last].argmax())) != END_ID and len(expected) < 4:
        expected.append(likeliest)
        last = likeliest
    assert free.ids == expected
    assert free.cut_off == (int(model.scores[last].argmax()) != END_ID)


def test_a_beam_far_below_the_best_is_dropped() -> None:
    scores = np.zeros((PIECES, PIECES))
    scores[START_ID, 3] = 9.0
    found = searched(MadeUp(scores.tolist()), tree(), longest_free=4).meanings
    assert set(found) == {Number(1), Number(2)}


def test_nothing_finished_is_an_empty_result() -> None:
    assert searched(MadeUp(np.zeros((PIECES, PIECES)).tolist()), Node(), longest_free=2).meanings == {}


def test_the_last_spelling_is_read_and_the_longest_of_those_that_end_there() -> None:
    assert read_last(tree(), [4, 5, 4]) == (1, 3)
    assert read_last(tree(), [3, 4]) == (0, 2)
    assert read_last(tree(), [3, 6, 6]) == (0, 1)
    assert read_last(tree(), [6]) is None
    assert read_last(tree(), []) is None
