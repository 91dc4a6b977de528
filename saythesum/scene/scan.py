"""What is offered to a switch just now, as it is shown."""

from collections.abc import Sequence
from dataclasses import dataclass

from saythesum.keyboard.scanning import Scan
from saythesum.wording.speak.said_switch import offer_in_print, offer_in_words


@dataclass(frozen=True, slots=True)
class ScanShown:
    text: str
    """"7", "Rub out"; "" where nothing is offered."""
    name: str
    """In words."""
    count: int
    """Grows with each thing offered, so that the same one can be told anew."""
    is_open: bool
    """A press does something."""


NOTHING_OFFERED = ScanShown("", "", 0, is_open=False)


def scan_shown(scan: Scan, typed: Sequence[int], *, is_adults_turn: bool) -> ScanShown:
    if scan.offered is None:
        return ScanShown("", "", scan.count, is_open=bool(scan.offers))
    text = offer_in_print(scan.offered, typed, is_adults_turn=is_adults_turn)
    name = offer_in_words(scan.offered, typed, is_adults_turn=is_adults_turn)
    return ScanShown(text, name, scan.count, is_open=True)
