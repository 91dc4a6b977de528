"""The second opinion: what it knows, what it says of one recording, and what becomes of a file that is no good."""

import shutil
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest

from saythesum.core.meanings import Awaiting, Choice, Command, Given, Number
from saythesum.errors import ListeningError
from saythesum.hearing.embedded.moonshine import ENCODER_NAME, model_folder
from saythesum.hearing.embedded.recogniser import NeuralRecogniser, shipped_second_opinion
from saythesum.hearing.embedded.second_opinion import FILE_NAME, SecondOpinionModel, second_opinion
from saythesum.ports import Samples, SecondOpinion
from saythesum.settings.shipped_files import models_folder
from saythesum.wording.numbers import words
from tests.by_sound import recorded
from tests.tools.second_opinion.vocabulary import LONGER, MEANINGS

SHIPPED = models_folder() / FILE_NAME
ENCODER = model_folder() / ENCODER_NAME
MOST_BYTES = 5_000_000
NOT_LEARNT = {"patterns", "no-more-patterns"}
"""Commands that came after the weights were learnt: to the second opinion they are something else."""


@pytest.fixture(scope="module")
def model() -> SecondOpinionModel:
    return second_opinion(ENCODER)


def heard(sound: Samples, *, second: bool = True) -> NeuralRecogniser:
    engine = NeuralRecogniser()
    if not second:
        engine.second_opinion = None
    engine.open(Awaiting.NUMBER)
    engine.feed(sound)
    return engine


def test_it_is_small_and_its_file_says_how_it_was_made() -> None:
    assert SHIPPED.stat().st_size <= MOST_BYTES
    with np.load(SHIPPED) as held:
        assert set(held["meaning_names"]) == set(MEANINGS) - NOT_LEARNT
        about = str(held["about"])
    assert all(told in about for told in ("tests.tools.second_opinion", "seed", "steps", "licence"))


def test_what_it_knows_are_probabilities_of_all_that_can_be_meant(model: SecondOpinionModel) -> None:
    found = model.of(np.random.default_rng(0).standard_normal((60, 288)).astype(np.float32))
    total = np.exp([*found.log_probabilities.values(), found.of_others]).sum()
    assert total == pytest.approx(1.0, abs=1e-4)
    known = {None, Choice(True), Choice(False), *(Number(value) for value in range(200))}
    commands = {meaning for meaning in found.log_probabilities if isinstance(meaning, Given)}
    assert known | commands == set(found.log_probabilities)
    assert Given(Command.SKIP) in commands
    assert len(found.log_probabilities) == len(MEANINGS) - len([LONGER]) - len(NOT_LEARNT)


@pytest.mark.parametrize("frames", [1, 2, 7, 400])
def test_any_length_is_answered(model: SecondOpinionModel, frames: int) -> None:
    assert np.isfinite(model.scores(np.zeros((frames, 288), np.float32))).all()


def test_doubt_is_how_much_something_else_is_preferred() -> None:
    opinion = SecondOpinion({Number(5): -0.5, Number(9): -2.0, None: -3.0}, of_others=-9.0)
    assert opinion.doubt(Number(5)) == pytest.approx(-1.5)
    assert opinion.doubt(Number(9)) == pytest.approx(1.5)
    assert opinion.doubt(None) == pytest.approx(2.5)
    assert opinion.doubt(Number(704)) == pytest.approx(8.5)


@pytest.mark.parametrize("value", [4, 17, 42, 93])
def test_a_number_said_is_preferred_to_anything_else(value: int) -> None:
    hearing = heard(recorded(words(value))).close()
    assert hearing.second is not None
    assert hearing.second.doubt(Number(value)) < 0


def test_the_frames_of_the_first_view_are_handed_on(model: SecondOpinionModel) -> None:
    hearing = heard(recorded(words(42))).close()
    assert hearing.frames is not None
    assert hearing.frames.shape[1] == 288
    again = model.of(hearing.frames)
    assert hearing.second is not None
    assert again.of(Number(42)) == pytest.approx(hearing.second.of(Number(42)), abs=1e-4)


def test_without_it_listening_goes_on() -> None:
    hearing = heard(recorded(words(42)), second=False).close()
    assert hearing.second is None
    assert hearing.ranked[0].meaning == Number(42)


def cut_off(path: Path) -> None:
    path.write_bytes(SHIPPED.read_bytes()[:100_000])


def emptied(path: Path) -> None:
    path.write_bytes(b"")


def without_a_layer(path: Path) -> None:
    with np.load(SHIPPED) as held:
        np.savez(path, **{name: held[name] for name in held.files if name != "block1.gate.weight"})


def of_another_shape(path: Path) -> None:
    with np.load(SHIPPED) as held:
        np.savez(path, **{**{name: held[name] for name in held.files}, "start.weight": held["start.weight"][:7]})


def not_there(path: Path) -> None:
    assert not path.exists()


@pytest.mark.parametrize("spoil", [cut_off, emptied, without_a_layer, of_another_shape, not_there])
def test_a_file_that_is_no_good_is_told_in_one_sentence(spoil: Callable[[Path], None], tmp_path: Path) -> None:
    path = tmp_path / FILE_NAME
    spoil(path)
    with pytest.raises(ListeningError, match=rf"{FILE_NAME} is missing or damaged; right would be to install"):
        SecondOpinionModel(path, ENCODER)


def test_one_for_another_encoder_is_told(tmp_path: Path) -> None:
    other = tmp_path / ENCODER_NAME
    shutil.copy(ENCODER, other)
    with other.open("ab") as file:
        file.write(b"one more byte")
    with pytest.raises(ListeningError, match="belongs to another speech model"):
        SecondOpinionModel(SHIPPED, other)


def test_every_recogniser_shares_one() -> None:
    assert NeuralRecogniser().second_opinion is shipped_second_opinion() is not None
