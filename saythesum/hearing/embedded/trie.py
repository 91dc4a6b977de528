"""Every spelling that counts, as one tree of pieces: what the closed search may follow."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from saythesum.core.meanings import Meaning
from saythesum.hearing.embedded.tokenizer import Pieces

MeaningOrRival: TypeAlias = Meaning | None
"""None: a rival, which takes part so that it can win."""

Ids = NDArray[np.int64]


@dataclass(slots=True)
class Node:
    """A place in the tree. `spells` tells whether a spelling ends here; only then does `meaning` count."""

    below: dict[int, "Node"] = field(default_factory=dict)
    spells: bool = False
    meaning: MeaningOrRival = None
    _next_ids: Ids | None = None

    @property
    def next_ids(self) -> Ids:
        """The pieces that may follow, in the order of `below`."""
        if self._next_ids is None:
            self._next_ids = np.fromiter(self.below, dtype=np.int64, count=len(self.below))
        return self._next_ids


def grown(spellings: Iterable[tuple[str, MeaningOrRival]], pieces: Pieces) -> Node:
    """The tree of all spellings, each also with a capital and with a full stop or a question mark, as the model
    writes them.

    Of two meanings of one spelling the one given first stands.
    """
    root = Node()
    for text, meaning in spellings:
        for written in _as_written(text):
            _grow(root, pieces.ids(written), meaning)
    return root


def _as_written(text: str) -> set[str]:
    capital = text[:1].upper() + text[1:]
    return {start + end for start in (text, capital) for end in ("", ".", "?")}


def _grow(root: Node, ids: Iterable[int], meaning: MeaningOrRival) -> None:
    node = root
    for number in ids:
        node = node.below.setdefault(number, Node())
    if not node.spells:
        node.spells, node.meaning = True, meaning
