"""Loaded by Orca: everything that it says goes to the file $SAID at once, a JSON line each, and nowhere else.

It gets no speech server: speech-dispatcher hangs on a machine without sound, and Orca with it.
Orca's own names, of Debian 12's release and of later ones.
"""

import json
import os
from pathlib import Path

from orca import speech

SAID = Path(os.environ["SAID"])


def note(text: object, *_others: object, **_more: object) -> None:
    with SAID.open("a", encoding="utf-8") as file:
        print(json.dumps({"speech": text if isinstance(text, str) else repr(text)}), file=file, flush=True)


of_character = "speakCharacter" if hasattr(speech, "speakCharacter") else "speak_character"
for name in ("_speak", of_character):
    setattr(speech, name, note)
speech.init = lambda *_others, **_more: None
