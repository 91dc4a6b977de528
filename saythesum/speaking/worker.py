"""The program of the one child process that owns pyttsx3: it renders phrases to files and never plays one.

It stands alone: only the standard library and pyttsx3, so that it is ready at once and its parent can run it
by its path. Lines of JSON go in and come out, one answer for each request:

    in   {"voice": "gmw/en", "rate_wpm": 140, "pitch": 50}
    out  {"ready": "espeak ...", "voice": "gmw/en", "cannot": []}          or  {"missing": "library"}
    in   {"number": 1, "phrase": "Thirty-eight add five.", "file": "/a/folder/1.wav"}
    out  {"number": 1}                                            or  {"number": 1, "failed": "a reason"}

What pyttsx3 2.99 needs on espeak, each found by trying it: one phrase a loop (of several only the last is
written); settings once, before the first phrase; a loop once more when it ended twice or with nothing written
(about one in a hundred of the first phrases, and more after a change of settings: the loop's own end stops an
engine that is still busy); an unknown voice shows only as an "error" event; and it prints on stdout, which is
why the answers have a stream of their own.
"""

import json
import os
import signal
import sys
from difflib import get_close_matches
from importlib.metadata import version
from typing import Any, BinaryIO

LOOPS = 6
EMPTY_WAV_BYTES = 44
PLAIN_ENGLISH = ("gmw/en", "en-gb", "english")
"""Ids, languages or beginnings of names that are taken before other English voices, best first."""


class Speaker:
    """One pyttsx3 engine with its settings."""

    def __init__(self, wanted: dict[str, Any]) -> None:
        import pyttsx3

        self._errors: list[str] = []
        self._endings: list[bool] = []
        """Of the loop that runs: whether the engine says that the phrase is complete. One True is right."""
        self._engine = pyttsx3.init()
        self._engine.connect("error", lambda exception, **_: self._errors.append(str(exception)))
        self._engine.connect("finished-utterance", lambda completed, **_: self._endings.append(completed))
        self._engine.setProperty("voice", wanted["voice"])
        self._engine.runAndWait()
        self.voice: str = wanted["voice"]
        if self._errors or self._engine.getProperty("voice") is None:
            self.voice = nearest_voice(wanted["voice"], self._engine.getProperty("voices"))
            self._engine.setProperty("voice", self.voice)
        self._engine.setProperty("rate", wanted["rate_wpm"])
        # The parent brings every phrase to one loudness, so the engine speaks at its full volume.
        self._engine.setProperty("volume", 1.0)
        self.cannot = [] if self._engine.getProperty("pitch") is not None else ["pitch"]
        if not self.cannot:
            self._engine.setProperty("pitch", wanted["pitch"])

    @property
    def name(self) -> str:
        """Everything about the engine that may change how a phrase sounds."""
        return " ".join((str(self._engine), _espeak_version(), "pyttsx3", version("pyttsx3"))).replace("  ", " ")

    def render(self, phrase: str, file: str) -> str | None:
        """Write the phrase to `file`; the reason when that did not work."""
        try:
            open(file, "wb").close()  # a file that cannot be written makes the engine's loop endless
        except OSError as error:
            return str(error)
        self._errors.clear()
        for _ in range(LOOPS):
            self._endings.clear()
            self._engine.save_to_file(phrase, file)
            self._engine.runAndWait()
            if self._errors:
                return self._errors[0]
            if self._endings == [True] and os.path.getsize(file) > EMPTY_WAV_BYTES:
                return None
        return f"the engine cut the phrase short {LOOPS} times"


def nearest_voice(wanted: str, voices: list[Any]) -> str:
    """The English voice whose id is most like `wanted`; failing that plain English, any English, or any voice."""
    if not voices:
        raise RuntimeError("the speech library has no voices")
    english = [voice for voice in voices if _is_english(voice)]
    alike = get_close_matches(wanted.lower(), [voice.id for voice in english], n=1, cutoff=0.7)
    if alike:
        return str(alike[0])
    for plain in PLAIN_ENGLISH:
        for voice in english:
            if plain in (voice.id, *_languages(voice)) or voice.name.lower().startswith(plain):
                return str(voice.id)
    return str((english or voices)[0].id)


def _is_english(voice: Any) -> bool:
    return any(language.startswith("en") for language in _languages(voice)) or "/en" in voice.id


def _languages(voice: Any) -> list[str]:
    """Language codes as "en-gb"; engines write "en_GB", or put a length byte before the code."""
    return [str(code).strip("\x00\x05\x02").lower().replace("_", "-") for code in voice.languages or ()]


def _espeak_version() -> str:
    """ "" on engines other than espeak."""
    module = sys.modules.get("pyttsx3.drivers._espeak")
    return str(module.Info(None), "ascii") if module else ""


def answer_all(requests: BinaryIO, answers: BinaryIO) -> None:
    """Until the parent closes its end, or is gone."""

    def answer(**fields: object) -> None:
        answers.write(json.dumps(fields).encode() + b"\n")
        answers.flush()

    first = requests.readline()
    if not first:
        return
    try:
        speaker = Speaker(json.loads(first))
    except ImportError as error:
        return answer(missing="package", reason=str(error))
    except (RuntimeError, OSError) as error:
        return answer(missing="library", reason=str(error))
    answer(ready=speaker.name, voice=speaker.voice, cannot=speaker.cannot)
    for line in requests:
        request = json.loads(line)
        failed = speaker.render(request["phrase"], request["file"])
        answer(number=request["number"], **({"failed": failed} if failed else {}))


def main() -> None:
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # Ctrl+C in the terminal is for the parent to answer
    answers = os.fdopen(os.dup(sys.stdout.fileno()), "wb")
    os.dup2(sys.stderr.fileno(), sys.stdout.fileno())
    answer_all(sys.stdin.buffer, answers)


if __name__ == "__main__":
    main()
