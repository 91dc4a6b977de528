"""The number line in tones."""

import re
from functools import lru_cache

from saythesum.app.session.speech.line_cue import NAME
from saythesum.ports import Sound
from saythesum.speaking.notes import Note, sounded

LOWEST_HZ = 330.0
"""At the line's left end. Its right end is twenty semitones higher, at 1048 Hz: where small loudspeakers still sound
and mild hearing losses are smallest (common practice)."""
STRIDE_MS = 180
"""From one number to the next, whatever they are."""
NOTE_MS, STOP_MS = 90, 160


@lru_cache(maxsize=32)
def line_sound(cue: str) -> Sound | None:
    """None where the cue is no number line."""
    name, *notes = cue.split()
    return sounded([_note(one) for one in notes]) if name == NAME else None


def _note(said: str) -> Note:
    found = re.fullmatch(r"([\d.]+)(t?)(s?)", said)
    assert found is not None, f"{said!r} is no note"
    long_ms = STOP_MS if found[3] else NOTE_MS
    return Note(LOWEST_HZ * 2 ** (float(found[1]) / 12), long_ms, STRIDE_MS - long_ms, is_chime=bool(found[2]))
