"""What a mistake is called for adults: a few words in place of the name that rows and log keep."""

from collections.abc import Mapping

MISTAKE_WORDS: Mapping[str, str] = {
    "new-ten-lost": "losing the new ten",
    "both-digits-written": "putting both digits of the ones' sum beside the tens",
    "ten-written-ones-carried": "writing the ten and carrying the ones",
    "amount-in-the-tens": "adding the amount as tens",
    "amount-to-both-digits": "adding the amount to tens and ones",
    "all-digits-totalled": "adding up all digits",
    "one-short": "ending one short",
    "one-over": "ending one over",
    "extra-ten": "adding a ten too many",
    "stopped-at-the-ten": "stopping at the ten",
    "whole-amount-after-bridging": "adding the whole amount again after the ten",
    "gap-used-twice": "using the gap to the ten twice",
    "subtracted": "taking away",
    "ones-differenced": "taking the smaller ones from the larger",
    "number-repeated": "saying a number of the question again",
    "answer-reversed": "turning the answer's digits round",
    "start-reversed": "turning the start's digits round",
    "double-not-adjusted": "using a double without putting it right",
    "compensated-the-wrong-way": "adding ten and putting it right the wrong way",
    "did-not-compensate": "adding ten without putting it right",
    "multiplied": "multiplying",
    "ones-only": "answering with the ones alone",
    "fact-slip": "taking a neighbouring fact",
    "neighbour-cell": "answering the cell beside it",
    "previous-answer": "giving the answer before once more",
    "teen-or-ty-start": "hearing a teen as tens, or tens as a teen",
    "landing-crossed": "going past a ten that is the answer",
    "key-slip": "slipping on the keys",
    "numbers-put-together": "adding the two numbers that are said",
    "rest-alone": "giving only the jump after the ten",
    "not-undone": "doing the same again, and not the way back",
    "tens-alone": "doing the tens of the amount, and not its ones",
    "ones-alone": "doing the ones of the amount, and not its tens",
    "tens-as-ones": "taking the amount's tens for ones",
    "amount-reversed": "turning the amount's digits round",
    "no-answer": "not knowing an answer",
}


def mistake_said(name: str) -> str:
    """To go into a sentence. A name of a newer version is at least no code."""
    return MISTAKE_WORDS.get(name, name.replace("-", " "))
