"""Loaded by Orca: everything that it says goes to the file $SAID at once, a JSON line each.

Orca's own names, of Debian 12's release and of later ones.
"""

import json
import os
from pathlib import Path
from typing import Any

from orca import speech

SAID = Path(os.environ["SAID"])


def note(text: object) -> None:
    with SAID.open("a", encoding="utf-8") as file:
        print(json.dumps({"speech": text if isinstance(text, str) else repr(text)}), file=file, flush=True)


def noted(speak: Any) -> Any:
    def speak_and_note(text: Any, *others: Any, **more: Any) -> Any:
        note(text)
        return speak(text, *others, **more)

    return speak_and_note


of_character = "speakCharacter" if hasattr(speech, "speakCharacter") else "speak_character"
for name in ("_speak", of_character):
    setattr(speech, name, noted(getattr(speech, name)))
