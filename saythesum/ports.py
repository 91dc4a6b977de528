"""The edges: what a voice, a recogniser and a store must be able to do, whoever does it."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Protocol
from uuid import UUID

import numpy as np
from numpy.typing import NDArray

from saythesum.core.aims import Aim
from saythesum.core.grids.grid import Cell
from saythesum.core.meanings import Awaiting, Understood
from saythesum.core.records.rows import Row
from saythesum.keyboard.keys import Focus, LookChange, LookMessage, Pressed
from saythesum.scene.scene import Scene
from saythesum.settings import Settings

LISTENING_RATE_HZ = 16_000
"""All sound that is listened to is mono float32 in -1..1 at this rate."""

Samples = NDArray[np.float32]


@dataclass(frozen=True, slots=True, eq=False)
class Sound:
    """Mono sound. `samples` is float32 in -1..1."""

    samples: Samples
    rate_hz: int

    @property
    def duration_ms(self) -> int:
        return len(self.samples) * 1000 // self.rate_hz


class Voice(Protocol):
    """Turns a phrase into sound; it never plays anything itself."""

    def render(self, phrase: str) -> Sound:
        """Raises VoiceError when the phrase cannot be spoken even after a restart."""

    def close(self) -> None: ...


@dataclass(frozen=True, slots=True)
class Hypothesis:
    """One thing a stretch of speech may have meant.

    `meaning` None stands for a rival that is no answer (an ordinal, say): it takes part so that it can win.
    """

    meaning: Understood | None
    log_probability: float


@dataclass(frozen=True, slots=True)
class Hearing:
    """What an engine makes of one stretch of speech; the gate turns it into one meaning."""

    ranked: tuple[Hypothesis, ...]
    """The closed set, likeliest first, one entry a meaning. Empty where nothing fitted at all."""
    free_text: str
    """What an unconstrained hearing wrote; "" where the engine has none."""
    free_log_probability: float
    inside: tuple[Hypothesis, ...] = ()
    """Where the free text is a sentence with something of the closed set in it: the last such place alone, heard
    again against the closed set, likeliest first. Empty where there is none, or the engine cannot."""
    is_speech: bool = True


class Recogniser(Protocol):
    """One engine. Opened for a kind of answer, fed blocks, closed; it can be opened again."""

    name: str

    def open(self, awaiting: Awaiting) -> None: ...

    def feed(self, block: Samples) -> None:
        """Mono, LISTENING_RATE_HZ, any length."""

    def so_far(self) -> Hearing:
        """What was fed since `open`, as if it ended here. Feeding may go on afterwards."""

    def close(self) -> Hearing: ...


@dataclass(frozen=True, slots=True)
class StoredPractice:
    """A practice as it was saved when it started, with the rows kept so far in order."""

    id: UUID
    pupil: str
    began_at: str
    """UTC, ISO 8601."""
    grid_text: str
    """The grid in its own file format."""
    seed: int
    settings: Settings
    program_version: str
    aim: Aim = Aim.PRACTISE
    cells: tuple[Cell, ...] | None = None
    """The cells that are asked, in their order; None: all of the grid's, in the grid's own."""
    rows: tuple[Row, ...] = ()


class Store(Protocol):
    """Every method raises StoreError when the records cannot be read or written."""

    def begin(self, practice: StoredPractice) -> None:
        """Save a practice that has no rows yet."""

    def keep(self, practice: UUID, row: Row, *, at: str, at_ms: int) -> None:
        """On disk when it returns. `at` is UTC, ISO 8601."""

    def unfinished(self, pupil: str, *, aim: Aim | None = None, grid_text: str | None = None) -> StoredPractice | None:
        """The pupil's newest practice that has not been finished.

        Where they are given, only one of this aim, and of this very grid.
        """

    def practices(self, pupil: str, *, aim: Aim | None = None) -> Sequence[UUID]:
        """Oldest first. Where it is given, only those of this aim."""

    def practice(self, id: UUID) -> StoredPractice: ...

    def close(self) -> None: ...


@dataclass(frozen=True, slots=True)
class Touched:
    """A button was pressed with mouse or finger: as if Tab had gone there, and Enter."""

    focus: Focus
    at_ms: int


class Screen(Protocol):
    """A window and its keyboard. One thread uses it, `wake` excepted.

    Whatever draws or reads raises ScreenError when the screen has gone away; then only `close` is left.
    """

    def show(self, scene: Scene) -> None: ...

    def presses(self, timeout_ms: int) -> Sequence[Pressed | Touched]:
        """What was pressed, as soon as there is anything; nothing when the time is over or `wake` was called.

        A window that is being closed gives `Key.CLOSE`.
        """

    def wake(self) -> None:
        """From any thread: something else has happened, `presses` is to return at once."""

    def change(self, change: LookChange) -> LookMessage:
        """What it has come to."""

    def resize_to(self, step: int) -> None:
        """A print size by its number, 0 to 8."""

    def close(self) -> None: ...


class Clock(Protocol):
    def now(self) -> datetime:
        """UTC."""

    def since_start_ms(self) -> int:
        """Milliseconds since this run began; never runs backwards."""
