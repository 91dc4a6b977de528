"""`python -m tests.tools.word_game`: the word game on the sound rig with a made-up pupil, begun, stopped, taken up
another day with another microphone, and finished; with a brother in the middle of it, in a noisy room, and with a pupil
who says no. Prints what was said, how long each game took, and what was kept. About six minutes."""

import tempfile
from collections.abc import Callable
from datetime import date
from pathlib import Path

import numpy as np

from saythesum.app.rehearsal.recorded_phrases import pupil_phrase
from saythesum.app.word_game.which_words import OFTEN_MIXED_UP
from saythesum.hearing.embedded.own_words.words_file import read_own_words
from saythesum.ports import LISTENING_RATE_HZ, Samples, Sound
from saythesum.settings.reading import settings_from
from saythesum.wording.speak import said_word_game as say
from tests.tools.listening.conditions import raised
from tests.tools.rig.server import Rig
from tests.tools.rig.word_game import Child, as_recorded, game_on

CODE = "rk-7"
TELEPHONE_HZ = (300, 3400)
"""The band of the other day's microphone. Source: ITU-T G.712, the telephone channel (from memory)."""
BABBLE_S = 15


def childs(samples: Samples) -> Samples:
    """Pitch and formants raised, as of a shorter vocal tract."""
    return raised(samples, 1.2)


def brothers(samples: Samples) -> Samples:
    return raised(samples, 0.8)


def through_another_microphone(samples: Samples) -> Samples:
    raised_samples = childs(samples)
    spectrum = np.fft.rfft(raised_samples)
    hz = np.fft.rfftfreq(len(raised_samples), 1 / LISTENING_RATE_HZ)
    spectrum[(hz < TELEPHONE_HZ[0]) | (hz > TELEPHONE_HZ[1])] = 0
    return np.fft.irfft(spectrum, len(raised_samples)).astype(np.float32)


def print_game(title: str, rig: Rig, home: Path, child: Child) -> None:
    print(f"\n{title}", flush=True)
    game = game_on(rig, home, child, "--pupil", CODE)
    for line in game.shown:
        print(f"  {line}")
    minutes, seconds = divmod(round(game.seconds), 60)
    print(f"  [{minutes} min {seconds} s; exit {game.code}]")
    file = home / "pupils" / f"{CODE}.words"
    if file.exists():
        own = read_own_words(file, _factor(home), print)
        size_kb = file.stat().st_size // 1000
        print(f"  [kept: {len(own.takes)} sayings of {len(own.counts)} words, {size_kb} kB]")


def _factor(home: Path) -> float:
    settings, _ = settings_from((home / "pupils" / f"{CODE}.toml").read_text(encoding="utf-8"))
    return settings.listening.vocal_tract_factor


def main() -> None:
    last, brothers_word = OFTEN_MIXED_UP[7], OFTEN_MIXED_UP[3]
    with Rig() as rig, tempfile.TemporaryDirectory() as folder:
        home = Path(folder)
        (home / "pupils").mkdir()
        (home / "pupils" / f"{CODE}.toml").write_text(
            f'[own_words]\nuse = true\nconsent_on = "{date(2026, 5, 12)}"\nconsent_by = "AB"\n', encoding="utf-8"
        )
        first = Child(
            rig,
            childs,
            says={say.say_word(last): "stop there"},
            brothers=brothers,
            brother_at=[say.say_again(brothers_word)],
        )
        print_game("One day, with a brother in the middle, until the pupil stops:", rig, home, first)
        print_game("Another day, another microphone:", rig, home, Child(rig, through_another_microphone))
        print_game("A third day, the same twelve words:", rig, home, Child(rig, childs))
        print_game("In a room full of voices:", rig, home, Child(rig, childs, babble=_babble()))
        print_game("A pupil who says no:", rig, home, Child(rig, childs, says={say.MAY_I_KEEP: "no"}))


def _babble() -> Sound:
    """Four people who count."""
    voices: list[Callable[[Samples], Samples]] = [childs, brothers, as_recorded, lambda one: raised(one, 1.1)]
    counted = [phrase.samples for number in ("seven", "thirty", "nine", "sixty") if (phrase := pupil_phrase(number))]
    said = [
        np.concatenate([voice(one) for one in counted[place:] + counted[:place]]) for place, voice in enumerate(voices)
    ]
    mixed = sum(np.resize(one, BABBLE_S * LISTENING_RATE_HZ) for one in said) / len(said)
    return Sound(np.asarray(mixed, np.float32), LISTENING_RATE_HZ)


if __name__ == "__main__":
    main()
