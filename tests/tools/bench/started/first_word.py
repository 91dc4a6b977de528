"""A practice as it is opened live, up to the sound of its first sentence; only the loudspeaker is left out."""

import sys

from saythesum.app.session.by_text import TextOutlets
from saythesum.app.session.practice import Wish, practice, setup_for
from saythesum.dialogue.turns.effects import Ear
from saythesum.dialogue.turns.events import Began, UtteranceId
from saythesum.speaking.voice import ToolVoice


class FirstWord(TextOutlets):
    def __init__(self, voice: ToolVoice) -> None:
        self._voice = voice

    def say(self, id: UtteranceId, text: str) -> None:
        self._voice.render(text)
        print(text, flush=True)
        sys.stdin.read()
        self._voice.close()
        sys.exit()


setup = setup_for("pupil-1")
outlets = FirstWord(ToolVoice(setup.settings.speech, setup.places.cache))
with practice(Wish("pupil-1"), setup, Ear.OPEN, outlets) as runner:
    runner.post(Began(runner.now_ms))
