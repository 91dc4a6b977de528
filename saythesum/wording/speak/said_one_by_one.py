"""Probes and finding out: sums that come one by one, without a grid around them."""

from typing import assert_never

from saythesum.dialogue import messages as say
from saythesum.settings import Length
from saythesum.wording.numbers import words
from saythesum.wording.speak.lengths import begun, by_length

_TAKE_LONG = "Take as long as you like; Space says it again."


def one_by_one(message: say.OneByOneSums, length: Length) -> str:
    match message:
        case say.ProbeIntro(sums=sums):
            alone = f"{begun(sums)} sums on your own."
            short = f"{alone} I won't say which are right."
            full = f"{begun(sums)} sums on your own today. I won't help or say which are right. {_TAKE_LONG}"
            return by_length(length, alone, short, full)
        case say.FindOutIntro(most=most):
            short = f"Up to {words(most)} sums."
            return by_length(length, "", short, f"Up to {words(most)} sums, one by one. {_TAKE_LONG}")
        case say.ListIntro(sums=sums, is_number_missing=is_missing):
            one_or_more = "One sum" if sums == 1 else f"{begun(sums)} sums"
            missing = ", a number missing" + (" in each" if sums > 1 else "") if is_missing else ""
            short = f"{one_or_more}{missing}."
            return by_length(length, "", short, f"{short} {_TAKE_LONG}")
        case say.Noted():
            return by_length(length, "", "Thank you.", "Thank you.")
        case say.PassedOver():
            return by_length(length, "", "We'll leave that one.", "That's fine, we'll leave that one.")
        case say.HowFar(done=done, more=more, is_at_most=is_at_most):
            so_far = f"{begun(done)} done" if done else "None done yet"
            return f"{so_far}, {'at most ' if is_at_most else ''}{words(more)} more."
        case say.OneByOne():
            return "The sums come one by one here."
        case say.ProbeOver(sums=sums, goes_on=goes_on):
            return f"That's all {words(sums)}.{'' if goes_on else ' Bye for now.'}"
        case _:
            assert_never(message)
