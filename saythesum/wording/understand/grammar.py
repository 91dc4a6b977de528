"""What a phrase may be made of, and the ways to walk it: write it out, find it in a line, list its words."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import product
from typing import TypeAlias


@dataclass(frozen=True, slots=True)
class Word:
    text: str
    """As it stands inside a sentence: small letters but for "I", with its apostrophe."""


@dataclass(frozen=True, slots=True)
class Sequence:
    parts: "tuple[Rule, ...]"
    joins: tuple[str, ...] = (" ",)
    """What may stand between the parts in writing."""


@dataclass(frozen=True, slots=True)
class OneOf:
    parts: "tuple[Rule, ...]"


@dataclass(frozen=True, slots=True)
class Maybe:
    part: "Rule"


Rule: TypeAlias = Word | Sequence | OneOf | Maybe


def say(*parts: Rule | str) -> Rule:
    """The parts in order; a string is one word or several."""
    rules = [rule for part in parts for rule in _rules(part)]
    return rules[0] if len(rules) == 1 else Sequence(tuple(rules))


def either(*parts: Rule | str) -> OneOf:
    return OneOf(tuple(say(part) for part in parts))


def maybe(*parts: Rule | str) -> Maybe:
    return Maybe(say(*parts))


def _rules(part: Rule | str) -> list[Rule]:
    return [Word(text) for text in part.split()] if isinstance(part, str) else [part]


def bare(text: str) -> str:
    """A word as lines are compared: small letters and no apostrophe, for "dont" is as good as "don't"."""
    return text.lower().replace("'", "")


def written(rule: Rule) -> Iterator[str]:
    """Every way to write it."""
    match rule:
        case Word(text):
            yield text
        case Maybe(part):
            yield ""
            yield from written(part)
        case OneOf(parts):
            for part in parts:
                yield from written(part)
        case Sequence(parts, joins):
            for join, chosen in product(joins, product(*[tuple(written(part)) for part in parts])):
                yield join.join(filter(None, chosen))


def ends(rule: Rule, line: tuple[str, ...], at: int = 0) -> Iterator[int]:
    """Where it may end in a line of bare words when it starts at `at`."""
    match rule:
        case Word(text):
            if line[at : at + 1] == (bare(text),):
                yield at + 1
        case Maybe(part):
            yield from ends(part, line, at)
            yield at
        case OneOf(parts):
            for part in parts:
                yield from ends(part, line, at)
        case Sequence(parts):
            reached = {at}
            for part in parts:
                reached = {end for start in reached for end in ends(part, line, start)}
            yield from reached


def fits(rule: Rule, line: tuple[str, ...]) -> bool:
    """Whether the whole line is this and nothing else."""
    return len(line) in ends(rule, line)
