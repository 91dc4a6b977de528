"""Figures of sheets: `python -m tests.tools.sheets [COUNT]`, with COUNT sums to be heard back."""

import sys
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory

from saythesum.publishing.braille.translator import Translator
from saythesum.publishing.pdf import pdf_of
from saythesum.publishing.sheets.in_braille import in_signs
from saythesum.publishing.sheets.in_print import layout_of, sheet_html
from saythesum.settings import Paper, Settings
from saythesum.sound.resample import for_listening
from saythesum.speaking.voice import ToolVoice
from saythesum.wording.speak.exercises.said_exercises import words_of
from saythesum.wording.speak.lengths import capital
from tests.publishing.louis import print_of
from tests.publishing.sums_heard import SUMS, sum_heard
from tests.publishing.test_print import ink_mm, look
from tests.reports.sheets.made_sheets import sheet


def braille() -> None:
    signs = Translator("uncontracted").signs
    texts = [in_signs(one.written, spaces=spaces) for one in SUMS for spaces in (False, True)]
    back = sum(print_of(signs(text)) == text for text in texts)
    print(f"sums back from braille by liblouis: {back} of {len(texts)}")


def print_sizes(folder: Path) -> None:
    papers: tuple[Paper, ...] = ("A4", "A3")
    for points in (18, 24, 36, 48):
        for paper in papers:
            layout = layout_of(sheet(), look(points, paper))
            ink = ink_mm(folder, pdf_of(sheet_html(sheet().filled, look(points, paper))), "5")
            print(f"N{points} on {paper}: a digit is {ink:.1f} mm high; enough to {layout.readable_to_cm} cm")


def heard(count: int, folder: Path) -> None:
    voice = ToolVoice(Settings().speech, folder)
    asked = Random(5).sample(SUMS, min(count, len(SUMS)))
    missed = []
    for one in asked:
        phrase = capital(f"{words_of(one).whole(one)}.")
        came = sum_heard(for_listening(voice.render(phrase)))
        missed += [f"{one.shown} as {came}"] if came != one.shown else []
    voice.close()
    print(f"sums heard back, of all {len(SUMS)}: {len(asked) - len(missed)} of {len(asked)}; {', '.join(missed)}")


if __name__ == "__main__":
    with TemporaryDirectory() as scratch:
        braille()
        print_sizes(Path(scratch))
        heard(int(sys.argv[1]) if len(sys.argv) > 1 else 100, Path(scratch))
