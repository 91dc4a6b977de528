"""What the listening side makes of recordings: one line or one JSON object a file, in the order given."""

import json
from collections.abc import Sequence
from pathlib import Path
from time import perf_counter
from typing import Any

from saythesum.app.log import heard_fields
from saythesum.app.opening import own_places
from saythesum.app.telling import show, tell
from saythesum.core.rows import By
from saythesum.dialogue.heard import Awaiting
from saythesum.errors import SoundFileError
from saythesum.hearing.engines import recogniser
from saythesum.hearing.recording import heard_in
from saythesum.ports import Recogniser
from saythesum.sound.shape import for_listening
from saythesum.sound.wav import read_wav


def hear(files: Sequence[Path], awaiting: Awaiting, *, engine: str, as_json: bool) -> int:
    """A file that cannot be read is told, and the others are heard all the same; then the exit code is 2."""
    listener = recogniser(engine, own_places().models)
    exit_code = 0
    for file in files:
        try:
            heard = _heard(file, awaiting, listener)
        except SoundFileError as error:
            tell(str(error))
            exit_code = error.exit_code
        else:
            show(json.dumps(heard, ensure_ascii=False) if as_json else _line(heard))
    return exit_code


def _heard(file: Path, awaiting: Awaiting, listener: Recogniser) -> dict[str, Any]:
    samples = for_listening(read_wav(file))
    began = perf_counter()
    hearing, judged = heard_in(samples, awaiting, listener)
    ms = round((perf_counter() - began) * 1000)
    fields = heard_fields(judged.heard, hearing.free_text, By.VOICE)
    return {"kind": "heard", "file": str(file), **fields, "ms": ms}


def _line(heard: dict[str, Any]) -> str:
    meaning = next((str(heard[kind]) for kind in ("number", "choice", "command") if heard[kind] is not None), "nothing")
    certainty = "" if heard["certainty"] is None else f", certainty {heard['certainty']:.2f}"
    return f"{heard['file']}: {meaning}, {heard['verdict']}{certainty}. Written freely: {heard['text'] or 'nothing'}"
