"""What was measured about listening, kept as data: how certain a hearing is, and which words the engine mixes up."""

import tomllib
from dataclasses import dataclass, fields
from functools import cache
from pathlib import Path
from typing import Any

from saythesum.errors import ListeningError
from saythesum.settings.shipped_files import models_folder

FILE_NAME = "listening.toml"


@dataclass(frozen=True, slots=True)
class Weights:
    """A logistic regression: what each margin adds to the log odds of having heard rightly."""

    constant: float
    a_nat_below_free: float
    a_nat_above_next: float
    an_unlikely_nat: float
    a_doubtful_nat: float = 0.0
    an_agreeing_nat: float = 0.0
    """By how much a second opinion prefers something else, or this."""


@dataclass(frozen=True, slots=True)
class Calibration:
    """`python -m tests.tools.listening.calibrate` makes it, from what was heard of recordings."""

    alone: Weights
    """Of an engine that has no second opinion."""
    with_second: Weights
    mixed_up: frozenset[frozenset[str]]
    """Pairs of number words."""


@cache
def calibration() -> Calibration:
    """Raises ListeningError when the file that comes with the program is missing or damaged."""
    return read(models_folder() / FILE_NAME)


def read(path: Path) -> Calibration:
    try:
        found = tomllib.loads(path.read_text(encoding="utf-8"))
        return _calibration(found)
    except (OSError, ValueError, KeyError, TypeError) as failure:
        raise ListeningError(f"{path} is missing or damaged; right would be to install saythesum again.") from failure


def _calibration(found: dict[str, Any]) -> Calibration:
    return Calibration(
        alone=_weights(found["certainty"]),
        with_second=_weights(found["certainty_with_second_opinion"]),
        mixed_up=frozenset(frozenset(str(word) for word in pair["words"]) for pair in found["mixed_up"]),
    )


def _weights(found: dict[str, float]) -> Weights:
    return Weights(**{field.name: float(found[field.name]) for field in fields(Weights)})
