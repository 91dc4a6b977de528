"""The verb `check --words`: the word game with this pupil and these devices, and what it showed."""

from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass
from datetime import date

from saythesum.app.setup.clock import RealClock
from saythesum.app.setup.folders import Places, own_places
from saythesum.app.setup.pupil_settings import (
    has_consent,
    keep_no,
    keep_vocal_tract,
    settings_of,
    vocal_tract_of,
    vocal_tract_sentence,
)
from saythesum.app.setup.settings_file import own_settings
from saythesum.app.setup.words_kept import WordsKept
from saythesum.app.terminal.console import show, tell
from saythesum.app.word_game.ask_aloud import asking_aloud
from saythesum.app.word_game.found import Found, found_in, heard_anew, learnt_from
from saythesum.app.word_game.game import Over, WordGame, begun, begun_keeping
from saythesum.app.word_game.playing import KEYS, is_too_noisy, played
from saythesum.app.word_game.which_words import Sureness, in_good_order, least_sure, sureness, wanted_of_each
from saythesum.errors import StoreError
from saythesum.hearing.embedded.own_words.own_words import OwnWords
from saythesum.hearing.embedded.own_words.words_file import read_own_words
from saythesum.hearing.embedded.recogniser import NeuralRecogniser
from saythesum.hearing.engines import recogniser
from saythesum.office.own_words import erase_own_words, own_words_of, own_words_said
from saythesum.office.pupils import known_code
from saythesum.ports import Recogniser
from saythesum.settings import OwnWordsConsent, Settings
from saythesum.store.reading import open_to_read
from saythesum.wording.for_adults.said_word_game import (
    ANOTHER_ENGINE,
    DIFFERENT_SOUND,
    MICROPHONE_WORDS,
    ONE_MOMENT,
    Microphone,
    own_words_advised,
    own_words_kept,
    said_no,
    still_to_say,
    words_said,
)

PRACTICES_LOOKED_AT = 12
"""So many of the last ones say which words are heard least surely."""


@dataclass(frozen=True, slots=True)
class _Checked:
    own: Places
    settings: Settings
    engine: Recogniser
    code: str | None
    """Without one it is a check of the machine, and nothing at all is kept."""
    today: date
    kept: WordsKept | None
    """None where own words may not be kept."""


def check_words(pupil: str | None = None) -> None:
    """Raises DeviceError without a loudspeaker or a microphone."""
    own, today = own_places(), RealClock().now().astimezone().date()
    code = known_code(own, pupil) if pupil is not None else None
    settings = settings_of(code, own) if code else own_settings(own.settings_file)
    engine = recogniser(settings.listening.engine, own.models, settings.listening.vocal_tract_factor)
    checked = _Checked(own, settings, engine, code, today, _kept(code, own, engine, today) if code else None)
    game = _begun(checked)
    with asking_aloud(own, settings, frozenset(KEYS)) as aloud:
        if is_too_noisy(aloud):
            return
        game = played(game, aloud, engine, checked.kept.keep if checked.kept else _nothing)
    if game.over is Over.SAID_NO:
        _keep_no(checked, game)
        return
    show(ONE_MOMENT)
    game = _with_factor(checked, game)
    _tell(game, found_in(game))


def _keep_no(checked: _Checked, game: WordGame) -> None:
    """Nothing of today stays; what other days have is not read any more, and an adult may erase it."""
    assert checked.code and checked.kept and game.today
    if game.today.earlier.takes:
        checked.kept.keep(game.today.earlier)
    else:
        erase_own_words(checked.own, checked.code)
    keep_no(checked.code, checked.own, checked.today)
    show(said_no(checked.code))


def _nothing(_: OwnWords) -> bool:
    return True


def _kept(code: str, own: Places, engine: Recogniser, today: date) -> WordsKept | None:
    """The adult is told how it stands, where own words were ever thought of."""
    for sentence in own_words_now(code, own, today):
        show(sentence)
    if not has_consent(code, own, today):
        return None
    if not isinstance(engine, NeuralRecogniser):
        show(ANOTHER_ENGINE)
        return None
    return WordsKept(own.words_file(code), lambda: has_consent(code, own, today), tell)


def own_words_now(code: str, own: Places, today: date) -> Iterator[str]:
    """Nothing of a pupil for whom nobody thought of them."""
    if own.pupil_file(code).exists():
        card = own_words_of(own, code)
        if card.is_kept or card.consent != OwnWordsConsent():
            yield from own_words_said(card, today)


def _begun(checked: _Checked) -> WordGame:
    earlier = None
    if checked.kept and checked.code:
        factor = checked.settings.listening.vocal_tract_factor
        earlier = read_own_words(checked.own.words_file(checked.code), factor, tell)
    counts = earlier.counts if earlier else {}
    twelve = least_sure(_sureness(checked), counts)
    if earlier is None:
        return begun(in_good_order(twelve))
    wanted = wanted_of_each(twelve, counts)
    behind = [number for number in twelve if counts.get(number, 0) < wanted]
    return begun_keeping(in_good_order(behind), wanted, earlier, checked.today)


def _sureness(checked: _Checked) -> Sureness:
    rows: list[object] = []
    with suppress(StoreError):  # no records yet, or such as `check` tells of
        reader = open_to_read(checked.own.records_file)
        try:
            if code := checked.code:
                for id in reader.practices(code)[-PRACTICES_LOOKED_AT:]:
                    rows += reader.practice(id).rows_of(code)
        finally:
            reader.close()
    return sureness(rows)


def _with_factor(checked: _Checked, game: WordGame) -> WordGame:
    """Own words of other days were kept at the factor in use, which then stays."""
    listening, engine, kept = checked.settings.listening, checked.engine, checked.kept
    if checked.code is None or not isinstance(engine, NeuralRecogniser):
        return game
    before = vocal_tract_of(listening)
    stays = not listening.learn_vocal_tract or not game.sayings or bool(game.today and game.today.earlier.takes)
    learnt = before if stays else learnt_from(game.sayings, engine, before)
    if learnt.factor != before.factor:
        game = heard_anew(game, engine, learnt.factor)
        if kept and game.today:
            kept.keep(game.today.sure)
    if learnt != before:
        keep_vocal_tract(checked.code, checked.own, learnt)
    show(vocal_tract_sentence(checked.code, settings_of(checked.code, checked.own).listening))
    return game


def _tell(game: WordGame, found: Found) -> None:
    for sentence in words_said(found.sure, found.with_own_words, found.mixed, found.unclear):
        show(sentence)
    if game.sayings:
        show(MICROPHONE_WORDS[found.microphone])
    if game.today:
        show(own_words_kept(len(game.today.sure_takes), len(game.today.sure.counts)))
        if game.today.is_new_sound:
            show(DIFFERENT_SOUND)
    elif found.microphone is Microphone.FINE and (
        advice := own_words_advised(len(found.by_keys), len(found.sure) + len(found.by_keys))
    ):
        show(advice)
    if game.today and game.to_say:
        show(still_to_say(game.to_say))
