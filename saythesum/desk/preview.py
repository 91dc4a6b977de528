"""A voice to hear and a window to see, with settings that are not kept yet."""

import tempfile
from contextlib import closing
from pathlib import Path
from threading import Lock
from uuid import UUID

from saythesum.core.grids.grid import Grid
from saythesum.dialogue.step import opened, step
from saythesum.dialogue.turns.effects import Ear
from saythesum.dialogue.turns.events import Began
from saythesum.dialogue.tutor.plan import activity, planned
from saythesum.dialogue.tutor.progress import folded
from saythesum.keyboard.answer_entry import Typing
from saythesum.scene.scene import scene
from saythesum.settings import Settings, Speech, Window

PHRASE = "Thirty-eight add five. How many of the five get you to forty?"
WIDTH, HEIGHT = 1366, 768
"""A small laptop's screen."""
_GRID = Grid("Seats on the ferry", (38, 57), (3, 5, 8))
_NOBODY = UUID(int=0)
_one_drawing = Lock()
"""pygame's lettering is for one thread at a time."""


def spoken(speech: Speech, cache: Path) -> bytes:
    """A WAV file. Raises VoiceError."""
    from saythesum.speaking.pcm import write_pcm
    from saythesum.speaking.voice import ToolVoice

    with closing(ToolVoice(speech, cache)) as voice, tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "phrase.wav"
        write_pcm(file, voice.render(PHRASE))
        return file.read_bytes()


def drawn(window: Window) -> bytes:
    """A PNG of the pupil's window at its first sum."""
    from saythesum.screen.colours import COLOUR_SETS
    from saythesum.screen.drawing import as_png
    from saythesum.screen.layout import lay_out
    from saythesum.screen.lettering import lettering_without_window
    from saythesum.screen.look import Look

    plan = planned(_NOBODY, [activity(_GRID, 0)], Settings(window=window))
    state, _ = step(opened(plan, folded(()), Ear.KEYS), Began(0))
    look = Look(window.view, window.size, window.colours)
    with _one_drawing:
        lettering = lettering_without_window()
        layout = lay_out(scene(state, Typing(), None), WIDTH, HEIGHT, look, lettering)
        return as_png(layout, COLOUR_SETS[look.colours], lettering)
