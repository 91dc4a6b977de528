"""What is being said, or was said last, to be read: all sentences of a turn, so that the voice hurries nobody."""

from collections.abc import Iterable
from dataclasses import dataclass

from saythesum.dialogue import messages as say
from saythesum.dialogue.step import State
from saythesum.keyboard.keys import KeyMessage
from saythesum.wording.speak.said import said
from saythesum.wording.speak.said_in_digits import in_digits
from saythesum.wording.speak.said_keys import key_said


@dataclass(frozen=True, slots=True)
class News:
    """What has become of a device, in a sentence."""

    sentence: str


@dataclass(frozen=True, slots=True)
class Aside:
    """Something said beside the dialogue. It is shown until the dialogue says something."""

    message: KeyMessage | News
    after_turns: int
    """How many turns the dialogue had said before it."""
    count: int = 0
    """How many asides there have been, this one included."""


@dataclass(frozen=True, slots=True)
class Caption:
    text: str
    is_help: bool
    """It says more than which sum is asked, which is shown anyway."""


def caption(state: State, aside: Aside | None) -> Caption:
    """Without the verdict, which stands beside its own sum."""
    if aside and aside.after_turns == state.channel.turns_said:
        return Caption(aside_said(aside.message), is_help=True)
    of_verdict = state.talk.verdict.messages if state.talk.verdict else ()
    messages = [message for message in state.channel.saying if message not in of_verdict]
    is_help = any(not isinstance(message, _TO_A_SUM) for message in messages)
    return Caption(said_and_shown(messages, state), is_help)


_TO_A_SUM = (say.AskWhole, say.GridIntro, say.NewRow, say.NextAlong, say.BackToOneLeft, say.ThisOneFirst)
"""What leads to a new sum, and asks it."""


def aside_said(message: KeyMessage | News) -> str:
    return message.sentence if isinstance(message, News) else key_said(message)


def said_and_shown(messages: Iterable[say.Message], state: State) -> str:
    """With the sums of each sentence in digits after it, where the settings ask for that."""
    settings = state.plan.settings
    length = settings.wording.length
    texts: list[str] = []
    for message in messages:
        texts.append(said(message, length))
        if texts[-1] and settings.window.sums_in_digits:
            texts.append(in_digits(message, length))
    return " ".join(text for text in texts if text)
