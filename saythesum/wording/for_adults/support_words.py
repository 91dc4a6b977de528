"""Levels of help, parts of a sum and ways to answer, for adults: a few words in place of the names that rows keep."""

from collections.abc import Mapping

from saythesum.core.records.rows import By, Support
from saythesum.core.sums import Part

SUPPORT_WORDS: Mapping[Support, str] = {
    Support.INDEPENDENT: "unaided",
    Support.REPEATED: "unaided, the question heard again",
    Support.ENCOURAGED: "after a fresh look",
    Support.ASKED: "after a small question",
    Support.FIRST_STEP: "with the first step done",
    Support.MODELLED: "after the worked line",
    Support.ADULT_HELP: "with an adult's help",
    Support.ADULT_ANSWER: "with the answer from an adult",
}
_PARTS: Mapping[Part, str] = {
    Part.WHOLE: "the whole sum",
    Part.NEXT_TEN: "the next ten",
    Part.GAP: "the gap to the ten",
    Part.REST: "the rest after the ten",
    Part.ONES: "the ones",
    Part.TOTAL: "the total",
}
_BY: Mapping[By, str] = {By.VOICE: "by voice", By.KEYS: "by keys", By.TEXT: "typed"}


def part_said(part: Part) -> str:
    return _PARTS.get(part, part.value.replace("-", " "))


def by_said(by: By) -> str:
    return _BY.get(by, f"by {by.value}")
