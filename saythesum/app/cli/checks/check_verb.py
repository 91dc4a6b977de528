"""Looks at this machine and says in plain words what works, what does not and what to do."""

import argparse
import os
from collections.abc import Callable

from saythesum.app.cli.checks.check_records import mend_records, records_can_be_read
from saythesum.app.cli.checks.check_sound import loudspeaker_works, microphone_works
from saythesum.app.cli.checks.check_words import check_words, own_words_now
from saythesum.app.cli.plain_parser import Verbs
from saythesum.app.models.trial import KNOWN_NUMBER, KNOWN_PHRASE
from saythesum.app.rehearsal.recorded_phrases import pupil_phrase
from saythesum.app.setup.clock import RealClock
from saythesum.app.setup.folders import Places, has_display, own_places
from saythesum.app.setup.privacy import left_by_telemetry, open_to_others
from saythesum.app.setup.pupil_settings import settings_of, vocal_tract_sentence
from saythesum.app.setup.settings_file import own_settings
from saythesum.app.terminal.console import show
from saythesum.core.meanings import Awaiting
from saythesum.errors import ListeningError, SayTheSumError
from saythesum.hearing.embedded.moonshine import ENCODER_NAME, model_folder
from saythesum.hearing.embedded.recogniser import NeuralRecogniser
from saythesum.hearing.embedded.second_opinion import second_opinion
from saythesum.hearing.engines import recogniser
from saythesum.hearing.recording import heard_in
from saythesum.office.keeping import due, due_said, kept_elsewhere_said
from saythesum.ports import Recogniser
from saythesum.screen.accessibility.support import braille_support, screen_reader_support
from saythesum.settings import Settings
from saythesum.sound.resample import for_listening
from saythesum.speaking.voice import ToolVoice
from saythesum.store.pupils import pupil_code


def add_verb(verbs: Verbs) -> None:
    verb = verbs.add_parser(
        "check",
        help="say what works on this machine and what to do",
        description="Look at settings, voice, loudspeaker, microphone, listening, window and records, and say what "
        "works, what does not and what to do.",
        epilog="Example: saythesum check --words --pupil rk-7",
    )
    verb.add_argument("--pupil", metavar="CODE", help="with this pupil's own settings")
    verb.add_argument(
        "--words", action="store_true", help="a game of number words by ear: which are heard surely, and what helps"
    )
    verb.add_argument(
        "--mend", action="store_true", help="damaged records: make new ones of all that can be read, and keep the old"
    )
    verb.set_defaults(run=_check)


def _check(options: argparse.Namespace) -> None:
    if options.mend:
        mend_records()
    elif options.words:
        check_words(options.pupil)
    else:
        check(options.pupil)


def check(pupil: str | None = None) -> None:
    """A line for each thing. One that does not work gets a sentence with what to do, and the rest is still checked."""
    own = own_places()
    code = pupil_code(pupil) if pupil else None
    settings = _settings(own, code)
    for name, look in _LOOKS:
        try:
            found = look(own, settings)
        except SayTheSumError as error:
            found = f"not working. {error}"
        show(f"{name}: {found}")
    if left := left_by_telemetry():
        show(f"Left behind: {left}")
    if code:
        show(f"Pupil: {vocal_tract_sentence(code, settings.listening)}")
        for sentence in own_words_now(code, own, RealClock().now().astimezone().date()):
            show(sentence)


def _settings(own: Places, code: str | None) -> Settings:
    """Shows which files they come from, and what is wrong in them."""
    problems: list[str] = []
    if code:
        settings = settings_of(code, own, report=problems.append)
    else:
        settings = own_settings(own.settings_file, report=problems.append)
    files = [own.settings_file, *([own.pupil_file(code)] if code else [])]
    there = " and ".join(str(file) for file in files if os.path.exists(file))
    show(f"Settings: those in {there}." if there else f"Settings: none yet; they will be in {own.settings_file}.")
    for problem in problems:
        show(problem)
    return settings


def _voice(own: Places, settings: Settings) -> str:
    voice = ToolVoice(settings.speech, own.cache)
    try:
        sound = voice.render("Thirty-eight add five.")
        notice = voice.notice
    finally:
        voice.close()
    return " ".join(filter(None, [f"works; it takes {sound.duration_ms / 1000:.1f} seconds to ask a sum.", notice]))


def _listening(own: Places, settings: Settings) -> str:
    engine = recogniser(settings.listening.engine, own.models)
    known = pupil_phrase(KNOWN_PHRASE)
    if known is None:
        raise SayTheSumError("A phrase that comes with the program is missing; install saythesum again.")
    _, judged = heard_in(for_listening(known), Awaiting.NUMBER, engine)
    if getattr(judged.heard, "value", None) != KNOWN_NUMBER:
        return f"the engine {engine.name} runs, but did not understand a known recording. Use the keys today."
    heard = f"works; the engine {engine.name} understood a known recording."
    return " ".join(filter(None, [heard, _without_second_opinion(engine)]))


def _without_second_opinion(engine: Recogniser) -> str | None:
    if not isinstance(engine, NeuralRecogniser) or engine.second_opinion:
        return None
    try:
        second_opinion(model_folder() / ENCODER_NAME)
    except ListeningError as error:
        return f"It listens without its second opinion, so it asks again more often. {error}"
    return None


def _window(own: Places, settings: Settings) -> str:
    if not has_display():
        return "there is no screen here; practise by voice, or by keys in a terminal."
    from saythesum.screen.look import Look
    from saythesum.screen.window import Window

    window = Window(Look(colours=settings.window.colours), RealClock().since_start_ms)
    notice = window.notice
    window.close()
    return " ".join(filter(None, ["can be opened.", notice]))


def _screen_reader(own: Places, settings: Settings) -> str:
    return screen_reader_support()


def _braille(own: Places, settings: Settings) -> str:
    return braille_support()


def _other_people(own: Places, settings: Settings) -> str:
    return open_to_others(own) or "cannot look into what is kept here."


def _where_kept(own: Places, settings: Settings) -> str:
    return kept_elsewhere_said(own.data) or f"on this computer alone, in {own.data}."


def _how_long(own: Places, settings: Settings) -> str:
    found = due(own, RealClock().now().astimezone().date())
    return " ".join(map(due_said, found)) or "nobody's records are due to go within a month."


_LOOKS: tuple[tuple[str, Callable[[Places, Settings], str]], ...] = (
    ("Voice", _voice),
    ("Loudspeaker", loudspeaker_works),
    ("Microphone", microphone_works),
    ("Listening", _listening),
    ("Window", _window),
    ("Screen reader", _screen_reader),
    ("Braille line", _braille),
    ("Other people", _other_people),
    ("Records", records_can_be_read),
    ("Kept", _where_kept),
    ("Kept until", _how_long),
)
