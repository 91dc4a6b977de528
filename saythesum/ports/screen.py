from collections.abc import Sequence
from dataclasses import dataclass
from typing import Protocol, TypeAlias

from saythesum.keyboard.keys import Focus, LookChange, LookMessage, Pressed
from saythesum.scene.scene import Scene


@dataclass(frozen=True, slots=True)
class Touched:
    """A button was pressed with mouse or finger: as if Tab had gone there, and Enter."""

    focus: Focus
    at_ms: int


@dataclass(frozen=True, slots=True)
class SwitchLost:
    """The device that the switch is a button of has gone."""

    at_ms: int


@dataclass(frozen=True, slots=True)
class SwitchFound:
    """It has come back."""

    at_ms: int


ScreenNews: TypeAlias = Pressed | Touched | SwitchLost | SwitchFound


class Screen(Protocol):
    """A window and its keyboard. One thread uses it, `wake` excepted.

    Whatever draws or reads raises ScreenError when the screen has gone away; then only `close` is left.
    """

    def show(self, scene: Scene) -> None: ...

    def presses(self, timeout_ms: int) -> Sequence[ScreenNews]:
        """What was pressed, as soon as there is anything; nothing when the time is over or `wake` was called.

        A window that is being closed gives `Key.CLOSE`.
        """

    def wake(self) -> None:
        """From any thread: something else has happened, so `presses` should return at once."""

    def change(self, change: LookChange) -> LookMessage:
        """What it has come to."""

    def resize_to(self, step: int) -> None:
        """A print size by its number, 0 to 8."""

    def close(self) -> None: ...
