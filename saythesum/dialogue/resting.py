"""The pupil has asked for a wait: nothing is asked until they go on."""

from saythesum.dialogue import messages as say
from saythesum.dialogue.answering import going_on
from saythesum.dialogue.heard import Awaiting, Command, Given, Heard, Number, Unclear
from saythesum.dialogue.turn import ListenFor, PassDown, Turn
from saythesum.dialogue.view import View


def hear_paused(heard: Heard, view: View) -> Turn:
    listen = ListenFor(Awaiting.COMMAND)
    match heard:
        case Given(command=Command.GO_ON):
            return going_on(view.plan, view.progress, None, is_again=True)
        case Given(command=Command.HUSH):
            return Turn(then=listen, hushes=True)
        case Number():
            return Turn(PassDown(heard))
        case Unclear() if view.is_spoken and view.is_open_ear:
            return Turn(then=listen)
        case _:
            return Turn(say=(say.Waiting(),), then=listen)
