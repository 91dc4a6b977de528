"""What the listening side makes of recordings: one line or one JSON object a file, in the order given."""

import argparse
import json
from collections.abc import Sequence
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from time import perf_counter
from typing import Any

from saythesum.app.cli.plain_parser import Verbs, cannot_be, one_of
from saythesum.app.session.log import heard_fields
from saythesum.app.setup.clock import RealClock
from saythesum.app.setup.folders import own_places
from saythesum.app.setup.pupil_settings import settings_of
from saythesum.app.terminal.console import show, tell
from saythesum.core.meanings import Awaiting
from saythesum.core.records.rows import By
from saythesum.errors import CallerError, SoundFileError
from saythesum.hearing.embedded.recogniser import NeuralRecogniser
from saythesum.hearing.engines import recogniser
from saythesum.hearing.recording import heard_in, spoken_part
from saythesum.hearing.vocal_tract.factor import FACTORS, FEWEST_ANSWERS, Evidence, VocalTract
from saythesum.ports import LISTENING_RATE_HZ, Clock, Recogniser, Samples
from saythesum.settings import Listening
from saythesum.settings.reading import limits_of
from saythesum.sound.wav import read_for_listening
from saythesum.store.pupils import pupil_code


def add_verb(verbs: Verbs) -> None:
    verb = verbs.add_parser(
        "hear",
        needs="WAV",
        help="say what is understood in recordings",
        description="Say what is understood in recordings, as a pupil's answer would be. Nothing is kept.",
        epilog="Example: saythesum hear answer.wav --listening-for number --json",
    )
    which = verb.add_argument_group("recordings")
    which.add_argument("files", metavar="WAV", type=Path, nargs="+", help="a WAV file with one answer in it")
    verb.add_argument("--engine", metavar="NAME", default="neural", help="the listening engine: neural or vosk")
    verb.add_argument(
        "--listening-for",
        metavar="KIND",
        type=_awaiting,
        default=Awaiting.NUMBER,
        help="what an answer is taken for: number, step, choice or command",
    )
    verb.add_argument("--json", action="store_true", help="one JSON object a file, for other programs")
    verb.add_argument("--pupil", metavar="CODE", help="a pupil's recordings, heard with what was learnt of them")
    verb.add_argument("--factor", metavar="F", type=_factor, help="lower what is heard by it: 1.2 to 1.5 for a child")
    verb.add_argument(
        "--learn-factor", action="store_true", help="recordings of one speaker: find the factor, hear them with it"
    )
    verb.set_defaults(run=_hear)


def _factor(text: str) -> float:
    try:
        factor = float(text)
    except ValueError as error:
        raise cannot_be(text, "it is a number, for example 1.2") from error
    try:
        limits_of(Listening, "vocal_tract_factor").taken(factor)
    except CallerError as right:
        raise cannot_be(text, f"it is {right}") from right
    return factor


def _awaiting(text: str) -> Awaiting:
    return Awaiting(one_of(tuple(Awaiting))(text))


@dataclass(frozen=True, slots=True)
class HearWish:
    files: Sequence[Path]
    awaiting: Awaiting
    engine: str = "neural"
    as_json: bool = False
    pupil: str | None = None
    """Whose factor the recordings are heard with."""
    factor: float | None = None
    learns_factor: bool = False
    """From all the recordings, which must then be of one speaker."""


def _hear(options: argparse.Namespace) -> int:
    lowered_by = {"--pupil": options.pupil, "--factor": options.factor, "--learn-factor": options.learn_factor}
    if len(given := [name for name, value in lowered_by.items() if value]) > 1:
        raise CallerError(f"{given[0]} and {given[1]} do not go together: leave one of them out.")
    wish = HearWish(
        options.files,
        options.listening_for,
        engine=options.engine,
        as_json=options.json,
        pupil=options.pupil,
        factor=options.factor,
        learns_factor=options.learn_factor,
    )
    return hear(wish)


def hear(wish: HearWish) -> int:
    """A file that cannot be read gets a sentence, and the others are still heard; the exit code is then 2."""
    clock = RealClock()
    listener = _listener(wish, clock)
    exit_code = 0
    for file in wish.files:
        try:
            heard = _heard(file, wish.awaiting, listener, clock)
        except SoundFileError as error:
            tell(str(error))
            exit_code = error.exit_code
        else:
            show(json.dumps(heard, ensure_ascii=False) if wish.as_json else _line(heard))
    return exit_code


class Progress:
    """A line on standard error every ten seconds, for a recording that takes so long."""

    EVERY_MS = 10_000

    def __init__(self, file: Path, samples: Samples, clock: Clock) -> None:
        self._file, self._seconds = file, len(samples) // LISTENING_RATE_HZ
        self._clock = clock
        self._next_ms = clock.since_start_ms() + self.EVERY_MS

    def passed(self, samples: int) -> None:
        if (now_ms := self._clock.since_start_ms()) >= self._next_ms:
            self._next_ms = now_ms + self.EVERY_MS
            tell(f"{self._file}: {samples // LISTENING_RATE_HZ} of {self._seconds} seconds listened to.")


def _listener(wish: HearWish, clock: Clock) -> Recogniser:
    own = own_places()
    if wish.engine != "neural" and (wish.factor or wish.learns_factor):
        raise CallerError("Only the embedded engine lowers what it hears: leave --engine out, or the factor.")
    factor = wish.factor or 1.0
    if wish.pupil:
        factor = settings_of(pupil_code(wish.pupil), own).listening.vocal_tract_factor
    listener = recogniser(wish.engine, own.models, factor)
    if wish.learns_factor and isinstance(listener, NeuralRecogniser):
        learnt = _learnt(wish, listener, clock)
        listener.vocal_tract_factor = learnt.factor
        show(_learnt_line(learnt, as_json=wish.as_json))
    return listener


def _learnt(wish: HearWish, engine: NeuralRecogniser, clock: Clock) -> VocalTract:
    """What is said in them is unknown, so every recording with speech in it counts."""
    evidence = Evidence()
    for file in wish.files:
        with suppress(SoundFileError):
            samples = read_for_listening(file)
            spoken = spoken_part(samples, Progress(file, samples, clock).passed)
            if len(spoken):
                evidence = evidence.with_answer(engine.log_probabilities(spoken, wish.awaiting, FACTORS))
    return VocalTract().after(evidence)


def _learnt_line(learnt: VocalTract, *, as_json: bool) -> str:
    if as_json:
        return json.dumps({"kind": "vocal-tract", "factor": learnt.factor, "answers": learnt.answers})
    if not learnt.answers:
        return f"Factor 1: nothing can be learnt from fewer than {FEWEST_ANSWERS} recordings in which somebody speaks."
    return f"Factor {learnt.factor:g}, learnt from {learnt.answers} recordings."


def _heard(file: Path, awaiting: Awaiting, listener: Recogniser, clock: Clock) -> dict[str, Any]:
    samples = read_for_listening(file)
    began = perf_counter()
    hearing, judged = heard_in(samples, awaiting, listener, Progress(file, samples, clock).passed)
    ms = round((perf_counter() - began) * 1000)
    fields = heard_fields(judged.heard, hearing.free_text, By.VOICE)
    return {"kind": "heard", "file": str(file), **fields, "ms": ms}


def _line(heard: dict[str, Any]) -> str:
    meaning = next((str(heard[kind]) for kind in ("number", "choice", "command") if heard[kind] is not None), "nothing")
    certainty = "" if heard["certainty"] is None else f", certainty {heard['certainty']:.2f}"
    return f"{heard['file']}: {meaning}, {heard['verdict']}{certainty}. Written freely: {heard['text'] or 'nothing'}"
