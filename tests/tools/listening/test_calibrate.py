"""The fit finds what made the outcomes, and words are mixed up by the engine only where several voices show it."""

from pathlib import Path

import numpy as np
import pytest

from saythesum.core.meanings import Number
from saythesum.hearing.confidence.calibration import Weights, read
from saythesum.hearing.confidence.certainty import margins_within
from saythesum.ports import Hearing, Hypothesis
from tests.tools.listening.calibrate import Row, as_toml, fitted, mixed_up, rows_of_voices
from tests.tools.listening.hearings import Answer

TRUE_WEIGHTS = (1.5, -0.3, 0.6, -0.4, -0.7, 0.2)


def row(dice: np.random.Generator) -> Row:
    below_free, above_next, unlikely = dice.uniform(0, 6), dice.uniform(-2, 6), dice.uniform(0, 8)
    margins = margins_within(below_free, above_next, -unlikely, doubt_nats=dice.uniform(-6, 6))
    odds = float(np.dot(TRUE_WEIGHTS, (1.0, *margins)))
    return Row(margins, is_right=bool(dice.random() < 1 / (1 + np.exp(-odds))), is_number=True)


def answer(voice: str, said: int | None, *ranked: tuple[int, float]) -> Answer:
    hypotheses = tuple(Hypothesis(Number(value), score) for value, score in ranked)
    return Answer("a set", voice, "a clip", said, "clean", Hearing(hypotheses, "", 0.0), ms=0.0)


def test_the_fit_finds_the_weights_that_made_the_outcomes() -> None:
    dice = np.random.default_rng(5)
    assert fitted([row(dice) for _ in range(20_000)]) == pytest.approx(TRUE_WEIGHTS, abs=0.12)


def test_what_is_no_number_is_dealt_out_among_the_voices_and_counts_as_its_share() -> None:
    said = [answer(voice, 5, (5, -1.0)) for voice in ("one", "other") for _ in range(3)]
    rows = rows_of_voices([*said, *(answer("nobody", None, (5, -1.0)) for _ in range(4))])
    assert {name: len(of) for name, of in rows.items()} == {"one": 5, "other": 5}
    few, many = (fitted([*rows["one"], *[rows["one"][-1]] * more]) for more in (0, 50))
    assert few == pytest.approx(many, abs=0.05)


@pytest.mark.parametrize(("voices", "found"), [(("one", "other"), False), (("one", "other", "third"), True)])
def test_words_are_mixed_up_where_three_voices_show_it(voices: tuple[str, ...], found: bool) -> None:
    answers = [answer(voice, 45, (45, -1.0), (49, -2.5)) for voice in voices for _ in range(20)]
    assert (frozenset({"five", "nine"}) in mixed_up(answers)) is found


def test_words_far_behind_are_not_mixed_up_nor_numbers_that_differ_in_two() -> None:
    voices = ("one", "other", "third")
    far = [answer(voice, 45, (45, -1.0), (49, -3.5)) for voice in voices for _ in range(20)]
    two = [answer(voice, 45, (45, -1.0), (39, -1.5)) for voice in voices for _ in range(20)]
    assert mixed_up([*far, *two]) == {}


def test_what_is_written_is_read(tmp_path: Path) -> None:
    path = tmp_path / "listening.toml"
    alone, with_second = Weights(1.5, -0.3, 0.6, -0.4), Weights(*TRUE_WEIGHTS)
    text = as_toml("# kept\n", alone, {frozenset({"five", "nine"}): (12, 300)}, 900, 6)
    text = as_toml(text, with_second, None, 700, 6)
    path.write_text(text, encoding="utf-8")
    found = read(path)
    assert (found.alone, found.with_second) == (alone, with_second)
    assert found.mixed_up == {frozenset({"five", "nine"})}
    assert text.startswith("# kept\n")
