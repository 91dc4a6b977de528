"""A pupil's own words learnt beside a practice, kept in their file, and dropped at once where they may not be used."""

from datetime import date
from pathlib import Path

import pytest

from saythesum.app.session.learning.beside_practice import Heard, LearningBeside
from saythesum.app.session.learning.own_words_learning import OwnWordsLearning
from saythesum.app.setup.words_kept import WordsKept
from saythesum.core.meanings import Awaiting, Number
from saythesum.core.records.rows import Row
from saythesum.hearing.embedded.own_words.own_words import OwnWords
from saythesum.hearing.embedded.own_words.words_file import keep_own_words, none_yet, read_own_words
from saythesum.hearing.embedded.recogniser import NeuralRecogniser
from saythesum.hearing.recording import spoken_part
from saythesum.ports import Hearing
from saythesum.wording.numbers import words
from tests.app.session.learning.things import UNSURE, answer, ask, heard, marked_right
from tests.by_sound import recorded
from tests.hearing.embedded.own_words.made import own_words, saying
from tests.tools.listening.conditions import raised

TODAY = date(2031, 5, 6)
BEFORE = own_words({3: 2, 7: 2})


class Practice:
    """Its learner is told of all in this thread."""

    def __init__(self, folder: Path, before: OwnWords | None = None) -> None:
        self.file = folder / "rk-7.words"
        self.is_consented = True
        self.told: list[str] = []
        if before:
            keep_own_words(self.file, before)
        kept = WordsKept(self.file, lambda: self.is_consented, self.told.append)
        self.learning = OwnWordsLearning(before or none_yet(1.0), kept, TODAY)
        self.engine = NeuralRecogniser(own_words=before)

    def wait(self) -> None:
        """The pupil is silent."""

    def comes(self, *things: Heard | Row) -> None:
        for thing in things:
            self.learning.learn(thing, self.engine, self)

    @property
    def in_file(self) -> OwnWords:
        return read_own_words(self.file, self.engine.vocal_tract_factor, self.told.append)

    @property
    def in_use(self) -> OwnWords | None:
        return self.engine.own_words.own if self.engine.own_words else None


def test_what_was_typed_in_the_end_is_learnt_and_used_at_once(tmp_path: Path) -> None:
    practice = Practice(tmp_path)
    practice.comes(ask(), heard(saying(5), UNSURE), heard(saying(5, 1)), answer(5))
    assert practice.in_use == practice.in_file == practice.learning.learnt
    assert practice.in_file.counts == {5: 2}
    assert {take.on for take in practice.in_file.takes} == {TODAY}


def test_it_is_added_to_what_was_kept_before(tmp_path: Path) -> None:
    practice = Practice(tmp_path, BEFORE)
    practice.comes(ask(), heard(saying(7, 8), UNSURE), answer(7))
    assert practice.in_file.takes[:4] == BEFORE.takes
    assert practice.in_file.counts == {3: 2, 7: 3}


def test_a_mark_that_is_taken_back_leaves_nothing_behind(tmp_path: Path) -> None:
    practice = Practice(tmp_path, BEFORE)
    said = heard(saying(5), UNSURE)
    given = answer(9, said, right=5)
    practice.comes(ask(), said, given, marked_right(given))
    assert practice.in_file.counts == {3: 2, 5: 1, 7: 2}
    practice.comes(marked_right(given, taken_back=True))
    assert practice.in_use == practice.in_file == BEFORE


def test_a_take_that_is_odd_is_not_kept(tmp_path: Path) -> None:
    """A cough, a brother, or another number than the one that was typed."""
    practice = Practice(tmp_path, BEFORE)
    practice.comes(ask(), heard(saying(50), UNSURE), heard(saying(3, 9), UNSURE), answer(7))
    assert practice.in_file == practice.learning.learnt == BEFORE


def test_consent_withdrawn_in_the_middle_means_plain_listening_from_the_next_answer_on(tmp_path: Path) -> None:
    practice = Practice(tmp_path, BEFORE)
    practice.is_consented = False
    practice.comes(ask())
    assert practice.in_use is None
    practice.comes(heard(saying(5), UNSURE), answer(5))
    practice.is_consented = True
    practice.comes(ask(), heard(saying(5), UNSURE), answer(5))
    assert practice.in_use is None
    assert practice.learning.learnt.counts == {}
    assert practice.in_file == BEFORE


@pytest.mark.parametrize("before", [BEFORE, None])
def test_a_file_that_is_erased_in_the_middle_does_not_come_back(before: OwnWords | None, tmp_path: Path) -> None:
    practice = Practice(tmp_path, before)
    practice.comes(ask(), heard(saying(5), UNSURE), answer(5))
    practice.file.unlink()
    practice.comes(ask(), heard(saying(7, 8), UNSURE), answer(7), heard(saying(3, 8), UNSURE), answer(3))
    practice.learning.close()
    assert practice.in_use is None
    assert not practice.file.exists()


def test_another_vocal_tract_factor_begins_anew(tmp_path: Path) -> None:
    practice = Practice(tmp_path, BEFORE)
    practice.comes(ask(), heard(saying(7, 8), UNSURE))
    practice.engine.vocal_tract_factor = 1.2
    practice.comes(answer(7), ask(), heard(saying(7, 8), UNSURE, factor=1.2), answer(7))
    assert (practice.in_file.factor, practice.in_file.counts) == (1.2, {7: 1})


def test_a_file_that_cannot_be_written_is_told_of_once(tmp_path: Path) -> None:
    practice = Practice(tmp_path)
    practice.learning = OwnWordsLearning(
        none_yet(1.0), WordsKept(Path("/proc/rk-7.words"), lambda: True, practice.told.append), TODAY
    )
    practice.comes(ask(), heard(saying(5), UNSURE), answer(5), ask(), heard(saying(7), UNSURE), answer(7))
    (told,) = practice.told
    assert "cannot be written" in told and "today is forgotten" in told
    assert practice.in_use is not None and practice.in_use.counts == {5: 1, 7: 1}


def test_beside_a_practice_it_learns_from_the_sound_itself(tmp_path: Path) -> None:
    """A made voice that is raised: what is heard of it afterwards gains, and as soon as they are off it does not."""
    practice = Practice(tmp_path)
    learning = LearningBeside([practice.learning])
    for number in (7, 11):
        learning.kept(ask())
        hears(practice.engine, number, 1.3)
        learning.heard(heard(None, UNSURE).event, practice.engine)
        learning.kept(answer(number))
    learning.close()
    assert practice.in_file.counts == {7: 1, 11: 1}
    own = practice.engine.own_words
    with_them = hears(practice.engine, 11, 1.35)
    practice.engine.own_words = None
    without = hears(practice.engine, 11, 1.35)
    assert own is not None and own.of(without) == with_them
    assert score(with_them, 11) > score(without, 11) + 1


def hears(engine: NeuralRecogniser, number: int, raised_by: float) -> Hearing:
    """Still open afterwards, as the ear has it."""
    engine.open(Awaiting.NUMBER)
    engine.feed(spoken_part(raised(recorded(words(number)), raised_by)))
    return engine.so_far()


def score(hearing: Hearing, number: int) -> float:
    return {entry.meaning: entry.log_probability for entry in hearing.ranked}[Number(number)]
