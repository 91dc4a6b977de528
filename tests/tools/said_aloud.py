"""How well the tool's voice is understood: `python -m tests.tools.said_aloud`.

Every question of four starter grids is rendered by the voice of this machine and written down freely by the embedded
recogniser, which knows nothing of sums. Printed is what it wrote, and how many of the numbers, operations and holes are
in it. A made voice through a made ear says little about children; a word that it never writes is worth a thought.
"""

import re
from collections import Counter
from collections.abc import Iterator
from contextlib import closing

from saythesum.core.exercises.exercise import Exercise
from saythesum.core.grids.grid import walk
from saythesum.core.grids.starters import starter_named
from saythesum.core.meanings import Awaiting
from saythesum.hearing.embedded.recogniser import NeuralRecogniser
from saythesum.settings import Speech
from saythesum.sound.resample import for_listening
from saythesum.speaking.voice import ChildVoice
from saythesum.wording.numbers import words
from saythesum.wording.speak.exercises.said_exercises import words_of

GRIDS = ("on-and-off", "sold-loaves", "late-passengers", "before-the-stop")


PHRASES = ("take away", "add", "what number", "makes", "leaves")


def main() -> None:
    recogniser = NeuralRecogniser()
    said: Counter[str] = Counter()
    written: Counter[str] = Counter()
    with closing(ChildVoice(Speech())) as voice:
        for asked in (asked for name in GRIDS for asked in questions_of(name)):
            question = words_of(asked).question(asked)
            recogniser.open(Awaiting.COMMAND)
            recogniser.feed(for_listening(voice.render(question)))
            heard = recogniser.close().free_text
            print(f"said: {question}  written: {heard}")
            for kind, text in pieces_of(asked, question):
                said[kind] += 1
                written[kind] += is_in(text, heard)
    for kind, count in said.items():
        print(f"{kind}: {written[kind]} of {count} written rightly")


def questions_of(name: str) -> list[Exercise]:
    grid = starter_named(name)
    assert grid is not None
    return [grid.exercise_at(cell) for cell in walk(grid, 0)]


def pieces_of(asked: Exercise, question: str) -> Iterator[tuple[str, str]]:
    """What has to be written: each number and each phrase of the question, with its kind."""
    for number in re.findall(r"\d+", asked.shown):
        yield "numbers", words(int(number))
    for phrase in PHRASES:
        if is_in(phrase, question):
            yield f'"{phrase}"', phrase


def is_in(phrase: str, text: str) -> bool:
    """Whether its words stand in the text, one after the other."""
    return f" {plain(phrase)} " in f" {plain(text)} "


def plain(text: str) -> str:
    """Its words, with numbers as words: "52" is fifty-two. One spelling of "takeaway"."""
    spelled = re.sub(r"\d+", lambda digits: words(int(digits[0])), text.lower().replace("takeaway", "take away"))
    return " ".join(re.findall(r"[a-z']+", spelled))


if __name__ == "__main__":
    main()
