"""Does a model hear a known sound? Tried in a child process, as a damaged model can crash the one that loads it.

python -m saythesum.app.models.trial FOLDER
"""

import json
import os
import subprocess
import sys
from pathlib import Path

import saythesum
from saythesum.errors import CallerError, ListeningError

DEADLINE_S = 120
"""A small model is loaded in 4 s; the largest, on a slow disk, may take a minute."""
KNOWN_PHRASE, KNOWN_NUMBER = "forty-seven", 47
"""One of the phrases that came with the program."""


def try_model(folder: Path) -> tuple[str, ...]:
    """Returns what the adult should know about the model, a sentence each; nothing where all is well.

    Raises CallerError where it is unusable.
    """
    package = Path(saythesum.__file__).parent.parent
    command = (sys.executable, "-P", "-m", "saythesum.app.models.trial", str(folder))
    try:
        done = subprocess.run(  # noqa: S603  our own program
            command,
            env={**os.environ, "PYTHONPATH": str(package)},
            stdin=subprocess.DEVNULL,
            capture_output=True,
            timeout=DEADLINE_S,
            check=True,
        )
        found = json.loads(done.stdout.splitlines()[-1])
    except subprocess.TimeoutExpired as failure:
        raise CallerError(f"It was tried for {DEADLINE_S} seconds without an end: it is too large here.") from failure
    except (OSError, subprocess.SubprocessError, ValueError, IndexError) as failure:
        raise CallerError("The listening engine broke off while it was tried: get it once more.") from failure
    if "refused" in found:
        raise CallerError(found["refused"])
    return tuple(found["notices"])


def _try_here(folder: Path) -> dict[str, object]:
    from saythesum.app.rehearsal.recorded_phrases import pupil_phrase
    from saythesum.core.meanings import Awaiting, Number
    from saythesum.hearing.recording import heard_in
    from saythesum.hearing.vosk.model import VoskModel
    from saythesum.hearing.vosk.recogniser import VoskRecogniser
    from saythesum.sound.resample import for_listening

    engine = VoskRecogniser(VoskModel(folder))
    if not engine.knows_any_number:
        return {"refused": "It knows none of the number words that are listened for: right would be one for English."}
    known = pupil_phrase(KNOWN_PHRASE)
    if known is None:
        return {"refused": "A phrase that comes with the program is missing: install saythesum again."}
    heard = heard_in(for_listening(known), Awaiting.NUMBER, engine)[1].heard
    if not (isinstance(heard, Number) and heard.value == KNOWN_NUMBER):
        return {"refused": "It did not understand a known sound: right would be another model for English."}
    return {"notices": engine.notices()}


def main() -> None:
    try:
        found = _try_here(Path(sys.argv[1]))
    except ListeningError as error:
        found = {"refused": str(error)}
    print(json.dumps(found), flush=True)  # noqa: T201  the parent reads it


if __name__ == "__main__":
    main()
