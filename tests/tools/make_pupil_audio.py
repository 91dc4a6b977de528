"""Records the made-up pupil in audio/pupil: `python -m tests.tools.make_pupil_audio`. Needs flite.

The voice is flite's rms, a man's, of which the embedded recogniser understands 98 of the numbers to 99 as they are
(slt: 92). It speaks slowly, so it is hurried a little. The recordings are kept with the project, so that a rehearsal
needs no flite. They are for rehearsals, and no measure of listening.
"""

import subprocess
from pathlib import Path
from tempfile import TemporaryDirectory

from saythesum.app.rehearsal.recorded_phrases import recording_name
from saythesum.ports import LISTENING_RATE_HZ, Samples, Sound
from saythesum.settings.shipped_files import audio_folder
from saythesum.sound.resample import for_listening
from saythesum.sound.wav import read_wav, write_wav
from saythesum.speaking.loudness import levelled, trimmed
from saythesum.wording.numbers import words

VOICE = "rms"
DURATION = 0.9
"""As a share of what flite takes."""
OTHER_DURATIONS = {"seventy-nine": 1.05, "eighty": 1.05}
"""Two that were not understood; a made-up pupil whose every answer is asked for again would be no use."""
SAID = (
    "I don't know", "say that again", "please wait", "skip this one", "go back", "help me", "not what I said",
    "that's what I said first", "where am I", "slower please", "stop there", "go on", "yes", "no", "um", "I said",
)  # fmt: skip


def main() -> None:
    folder = audio_folder() / "pupil"
    folder.mkdir(exist_ok=True)
    hundreds = [words(number) for number in range(100, 1001, 100)]
    phrases = [*(words(number) for number in range(100)), *hundreds, *(f"{begun} and" for begun in hundreds), *SAID]
    for phrase in phrases:
        write_wav(folder / recording_name(phrase), [record(phrase)], LISTENING_RATE_HZ)
    total = sum(path.stat().st_size for path in folder.glob("*.wav"))
    print(f"{len(phrases)} phrases, {total:,} bytes")


def record(phrase: str) -> Samples:
    with TemporaryDirectory() as folder:
        path = Path(folder) / "said.wav"
        hurried = ["--setf", f"duration_stretch={OTHER_DURATIONS.get(phrase, DURATION)}"]
        subprocess.run(["flite", "-voice", VOICE, *hurried, "-t", phrase, "-o", str(path)], check=True)
        heard = for_listening(read_wav(path))
    return levelled(trimmed(Sound(heard, LISTENING_RATE_HZ))).samples


if __name__ == "__main__":
    main()
