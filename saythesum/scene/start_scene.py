"""What a window shows before a practice: the question of the first start, and how it is answered so far."""

from saythesum.core.exercises.adding import Sum
from saythesum.core.sums import Part
from saythesum.scene.caption import Caption
from saythesum.scene.grid import GridShown
from saythesum.scene.number_pad import BEGINNING, CHOOSING
from saythesum.scene.scene import NOW_WORDS, AnswerShown, ButtonShown, Now, Scene, SumShown
from saythesum.scene.spoken import Spoken
from saythesum.wording.numbers import words
from saythesum.wording.speak.said_shown import answer_name, asked_in_braille, sum_in_words

_NO_GRID = GridShown("", (), (), (), None, most_digits=2)
_NO_BUTTONS: tuple[ButtonShown, ...] = ()
_TRIED = Sum(10, 1)
_SUM_TRIED = SumShown(_TRIED.shown, sum_in_words(_TRIED))
_ANSWER_TRIED = AnswerShown(
    text=str(_TRIED.total),
    name=answer_name(_TRIED, Part.WHOLE),
    value=words(_TRIED.total),
    part="",
    is_of_sum=True,
    in_braille=asked_in_braille(_TRIED, Part.WHOLE),
    is_focused=False,
)


def start_scene(caption: str, choice: str = "", *, is_print_tried: bool = False) -> Scene:
    """`choice`: what Enter would answer. A sum that nobody is asked shows a size of print as it will be."""
    return Scene(
        now=Now.STARTING,
        now_words=NOW_WORDS[Now.STARTING],
        caption=Caption(f"{caption} {choice}" if is_print_tried else caption, is_help=True),
        verdict=None,
        sum=_SUM_TRIED if is_print_tried else None,
        answer=_ANSWER_TRIED if is_print_tried else None,
        grid=_NO_GRID,
        line=None,
        buttons=_NO_BUTTONS,
        shows_grid=False,
        spoken=Spoken(f"{caption} {choice}".strip(), turn=0),
        choice=choice,
        keys=CHOOSING if choice else BEGINNING,
    )
