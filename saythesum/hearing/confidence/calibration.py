"""What was measured about listening, kept as data: how certain a hearing is, and which words the engine mixes up."""

import tomllib
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from saythesum.errors import ListeningError
from saythesum.settings.shipped_files import models_folder

FILE_NAME = "listening.toml"


@dataclass(frozen=True, slots=True)
class Calibration:
    """`python -m tests.tools.listening.calibrate` makes it, from what was heard of recordings."""

    constant: float
    a_nat_below_free: float
    a_nat_above_next: float
    an_unlikely_nat: float
    """These four are a logistic regression: what each margin adds to the log odds of having heard rightly."""
    mixed_up: frozenset[frozenset[str]]
    """Pairs of number words."""


@cache
def calibration() -> Calibration:
    """Raises ListeningError when the file that comes with the program is missing or damaged."""
    return read(models_folder() / FILE_NAME)


def read(path: Path) -> Calibration:
    try:
        found = tomllib.loads(path.read_text(encoding="utf-8"))
        return _calibration(found["certainty"], found["mixed_up"])
    except (OSError, ValueError, KeyError, TypeError) as failure:
        raise ListeningError(f"{path} is missing or damaged; right would be to install saythesum again.") from failure


def _calibration(certainty: dict[str, float], mixed_up: list[dict[str, Any]]) -> Calibration:
    return Calibration(
        constant=float(certainty["constant"]),
        a_nat_below_free=float(certainty["a_nat_below_free"]),
        a_nat_above_next=float(certainty["a_nat_above_next"]),
        an_unlikely_nat=float(certainty["an_unlikely_nat"]),
        mixed_up=frozenset(frozenset(str(word) for word in pair["words"]) for pair in mixed_up),
    )
