"""What is written of what is said: lines for a terminal, and for the window all sentences of the turn."""

from collections.abc import Callable


class Caption:
    def __init__(self, show: Callable[[str], None]) -> None:
        self._show = show
        self._turn: list[str] = []
        self._is_turn_over = True

    @property
    def text(self) -> str:
        """All sentences of this turn, so that a reader is not hurried along by the voice."""
        return " ".join(self._turn)

    def add(self, sentence: str) -> None:
        """The first one after the end of a turn takes the place of what stands there."""
        self._show(sentence)
        if self._is_turn_over:
            self._turn.clear()
        self._turn.append(sentence)
        self._is_turn_over = False

    def end_turn(self) -> None:
        self._is_turn_over = True
