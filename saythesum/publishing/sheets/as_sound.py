"""A sheet as sound: a file for each row, or for a few sums where there are no rows; its label first, and time to write
or braille after each sum."""

from collections.abc import Sequence
from pathlib import Path

import numpy as np

from saythesum.ports import Samples, Sound, Voice
from saythesum.reports.sheets.said_sheet import row_phrases
from saythesum.reports.sheets.sheet import Sheet
from saythesum.sound.wav import write_wav

AFTER_LABEL_MS = 1000


def write_sound(sheet: Sheet, voice: Voice, pause_ms: int, into: Path) -> None:
    """Raises VoiceError and SoundFileError."""
    kind = "answers-row" if sheet.is_filled else "row"
    for row in range(len(sheet.groups)):
        spoken = [voice.render(phrase) for phrase in row_phrases(sheet, row)]
        pauses = [AFTER_LABEL_MS, *[pause_ms] * (len(spoken) - 1)]
        write_wav(into / f"{sheet.code}-{kind}-{row + 1:02d}.wav", [joined(spoken, pauses)], spoken[0].rate_hz)


def joined(spoken: Sequence[Sound], pauses_ms: Sequence[int]) -> Samples:
    """Each phrase with its pause after it. One voice has one rate."""
    rate_hz = spoken[0].rate_hz
    parts = [
        part
        for sound, pause_ms in zip(spoken, pauses_ms, strict=True)
        for part in (sound.samples, np.zeros(pause_ms * rate_hz // 1000, np.float32))
    ]
    whole: Samples = np.concatenate(parts)
    return whole
