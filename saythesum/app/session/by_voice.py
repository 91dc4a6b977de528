"""Practising on real devices: by voice where there is a microphone, and by keys always."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass, replace
from threading import Thread
from typing import TextIO

from saythesum.app.session.beside.adults_voice import AdultsVoice
from saythesum.app.session.by_keys import TypedLine
from saythesum.app.session.first_start import FirstStart
from saythesum.app.session.inbox import Happened, Inbox, take_stops_back
from saythesum.app.session.learning.beside_practice import LearningBeside
from saythesum.app.session.learning.in_practice import learning_of, own_words_of
from saythesum.app.session.loop import Live
from saythesum.app.session.no_start import say_last, say_why_not
from saythesum.app.session.practice import Setup, Wish, practice, setup_for
from saythesum.app.session.speech.found_devices import Devices, ear_kind, found_devices
from saythesum.app.session.speech.listener import LiveListener
from saythesum.app.session.speech.mouth import Mouth, silent_cues
from saythesum.app.session.speech.speech_queue import SpeechQueue
from saythesum.app.session.switching.finding import switch_finder
from saythesum.app.session.ways_left import ScreenLost, WaysLeft
from saythesum.app.setup.folders import has_display
from saythesum.app.setup.grid_files import grid_in
from saythesum.app.setup.pupil_settings import keep_look, keep_switch
from saythesum.app.setup.settings_file import change_settings
from saythesum.app.terminal.console import tell, write
from saythesum.app.terminal.keys import keys_from
from saythesum.core.meanings import Awaiting
from saythesum.desk.beside import start_beside
from saythesum.dialogue.turns.effects import Ear, Listen, OpenWhen, Purpose
from saythesum.dialogue.turns.events import InputEnded, ListenId
from saythesum.errors import DeviceError, ScreenError, StoreError
from saythesum.hearing.embedded.own_words.own_words import OwnWords
from saythesum.hearing.engines import recogniser
from saythesum.keyboard.key_actions import LOOKS
from saythesum.keyboard.keymap import FINDING_A_SWITCH, Keymap, keymap_of
from saythesum.keyboard.keys import NoWindow, Pressed
from saythesum.ports import Clock, Over, Screen
from saythesum.scene.start_scene import start_scene
from saythesum.screen.accessibility.braille_display import BrailleDisplay
from saythesum.settings import Settings, Switch
from saythesum.sound.loudspeaker import PortAudioLoudspeaker
from saythesum.sound.microphone import PortAudioMicrophone
from saythesum.speaking.voice import ToolVoice
from saythesum.store.pupils import pupil_code
from saythesum.wording.speak.said_keys import key_said
from saythesum.wording.speak.said_start import DESK_OPENS, PRESS_A_KEY, PRINT, SPEED, StartQuestion


@dataclass(frozen=True, slots=True)
class LiveWish:
    by: str | None
    """voice, keys or switch; None: as the settings say."""
    ear: str | None
    asks_first: bool
    """The start without a verb: silent until somebody is there, and five questions the first time."""
    found: Mapping[str, str] | None = None
    """The switches that were found just now, also where they could not be kept."""


class NothingToUseError(DeviceError):
    """Neither a loudspeaker nor a screen."""


def practise_live(wish: Wish, live_wish: LiveWish, stdin: TextIO | None) -> None:
    """Raises NothingToUseError where a pupil would neither hear nor see anything, or could not answer; DeviceError
    for a device that was asked for by name and is not there.
    """
    if wish.grid_file:  # report the caller's own mistake before anything about devices
        grid_in(wish.grid_file)
    setup = setup_for(wish.pupil, wish.today)
    if live_wish.found:
        setup = replace(
            setup, settings=replace(setup.settings, switch=_switch_of(setup.settings.switch, live_wish.found))
        )
    is_by_switch = _way(setup, live_wish) == "switch"
    with ExitStack() as stack:
        room = stack.enter_context(_room(setup, wish, live_wish, stdin))
        if is_by_switch and setup.settings.switch.first is None:
            found = switch_finder(room.inbox, room.queue, setup.settings.switch.debounce_ms).find()
            if found is None:
                return
            keep_switch(pupil_code(wish.pupil), setup.places, found)
            live_wish = replace(live_wish, by="switch", found=found)
        elif live_wish.asks_first:
            first = _first_start(room)
            room.queue.note(PRESS_A_KEY, cuts=False)
            room.inbox.on_screen(lambda screen: screen.show(start_scene(PRESS_A_KEY)))
            if not first.wait_for_someone():
                return
            room.queue.hush()
            room.queue.shut_ear()
            if not (setup.settings.start.asked or is_by_switch):
                changes = first.ask(
                    has_window=room.inbox.screen is not None, has_microphone=room.devices.microphone is not None
                )
                if first.wants_desk:
                    start_beside(["desk"], setup.places.one_folder)
                    say_last(DESK_OPENS, room.queue, room.inbox)
                if changes is None:
                    return
                change_settings(setup.places.settings_file, changes)
        if _is_ready(room.setup.settings, live_wish, is_by_switch=is_by_switch):
            _practise_in(room, wish)
            return
    # With the new settings everything is opened anew: another voice, another ear, other devices.
    practise_live(wish, replace(live_wish, asks_first=False), stdin)


def _switch_of(switch: Switch, found: Mapping[str, str]) -> Switch:
    return replace(switch, first=found["first"], second=found.get("second"))


def _way(setup: Setup, live_wish: LiveWish) -> str:
    return live_wish.by or setup.settings.start.by


def _is_ready(settings: Settings, live_wish: LiveWish, *, is_by_switch: bool) -> bool:
    """What was asked before the practice changed nothing that it is opened with."""
    if is_by_switch and settings.switch.first is None:
        return False
    return not live_wish.asks_first or settings.start.asked or is_by_switch


@dataclass(frozen=True, slots=True)
class Room:
    """All that a live practice is held with."""

    setup: Setup
    devices: Devices
    ear: Ear
    inbox: Inbox
    line: TypedLine
    mouth: Mouth
    learning: LearningBeside | None
    queue: SpeechQueue


@contextmanager
def _room(setup: Setup, wish: Wish, live_wish: LiveWish, stdin: TextIO | None) -> Iterator[Room]:
    """Window, devices and terminal, opened; closed in the opposite order."""
    by = _way(setup, live_wish)
    keymap = _keymap(setup.settings, is_by_switch=by == "switch")
    devices = found_devices(setup.settings, by_voice=by == "voice")
    if live_wish.by == "voice" and devices.microphone is None:
        raise DeviceError("There is no microphone to practise by voice with: plug one in, or use --by keys.")
    inbox, line = Inbox(setup.clock.since_start_ms), TypedLine(write)
    has_terminal = stdin is not None and stdin.isatty()
    with ExitStack() as stack:
        inbox.screen = _window(setup, pupil_code(wish.pupil), keymap, stack)
        if inbox.screen is None and (devices.loudspeaker is None or not (has_terminal or live_wish.by)):
            raise NothingToUseError("There is no screen, and no terminal with sound to practise at.")
        own_words = own_words_of(pupil_code(wish.pupil), setup)
        learning = learning_of(pupil_code(wish.pupil), own_words, setup, stack)
        ear = Ear.SWITCH if by == "switch" else ear_kind(setup.settings, devices, live_wish.ear)
        mouth, listener = stack.enter_context(_sounding(devices, setup, inbox, learning, own_words))
        if stdin is not None and has_terminal:
            presses = stack.enter_context(keys_from(stdin, setup.clock.since_start_ms, keymap))
            Thread(target=_pass_on, args=(presses, inbox, setup.clock), name="keys", daemon=True).start()
        hears_by_itself = listener is not None and ear is Ear.OPEN
        inbox.ways = WaysLeft(has_terminal, has_window=inbox.screen is not None, hears_by_itself=hears_by_itself)
        sound = setup.settings.sound
        queue = SpeechQueue(
            clock=setup.clock,
            mouth=mouth,
            listener=listener,
            post=inbox.post,
            write=line.show,
            one_by_one=ear is Ear.OPEN and not devices.has_headset and devices.loudspeaker is not None,
            has_cues=sound.cues,
            silent_cues=silent_cues(setup.settings.cues),
            echo_ms=0 if devices.has_headset else sound.echo_ms,
        )
        yield Room(setup, devices, ear, inbox, line, mouth, learning, queue)


def _practise_in(room: Room, wish: Wish) -> None:
    settings = room.setup.settings
    open_when = OpenWhen.ALWAYS if room.devices.has_headset else OpenWhen.BETWEEN_SENTENCES
    with ExitStack() as stack:
        try:
            runner = stack.enter_context(practice(wish, room.setup, room.ear, room.queue, open_when=open_when))
        except StoreError as error:
            say_why_not(error, room.queue, room.inbox)
            raise
        if room.learning:
            runner.on_kept = room.learning.kept

        def silence(is_silent: bool) -> None:
            """Kept for the next time, too."""
            room.mouth.is_silent = is_silent
            keep_look(pupil_code(wish.pupil), room.setup.places, {"screen_reader": is_silent})

        tell_adult = _adults_voice(room.setup, pupil_code(wish.pupil), stack)
        live = Live(
            runner,
            room.queue,
            room.inbox,
            room.line,
            speaks_keys=not settings.window.screen_reader,
            switch=settings.switch if room.ear is Ear.SWITCH else None,
            silence=silence,
            tell_adult=tell_adult,
        )
        live.run(room.devices.missing)


def _adults_voice(setup: Setup, pupil: str, stack: ExitStack) -> Callable[[tuple[str, ...]], None]:
    """Says nothing unless the settings name a loudspeaker for it."""
    if setup.settings.sound.adult_loudspeaker is None:
        return lambda _: None
    try:
        voice = AdultsVoice(pupil, setup.places.one_folder, tell)
    except OSError as error:
        tell(f"The adult's list is not said aloud ({error.strerror}).")
        return lambda _: None
    stack.callback(voice.close)
    return voice.tell


def _first_start(room: Room) -> FirstStart:
    """An open ear for any word, where the ear opens by itself; the voice and the window for the questions."""
    if room.ear is Ear.OPEN:
        room.queue.listen(Listen(ListenId(0), Awaiting.COMMAND, Ear.OPEN, Purpose.ANYBODY))

    def try_out(question: StartQuestion, value: int) -> None:
        if question is SPEED:
            room.mouth.speak_at(value)
        else:
            room.inbox.on_screen(lambda screen: screen.resize_to(value))

    def aside(thing: Happened) -> None:
        match thing:
            case Over():
                room.queue.sound_over(thing)
            case ScreenLost(sentence=sentence):
                room.queue.note(sentence, cuts=False)
            case Pressed(key=key) if key in LOOKS:
                looks = room.inbox.on_screen(lambda screen: screen.change(LOOKS[key]))
                room.queue.echo(key_said(looks or NoWindow()), cuts=True)
            case _:
                pass

    def say(text: str, question: StartQuestion | None, at: int) -> None:
        room.queue.note(text, cuts=True)
        asked = question.words if question else text
        choice = question.choices[at] if question else ""
        shown = start_scene(asked, choice, is_print_tried=question is PRINT)
        room.inbox.on_screen(lambda screen: screen.show(shown))

    return FirstStart(room.inbox, say, try_out, aside)


def _keymap(settings: Settings, *, is_by_switch: bool) -> Keymap:
    if is_by_switch and settings.switch.first is None:
        return FINDING_A_SWITCH
    return keymap_of(settings, is_by_switch=is_by_switch)


def _braille(setup: Setup, keymap: Keymap) -> BrailleDisplay | None:
    if setup.settings.braille.own_line == "never":
        return None
    return BrailleDisplay(setup.clock.since_start_ms, keymap)


def _window(setup: Setup, pupil: str, keymap: Keymap, stack: ExitStack) -> Screen | None:
    """None without a display. Its look at the end is kept for the next time."""
    own = setup.settings.window
    if not has_display():
        return None
    try:
        from saythesum.screen.look import Look
        from saythesum.screen.window import Window

        window = Window(
            Look(own.view, own.size, own.colours, has_pad=own.number_pad == "always"),
            setup.clock.since_start_ms,
            keymap=keymap,
            has_pad_once_touched=own.number_pad == "once touched",
            braille=_braille(setup, keymap),
            is_braille_always=setup.settings.braille.own_line == "always",
        )
    except (ScreenError, ImportError) as error:
        take_stops_back()
        tell(str(error))
        return None

    def close() -> None:
        now = {"view": window.look.view, "size": window.look.step, "colours": window.look.colours}
        changed = {name: value for name, value in now.items() if value != getattr(own, name)}
        if changed:
            keep_look(pupil, setup.places, changed)
        window.close()

    stack.callback(close)
    return window


@contextmanager
def _sounding(
    devices: Devices, setup: Setup, inbox: Inbox, learning: LearningBeside | None, own_words: OwnWords | None
) -> Iterator[tuple[Mouth, LiveListener | None]]:
    """Mouth and ear, closed in the opposite order."""
    sound, clock = devices.portaudio, setup.clock
    with ExitStack() as stack:
        loudspeaker = microphone = None
        if sound and devices.loudspeaker:
            loudspeaker = PortAudioLoudspeaker(
                sound, devices.loudspeaker, clock=clock, post=inbox.post, only_this=devices.has_headset
            )
            stack.callback(loudspeaker.close)
        voice = ToolVoice(setup.settings.speech, setup.places.cache)
        is_silent, volume = setup.settings.window.screen_reader, setup.settings.speech.volume_percent / 100
        mouth = Mouth(voice, loudspeaker, clock=clock, post=inbox.post, is_silent=is_silent, volume=volume)
        stack.callback(mouth.close)
        if not (sound and devices.microphone):
            yield mouth, None
            return
        microphone = PortAudioMicrophone(
            sound, devices.microphone, clock=clock, post=inbox.post, only_this=devices.has_headset
        )
        stack.callback(microphone.close)
        listening, models = setup.settings.listening, setup.places.models
        listener = LiveListener(
            microphone,
            lambda: recogniser(listening.engine, models, listening.vocal_tract_factor, own_words),
            post=inbox.post,
            notice=learning.heard if learning else None,
        )
        stack.callback(listener.close)
        yield mouth, listener


def _pass_on(presses: Iterable[Pressed], inbox: Inbox, clock: Clock) -> None:
    """The terminal's keys, until its input ends."""
    for press in presses:
        inbox.post(press)
    inbox.post(InputEnded(clock.since_start_ms()))
