"""Which of the patterns behind an answer decide its help."""

from collections.abc import Iterable

from saythesum.core.catalogue.wider import CATALOGUE, Pattern

_NAMED = {pattern.name: pattern for pattern in CATALOGUE}


def deciding(names: Iterable[str]) -> tuple[Pattern, ...]:
    """Of all that fit a whole answer, by their kept names; a name of a newer version, or of a part, decides nothing."""
    fitting = tuple(_NAMED[name] for name in names if name in _NAMED)
    return tuple(pattern for pattern in fitting if not pattern.gives_way) or fitting
