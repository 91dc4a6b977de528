"""The closed search over the tree of spellings, and beside it the free writing, as rows of one batch."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace

from saythesum.hearing.embedded.moonshine import Decoded, Utterance
from saythesum.hearing.embedded.tokenizer import END_ID
from saythesum.hearing.embedded.trie import MeaningOrRival, Node

MOST_BEAMS = 16
WITHIN_NATS = 6.0
"""Beams this far below the likeliest are dropped."""


@dataclass(frozen=True, slots=True)
class Beam:
    """A beginning of a spelling. `row` is where its keys and values stand in the last step."""

    node: Node
    log_probability: float
    row: int
    id: int = -1


@dataclass(slots=True)
class Written:
    """What the model writes when nothing holds it."""

    longest: int
    """The most pieces it may have."""
    ids: list[int] = field(default_factory=list)
    log_probability: float = 0.0
    ended: bool = False
    cut_off: bool = False
    """It had more to say than it was allowed."""


@dataclass(frozen=True, slots=True)
class Searched:
    meanings: dict[MeaningOrRival, float]
    """The log-probability of each meaning, summed over its spellings. Empty where none could be finished."""
    free: Written


def searched(utterance: Utterance, root: Node, longest_free: int) -> Searched:
    """Both decodes to their ends; `longest_free` is the most pieces that are written freely."""
    free = Written(longest_free)
    return Searched(_closed(utterance, root, utterance.after(()), free), free)


def searched_between(
    utterance: Utterance, root: Node, before: Sequence[int], then: int = END_ID
) -> dict[MeaningOrRival, float]:
    """The closed search alone, for what comes after the pieces `before` and ahead of the piece `then`."""
    return _closed(utterance, root, utterance.after(before), Written(0, ended=True), then)


def _closed(
    utterance: Utterance, root: Node, step: Decoded, free: Written, then: int = END_ID
) -> dict[MeaningOrRival, float]:
    """The free writing is row 0 while it lasts; the beams are the rows after it, likeliest first."""
    finished: dict[MeaningOrRival, list[float]] = {}
    beams = _grown([Beam(root, 0.0, row=0)], step, finished, then)
    _write(free, step)
    while beams or not free.ended:
        freely = [] if free.ended else [free.ids[-1]]
        step = utterance.next(
            step, [0] * len(freely) + [beam.row for beam in beams], freely + [beam.id for beam in beams]
        )
        beams = [replace(beam, row=row) for row, beam in enumerate(beams, start=len(freely))]
        beams = _grown(beams, step, finished, then)
        _write(free, step)
    return {meaning: _log_sum(parts) for meaning, parts in finished.items()}


def read_last(root: Node, ids: Sequence[int]) -> tuple[int, int] | None:
    """Where the last spelling in `ids` begins and ends, the longest of those that end there; None where none is."""
    return next(
        ((begin, end) for end in range(len(ids), 0, -1) for begin in range(end) if _spells(root, ids[begin:end])), None
    )


def _spells(root: Node, ids: Iterable[int]) -> bool:
    node: Node | None = root
    for number in ids:
        node = node.below.get(number) if node else None
    return node is not None and node.spells


def _grown(beams: list[Beam], step: Decoded, finished: dict[MeaningOrRival, list[float]], then: int) -> list[Beam]:
    """Each beam one piece longer, the likeliest first. Spellings that `then` may follow here go to `finished`."""
    longer: list[Beam] = []
    for beam in beams:
        base = beam.log_probability - float(step.log_totals[beam.row])
        logits = step.logits[beam.row]
        if beam.node.spells:
            finished.setdefault(beam.node.meaning, []).append(base + float(logits[then]))
        gains = logits[beam.node.next_ids].tolist()
        longer += [
            Beam(node, base + gain, beam.row, id)
            for (id, node), gain in zip(beam.node.below.items(), gains, strict=True)
        ]
    longer.sort(key=lambda beam: beam.log_probability, reverse=True)
    ended = max((max(parts) for parts in finished.values()), default=-math.inf)
    best = max(ended, longer[0].log_probability if longer else -math.inf)
    return [beam for beam in longer[:MOST_BEAMS] if beam.log_probability > best - WITHIN_NATS]


def _write(free: Written, step: Decoded) -> None:
    """The likeliest piece next; always row 0 while it has not ended."""
    if free.ended:
        return
    likeliest = int(step.logits[0].argmax())
    free.log_probability += float(step.logits[0, likeliest] - step.log_totals[0])
    if likeliest == END_ID:
        free.ended = True
    elif len(free.ids) >= free.longest:
        free.ended = free.cut_off = True
    else:
        free.ids.append(likeliest)


def _log_sum(parts: Iterable[float]) -> float:
    parts = list(parts)
    highest = max(parts)
    return highest + math.log(sum(math.exp(part - highest) for part in parts))
