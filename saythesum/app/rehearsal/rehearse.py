"""A rehearsal: a whole practice with a made-up pupil, by ear, written to a folder to be listened to and read."""

import json
from collections.abc import Iterator, Sequence
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass
from pathlib import Path
from random import Random
from uuid import UUID

from saythesum import __version__
from saythesum.app.rehearsal.kinds import RIGHT, PupilKind
from saythesum.app.rehearsal.recorded_phrases import pupil_phrase
from saythesum.app.rehearsal.sample_time import Room, SampleTime
from saythesum.app.rehearsal.scratch import scratch_folder
from saythesum.app.rehearsal.simulated_pupil import Makeup
from saythesum.app.rehearsal.speaking_pupil import MadeUpPupil
from saythesum.app.session.log import Log, LogFile
from saythesum.app.session.runner import Runner
from saythesum.app.setup.folders import own_places
from saythesum.app.setup.grid_files import grid_in
from saythesum.app.setup.settings_file import own_settings
from saythesum.app.terminal.console import show
from saythesum.core.grids.file_format import text_of
from saythesum.core.grids.starters import DEFAULT
from saythesum.core.records.times import utc_text
from saythesum.dialogue.step import opened
from saythesum.dialogue.turns import effects
from saythesum.dialogue.tutor.plan import NO_DAY, activity, planned
from saythesum.dialogue.tutor.progress import Progress
from saythesum.errors import CallerError
from saythesum.hearing.ear import Ear
from saythesum.hearing.engines import recogniser
from saythesum.ports import LISTENING_RATE_HZ, Samples, StoredPractice
from saythesum.settings import Settings
from saythesum.sound.resample import for_listening
from saythesum.sound.wav import write_wav
from saythesum.speaking.voice import ToolVoice
from saythesum.store.pupils import FIRST_PUPIL
from saythesum.store.records import SqliteStore

LEAK = 10 ** (-10 / 20)
"""Of the tool's voice, in the microphone of a laptop: 10 dB below the pupil's."""
LONGEST_LOG_LINE = 100_000
SOUND_NAME, LOG_NAME, TRANSCRIPT_NAME = "rehearsal.wav", "rehearsal.jsonl", "transcript.txt"


@dataclass(frozen=True, slots=True)
class RehearsalWish:
    folder: Path
    kind: PupilKind = RIGHT
    grid_file: Path | None = None
    seed: int = 0
    engine: str | None = None


def rehearse(wish: RehearsalWish) -> None:
    """Writes the sound (the tool on the left, the pupil on the right), the log and the transcript."""
    pupil = MadeUpPupil(wish.kind, wish.seed, NO_DAY.date())
    own = own_places()
    settings = own_settings(own.settings_file)
    with ExitStack() as stack:
        scratch = stack.enter_context(scratch_folder())
        voice = ToolVoice(settings.speech, own.cache, scratch)
        stack.callback(voice.close)
        engine = recogniser(wish.engine or settings.listening.engine, own.models)
        world = SampleTime(
            voice,
            lambda post: Ear(engine, post),
            pupil_says=pupil.reply,
            pupil_voice=lambda text: _pupil_sound(text, voice),
            room=_room_of(settings),
        )
        world.connect(stack.enter_context(_runner(wish, settings, world, scratch)))
        world.run()
    _write(wish.folder, world, (_about(wish.kind, pupil.mind.makeup), *world.lines))


def _room_of(settings: Settings) -> Room:
    if settings.sound.headset:
        return Room(has_cues=settings.sound.cues)
    return Room(has_headset=False, leak=LEAK, echo_ms=settings.sound.echo_ms, has_cues=settings.sound.cues)


def _about(kind: PupilKind, makeup: Makeup) -> str:
    names = " and ".join(mistake.name for mistake in makeup.mistakes)
    return f"The made-up pupil {kind.about}{names and f': {names}'}."


@contextmanager
def _runner(wish: RehearsalWish, settings: Settings, world: SampleTime, scratch: Path) -> Iterator[Runner]:
    """Its records are temporary: a rehearsal is nobody's practice."""
    grid = grid_in(wish.grid_file) if wish.grid_file else DEFAULT.grid
    _make(wish.folder)
    id = UUID(int=Random(wish.seed).getrandbits(128), version=4)  # noqa: S311  the same seed, the same ids
    began_at = utc_text(world.clock.now())
    stored = StoredPractice(id, FIRST_PUPIL, began_at, text_of(grid), wish.seed, settings, __version__)
    with ExitStack() as stack:
        store = SqliteStore(scratch / "records" / "records.sqlite")
        stack.callback(store.close)
        store.begin(stored)
        log_file = LogFile(wish.folder / LOG_NAME)
        stack.callback(log_file.close)
        when = effects.OpenWhen.ALWAYS if settings.sound.headset else effects.OpenWhen.BETWEEN_SENTENCES
        state = opened(planned(id, [activity(grid, wish.seed)], settings), Progress(), effects.Ear.OPEN, open_when=when)
        log = Log(log_file.write, id, clock=world.clock)
        yield Runner(state, store=store, clock=world.clock, outlets=world.queue, log=log)


def _pupil_sound(text: str, voice: ToolVoice) -> Samples:
    """The recorded voice, or the tool's own where the phrase was never recorded."""
    recorded = pupil_phrase(text)
    return for_listening(recorded if recorded is not None else voice.render(text))


def _make(folder: Path) -> None:
    """Makes the folder and its files, still empty, so that one that cannot be written is reported before anything is
    rehearsed.

    An older rehearsal gives way to the new one; files that no rehearsal wrote do not. Raises CallerError.
    """
    names = (SOUND_NAME, LOG_NAME, TRANSCRIPT_NAME)
    try:
        folder.mkdir(parents=True, exist_ok=True)
        filled = [name for name in names if (folder / name).is_file() and (folder / name).stat().st_size]
        if filled and not _is_log(folder / LOG_NAME):
            raise CallerError(f"{folder / filled[0]} is not from a rehearsal: name another folder, or a new one.")
        for name in names:
            (folder / name).write_bytes(b"")
    except OSError as error:
        raise CallerError(
            f"{error.filename} cannot be written ({error.strerror}): name a folder that can be, or a new one."
        ) from error


def _is_log(file: Path) -> bool:
    """By its first line."""
    try:
        with file.open(encoding="utf-8") as lines:
            line = json.loads(lines.readline(LONGEST_LOG_LINE))
    except (OSError, ValueError, RecursionError):
        return False
    return isinstance(line, dict) and {"v", "practice", "kind"} <= line.keys()


def _write(folder: Path, world: SampleTime, transcript: Sequence[str]) -> None:
    end = max(world.tool.end, world.pupil.end)
    tracks = [world.tool.between(0, end), world.pupil.between(0, end)]
    try:
        write_wav(folder / SOUND_NAME, tracks, LISTENING_RATE_HZ)
        (folder / TRANSCRIPT_NAME).write_text("\n".join(transcript) + "\n", encoding="utf-8")
    except OSError as error:
        raise CallerError(f"The rehearsal cannot be written to {folder} ({error.strerror}).") from error
    for line in transcript:
        show(line)
    show(f"Written to {folder}: {SOUND_NAME}, {LOG_NAME}, {TRANSCRIPT_NAME}.")
