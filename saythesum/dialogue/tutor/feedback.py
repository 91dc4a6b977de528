"""What meets a wrong whole answer: help that starts from the mistake, or a question that tells mistakes apart."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from saythesum.core.exercises.exercise import Exercise, Help
from saythesum.core.records.rows import Answer, Form
from saythesum.core.sums import Part
from saythesum.learner.assessment.telling_apart import by_what_they_tell

UNEXPLAINED = "unexplained"
"""Kept in the place of a mistake's name, where none fits."""
CLEAR = 0.7
"""From this share on, one of several mistakes that fit is taken for the one: our own choice. Two earlier answers that
agree are enough for it."""


@dataclass(frozen=True, slots=True)
class Reply:
    """The first question after a wrong whole answer."""

    part: Part
    form: Form
    about: str
    """The kept name of the mistake that it starts from, or that it tells from others."""


@dataclass(frozen=True, slots=True)
class Replied:
    """What a wrong whole answer was met with earlier in the practice."""

    mistakes: tuple[str, ...]
    part: Part


def deciding_names(answer: Answer) -> tuple[str, ...]:
    """Of the mistakes that fit the answer, those that decide its help; first those that fit the other answers best."""
    deciding = {pattern.name for pattern in answer.asked.deciding(answer.could_be)}
    return tuple(name for name in answer.could_be if name in deciding)


def first_reply(
    answer: Answer, weights: Mapping[str, float], before: Sequence[Replied], *, is_looked_at_again: bool = False
) -> Reply:
    """`weights`: how likely each mistake that fits is for this pupil. `before`: what the practice's earlier wrong
    answers were met with: for the same mistakes, the help is another each time until there is no other.

    `is_looked_at_again`: there was a fresh look at the whole already.
    """
    if answer.close_to and not is_looked_at_again:
        return _fresh_look(answer)
    replies = _replies(answer, weights)
    if is_looked_at_again:
        replies = [reply for reply in replies if reply.part is not Part.WHOLE] or replies
    names = set(deciding_names(answer))
    met = [one.part for one in before if not names.isdisjoint(one.mistakes) or not (names or one.mistakes)]
    return min(replies, key=lambda reply: met.count(reply.part))


def _replies(answer: Answer, weights: Mapping[str, float]) -> list[Reply]:
    """The best first, each part once."""
    asked, names = answer.asked, deciding_names(answer)
    whole = sum(weights.get(name, 0.0) for name in names)
    shares = {name: weights.get(name, 0.0) / whole if whole else 1 / len(names) for name in names}
    own_parts = [help_of(answer, name).part for name in names]
    liked = [asked.taking_up(answer.given), *(own_parts if Part.WHOLE not in own_parts else [])]
    telling = by_what_they_tell(asked, shares, liked)
    small = [Reply(part, Form.TELLING_APART, _told_by(asked, part, shares)) for part in telling]
    suiting = [reply for reply in small if asked.suits(reply.part, answer.given)]
    own = _own_reply(answer, shares)
    first = [own] if own and asked.suits(own.part, answer.given) else []
    steps = Reply(asked.first_part(answer.given), Form.AFTER_WRONG, next(iter(shares), UNEXPLAINED))
    if not names or not suiting:
        first = [*first, _fresh_look(answer), steps]
    others = [reply for reply in small if asked.answer_to(reply.part) != answer.given]
    by_part: dict[Part, Reply] = {}
    for reply in (*first, *suiting, steps, _fresh_look(answer), *others):
        by_part.setdefault(reply.part, reply)
    return list(by_part.values())


def _fresh_look(answer: Answer) -> Reply:
    return Reply(Part.WHOLE, Form.LOOK_AGAIN, next(iter(deciding_names(answer)), UNEXPLAINED))


def _own_reply(answer: Answer, shares: Mapping[str, float]) -> Reply | None:
    """The help that all the mistakes that fit share, or that of the likeliest, where it is clear which that is. An
    exercise without small questions leaves such a choice to a fresh look."""
    if not shares:
        return None
    likeliest = max(shares, key=lambda name: shares[name])
    helps = {help_of(answer, name) for name in shares}
    is_clear = shares[likeliest] >= CLEAR and bool(answer.asked.small_questions)
    if len(helps) > 1 and not is_clear:
        return None
    part = help_of(answer, likeliest).part
    return Reply(part, Form.LOOK_AGAIN if part is Part.WHOLE else Form.AFTER_WRONG, likeliest)


def _told_by(asked: Exercise, part: Part, shares: Mapping[str, float]) -> str:
    """The likeliest mistake that shows in this question; the likeliest of all, where that is clear or none shows."""
    if shares and max(shares.values()) >= CLEAR:
        return max(shares, key=lambda name: shares[name])
    showing = [name for name in shares if asked.foretold(name, part)]
    return max(showing or shares, key=lambda name: shares[name], default=UNEXPLAINED)


def help_of(answer: Answer, mistake: str) -> Help:
    asked = answer.asked
    pattern = next(pattern for pattern in asked.patterns if pattern.name == mistake)
    return asked.help_from(pattern.help, answer.given)


def kept_help(answer: Answer, about: str | None) -> Help:
    """The help that a question was kept with. Rows older than format 6 do not say which mistake it starts from: it was
    the help that all that fit share, or else a fresh look."""
    if about == UNEXPLAINED:
        return Help(Part.WHOLE, answer.asked.unexplained(answer.given))
    if about is not None:
        return help_of(answer, about)
    asked, given = answer.asked, answer.given
    helps = {asked.help_from(pattern.help, given) for pattern in asked.deciding(answer.could_be)}
    if len(helps) == 1 and not answer.close_to:
        help = helps.pop()
        if help.part in (*asked.parts, Part.WHOLE):
            return help
        begins = asked.deciding(answer.could_be)[0].help  # then there was no question for this part yet
        return Help(Part.WHOLE, asked.fresh_look(begins, given))
    return Help(Part.WHOLE, asked.compared(given))
