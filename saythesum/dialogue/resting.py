"""The topics in which nothing is asked: a pause, the adult's turn, the ending."""

from saythesum.dialogue import messages as say
from saythesum.dialogue.answering import going_on
from saythesum.dialogue.heard import Awaiting, Choice, Command, Given, Heard, Number, Unclear, WaitEnded
from saythesum.dialogue.topics import Paused
from saythesum.dialogue.turn import PASS_DOWN, ListenFor, Turn
from saythesum.dialogue.view import View


def hear_paused(topic: Paused, heard: Heard, view: View) -> Turn:
    match heard:
        case Given(command=Command.GO_ON):
            return going_on(view.plan, view.progress, None)
        case Number():
            return PASS_DOWN
        case Unclear() | Choice() | WaitEnded() if view.is_spoken and view.is_open_ear:
            return Turn(then=ListenFor(Awaiting.COMMAND))
        case _:
            return Turn(say=(say.Waiting(),), then=ListenFor(Awaiting.COMMAND))
