"""A practice that does not begin says why, by ear and in the window: not everybody who starts it sees a terminal."""

from saythesum.app.session.inbox import Inbox
from saythesum.app.session.speech.speech_queue import SpeechQueue
from saythesum.dialogue.turns.events import InputEnded
from saythesum.errors import AnotherCopyError, StoreError
from saythesum.keyboard.keys import Pressed
from saythesum.ports import Over, Touched
from saythesum.scene.start_scene import start_scene
from saythesum.wording.speak.said_start import ANOTHER_COPY

WAIT_MS = 1_000


def say_why_not(error: StoreError, queue: SpeechQueue, inbox: Inbox) -> None:
    say_last(ANOTHER_COPY if isinstance(error, AnotherCopyError) else str(error), queue, inbox)


def say_last(sentence: str, queue: SpeechQueue, inbox: Inbox) -> None:
    """Returns once it has been said; a window stays until a key is pressed or it is closed."""
    inbox.on_screen(lambda screen: screen.show(start_scene(sentence)))
    queue.echo(sentence, cuts=True)
    is_said = False
    while not is_said or inbox.screen is not None:
        for thing in inbox.after(WAIT_MS):
            match thing:
                case Over():
                    queue.sound_over(thing)
                    is_said = True
                case Pressed() | Touched() | InputEnded():
                    return
                case _:
                    pass
