"""Makes the sound cues in audio: `python -m tests.tools.make_sound_cues`.

Each has its own rhythm, so that it is known also by somebody to whom two pitches sound alike, and through the smallest
loudspeaker. All are as loud as speech, as ITU-R BS.1770 weighs pitches, and begin and end softly, so that none
startles.
"""

from saythesum.ports import LISTENING_RATE_HZ
from saythesum.settings.shipped_files import audio_folder
from saythesum.sound.wav import write_wav
from saythesum.speaking.notes import Note, sounded

CUES = {
    "ear-open": (Note(587, 60, then_ms=40), Note(784, 60)),
    "ear-shut": (Note(523, 160),),
    "ten-reached": (Note(659, 70, then_ms=30), Note(659, 70, then_ms=30), Note(880, 220)),
    "heard-you": (Note(587, 50, then_ms=40), Note(587, 160)),
    "scan-step": (Note(494, 50),),
    "next-sum": (Note(523, 300),),
    "row-finished": (Note(523, 70, then_ms=40), Note(659, 70, then_ms=40), Note(784, 70, then_ms=40), Note(784, 240)),
    "practice-over": (Note(659, 240, then_ms=90), Note(523, 90, then_ms=60), Note(440, 420)),
}
"""Pitches lie between 400 and 900 Hz, where small loudspeakers still sound and mild hearing losses are smallest
(common practice)."""


def main() -> None:
    for name, notes in CUES.items():
        write_wav(audio_folder() / f"{name}.wav", [sounded(notes).samples], LISTENING_RATE_HZ)


if __name__ == "__main__":
    main()
