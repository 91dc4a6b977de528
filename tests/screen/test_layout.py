"""The layout without a window: nothing is cut off, nothing overlaps, what is chosen stays."""

import itertools
from collections.abc import Iterator
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from saythesum.keyboard.keys import Focus
from saythesum.scene.caption import Caption
from saythesum.scene.number_pad import CHOOSING, NUMBER_PAD
from saythesum.scene.scene import Now, Scene
from saythesum.screen.blocks.buttons import LEAST_TARGET_PX
from saythesum.screen.blocks.captions import words_of
from saythesum.screen.layout import lay_out
from saythesum.screen.look import FIRST_STEP, LAST_STEP, VIEWS, Look
from saythesum.screen.page import LARGE_PRINT_OF_HEIGHT, LARGE_PRINT_PX, LEAST_PX, Layout
from saythesum.screen.shapes import Arch, Bar, Box, Frame, Shape, Words
from saythesum.settings import View
from tests.screen.rulers import PlainRuler
from tests.screen.scenes import scenes

USUAL = (1366, 768)
WINDOWS = ((800, 600), USUAL, (3840, 2160))
SIZES = ((200, 150), *WINDOWS)
SCENES = scenes()
RULER = PlainRuler()
LOOKS = [
    Look(view, step, has_pad=has_pad)
    for has_pad in (False, True)
    for view in VIEWS
    for step in range(LAST_STEP + 1)
    if step < LAST_STEP or view in ("sum", "grid")  # in the others the last step is as in the sum's, by a test below
]
PAD = set(NUMBER_PAD)


def faults(layout: Layout) -> Iterator[str]:
    window = Box(0, 0, layout.width, layout.height)
    for shape in layout.shapes:
        if not _is_inside(shape.box, window):
            yield f"cut off: {shape}"
        if isinstance(shape, Words) and not shape.text.strip():
            yield f"nothing in it: {shape}"
    for one, other in itertools.combinations(layout.shapes, 2):
        if _collide(one, other):
            yield f"overlap: {one} and {other}"


def _collide(one: Shape, other: Shape) -> bool:
    """Words may stand inside a frame, on a bar of their own (headers) or above their own underline."""
    if not _meet(one.box, other.box):
        return False
    match one, other:
        case (Words(), Words()) | (Arch(), Arch()) | (Words(), Arch()) | (Arch(), Words()):
            return True
        case (Words() as words, Frame() as frame) | (Frame() as frame, Words() as words):
            return not _is_inside(words.box, frame.box.inside(frame.thick_px))
        case (Words() as words, Bar() as bar) | (Bar() as bar, Words() as words):
            is_underline = bar.box.x == words.box.x and bar.box.bottom >= words.box.bottom and bar.is_mark
            return not (_is_inside(words.box, bar.box) or is_underline)
        case (Frame(), Frame()):
            return True
        case _:
            return False


def _is_inside(box: Box, outer: Box) -> bool:
    return outer.x <= box.x and outer.y <= box.y and box.right <= outer.right and box.bottom <= outer.bottom


def _meet(one: Box, other: Box) -> bool:
    return one.x < other.right and other.x < one.right and one.y < other.bottom and other.y < one.bottom


def texts(layout: Layout) -> list[str]:
    return [shape.text for shape in layout.shapes if isinstance(shape, Words)]


def sum_in(layout: Layout) -> Words:
    return next(shape for shape in layout.shapes if isinstance(shape, Words) and shape.is_tight and " + " in shape.text)


@settings(max_examples=150, deadline=None)
@given(
    name=st.sampled_from(sorted(SCENES)),
    width=st.integers(1, 4000),
    height=st.integers(1, 2400),
    look=st.sampled_from(LOOKS),
    caption=st.text(st.characters(codec="utf-8", categories=("L", "N", "P", "Zs")), max_size=900),
    letter=st.floats(0.3, 1.4),
)
def test_nothing_is_cut_off_in_any_window(  # noqa: PLR0917
    name: str, width: int, height: int, look: Look, caption: str, letter: float
) -> None:
    shown = replace(SCENES[name], caption=Caption(caption, is_help=True))
    assert list(faults(lay_out(shown, width, height, look, PlainRuler(letter, letter)))) == []


LONG = ("keys-aloud", "large-numbers", "long-help")
"""More is said here than help in short wording ever is: where room is short, its print may be smaller than N24."""


@pytest.mark.parametrize("size", SIZES, ids=str)
@pytest.mark.parametrize("name", SCENES)
def test_nothing_is_cut_off_or_overlaps_or_is_missing_in_any_view_and_size_of_print(
    name: str, size: tuple[int, int]
) -> None:
    """Verdict, help, answer and focus are there; in a sliver of a window some of it has no room. All looks in a usual
    window, every other one in the others."""
    large_px = max(LARGE_PRINT_PX, round(size[1] * LARGE_PRINT_OF_HEIGHT))
    least_px = round(large_px * LEAST_PX / LARGE_PRINT_PX) if name in LONG else large_px
    for look in LOOKS if size == USUAL else LOOKS[SIZES.index(size) % 2 :: 2]:
        layout = lay_out(SCENES[name], *size, look, RULER)
        assert list(faults(layout)) == [], look
        if size in WINDOWS:
            assert list(missing_in(layout, SCENES[name], look)) == [], look
            assert min(words.digit_px for words in words_in(layout)) >= least_px, look


def missing_in(layout: Layout, shown: Scene, look: Look) -> Iterator[str]:
    """What is cut off and what overlaps is in `faults`."""
    is_one_cell = look.view == "one cell" or look.step == LAST_STEP
    if shown.for_adult:  # in place of all else
        read = " ".join(texts(layout))
        yield from (line for line in shown.for_adult if " ".join(words_of(line)) not in read)
        return
    if shown.sum is None or shown.answer is None or (is_one_cell and shown.now in (Now.ADULTS_TURN, Now.PAUSED)):
        return
    text = " ".join(texts(layout))
    if shown.verdict and shown.verdict.text not in text:
        yield "verdict"
    if (shown.caption.is_help or not is_one_cell) and " ".join(words_of(shown.caption.text)) not in text:
        yield "help"
    if shown.sum.text not in texts(layout) or shown.answer.text not in ("", *texts(layout)):
        yield "sum or answer"
    if shown.answer.part not in text:
        yield "name of the part"
    focused = [button.focus for button in shown.buttons if button.is_focused]
    focused += [Focus.ANSWER] * shown.answer.is_focused
    marked = [shape.box for shape in layout.shapes if isinstance(shape, Frame) and shape.is_mark]
    if any(button.box not in marked for button in layout.buttons if button.presses in focused):
        yield "mark of the focus"
    if set(focused) - {button.presses for button in layout.buttons}:
        yield "focus"


@pytest.mark.parametrize(
    ("view", "size"),
    [
        *((view, size) for view in ("sum", "one cell") for size in WINDOWS),
        *((view, size) for view in ("grid", "number line") for size in WINDOWS[1:]),
    ],
    ids=str,
)
def test_with_larger_print_everything_grows(size: tuple[int, int], view: View) -> None:
    """Verdict, help and buttons with the sum. Beside a picture in a small window help stays in large print."""
    layouts = [lay_out(SCENES["not-yet"], *size, Look(view, step), RULER) for step in range(LAST_STEP)]
    assert [layout.caption_px for layout in layouts] == sorted({layout.caption_px for layout in layouts})
    verdicts = [next(line.digit_px for line in words_in(layout) if "Not yet." in line.text) for layout in layouts]
    assert verdicts == sorted(set(verdicts))
    sums = [sum_in(layout).digit_px for layout in layouts]
    assert sums == sorted(sums) or view != "sum", "there the rest takes its room"
    buttons = [line.digit_px for layout in layouts for line in words_in(layout) if line.text == "Question"]
    assert buttons == sorted(buttons)
    assert len(buttons) >= FIRST_STEP or view != "sum"


def words_in(layout: Layout) -> list[Words]:
    return [shape for shape in layout.shapes if isinstance(shape, Words)]


@given(width=st.integers(800, 4000), height=st.integers(600, 2400), step=st.integers(0, FIRST_STEP))
@settings(max_examples=60, deadline=None)
def test_the_sum_keeps_its_size_whatever_is_said(width: int, height: int, step: int) -> None:
    of_one_grid = [SCENES[name] for name in ("asked", "typed", "verdict", "guided", "not-yet")]
    heights = {sum_in(lay_out(shown, width, height, Look(step=step), RULER)).digit_px for shown in of_one_grid}
    assert len(heights) == 1


@pytest.mark.parametrize("size", WINDOWS, ids=str)
def test_the_sum_grows_with_every_step_up_to_a_cell_that_fills_the_window(size: tuple[int, int]) -> None:
    """From the first step on the sum may have the whole width already."""
    width, height = size
    layouts = [lay_out(SCENES["asked"], width, height, Look(step=step), RULER) for step in range(LAST_STEP + 1)]
    heights = [sum_in(layout).digit_px for layout in layouts]
    assert heights == sorted(heights)
    assert len(set(heights[: FIRST_STEP + 1])) == FIRST_STEP + 1
    assert heights[0] >= LARGE_PRINT_PX
    assert heights[-1] > heights[FIRST_STEP]
    for layout in (layouts[FIRST_STEP], layouts[-1]):
        right, foot = (max(edges) for edges in zip(*((s.box.right, s.box.bottom) for s in layout.shapes), strict=True))
        assert right > 0.9 * width or foot > 0.9 * height


@pytest.mark.parametrize("name", SCENES)
def test_the_last_step_shows_what_the_view_of_one_cell_does(name: str) -> None:
    one_cell, last = (
        lay_out(SCENES[name], 1366, 768, look, RULER) for look in (Look("one cell"), Look(step=LAST_STEP))
    )
    assert " ".join(texts(one_cell)) == " ".join(texts(last))
    largest = {lay_out(SCENES[name], *USUAL, Look(view, LAST_STEP), RULER) for view in VIEWS if view != "grid"}
    assert len(largest) == 1


def test_one_cell_is_the_sum_alone_until_there_is_a_verdict_or_help() -> None:
    assert texts(lay_out(SCENES["typed"], 800, 600, Look("one cell"), RULER)) == ["38 + 3", "=", "4"]
    guided = texts(lay_out(SCENES["guided"], 800, 600, Look("one cell"), RULER))
    assert {"To the next ten", "57 + 8", "Sixty. How many to get there?", "Help"} <= set(guided)


def test_large_print_is_the_least_of_what_is_read_where_there_is_room() -> None:
    """Source: EN 301 549, 5.1.4: a capital H is at least 0.7 degrees high; England's large print tests use N24."""
    layout = lay_out(SCENES["guided"], 1366, 768, Look(step=0), RULER)
    assert min(shape.digit_px for shape in layout.shapes if isinstance(shape, Words)) >= LARGE_PRINT_PX


@pytest.mark.parametrize(
    ("view", "size"),
    [*(("sum", size) for size in WINDOWS), *((view, size) for view in ("grid", "number line") for size in WINDOWS[1:])],
    ids=str,
)
def test_nothing_jumps_from_question_to_question(size: tuple[int, int], view: View) -> None:
    """In a small window help takes some of a picture's room."""
    places = {
        (sum_in(layout).box.x, sum_in(layout).box.y)
        for layout in (lay_out(SCENES[name], *size, Look(view), RULER) for name in ("asked", "typed", "not-yet"))
    }
    assert len(places) == 1


def test_whatever_is_said_is_there_to_read_in_every_usual_window() -> None:
    for size in SIZES[1:]:
        for name, shown in SCENES.items():
            layout = lay_out(shown, *size, Look(step=FIRST_STEP), RULER)
            assert layout.is_caption_whole, (name, size)
            assert layout.caption_px >= LEAST_PX
            said = shown.for_adult or (shown.caption.text,)
            assert all(" ".join(words_of(line)) in " ".join(texts(layout)) for line in said)


def test_what_goes_first_where_room_is_short() -> None:
    """Buttons, then the turn's line, then the number line, then the focused button, then the caption; the sum stays."""
    shown = SCENES["guided"]
    gone: list[str] = []
    for height in range(900, 60, -2):
        layout = lay_out(shown, 900, height, Look("number line", step=0), RULER)
        seen = texts(layout)
        there = {
            "buttons": "Stop" in seen,
            "focused button": "Help" in seen,
            "number line": any(isinstance(shape, Arch) for shape in layout.shapes),
            "turn": shown.now_words in seen,
            "caption": any(text.startswith("Sixty") for text in seen),
        }
        gone += [name for name, is_there in there.items() if not is_there and name not in gone]
        assert shown.sum
        assert shown.sum.text in seen
    assert gone == ["buttons", "turn", "number line", "focused button", "caption"]


@pytest.mark.parametrize("size", [(800, 600), (1366, 768), (3840, 2160)], ids=str)
def test_every_button_is_there_and_large_enough_to_touch(size: tuple[int, int]) -> None:
    layout = lay_out(SCENES["asked"], *size, Look(), RULER)
    assert {button.presses for button in layout.buttons} == set(Focus) - {Focus.PATTERNS}
    assert all(button.box.width >= LEAST_TARGET_PX <= button.box.height for button in layout.buttons)
    assert LEAST_TARGET_PX == 44  # WCAG 2.2, success criterion 2.5.5


@pytest.mark.parametrize("size", WINDOWS, ids=str)
@pytest.mark.parametrize("name", SCENES)
def test_a_number_pad_is_there_whole_or_not_at_all_and_takes_no_button_away(name: str, size: tuple[int, int]) -> None:
    """What is said keeps its place, too: see above, where half of the looks have a pad."""
    for look in LOOKS:
        buttons = {button.presses for button in lay_out(SCENES[name], *size, look, RULER).buttons}
        without = {
            button.presses for button in lay_out(SCENES[name], *size, replace(look, has_pad=False), RULER).buttons
        }
        assert not SCENES[name].buttons or buttons & PAD in (set(), PAD), look
        assert not without - buttons, look
        assert look.has_pad or not SCENES[name].buttons or not buttons & PAD


@pytest.mark.parametrize(("size", "step"), [((800, 600), 2), *((size, FIRST_STEP) for size in WINDOWS[1:])], ids=str)
def test_a_number_pad_fits_beside_every_question(size: tuple[int, int], step: int) -> None:
    """In the first size of print; in a small window one that is smaller."""
    least_px = round(44 * max(LARGE_PRINT_PX, round(size[1] * LARGE_PRINT_OF_HEIGHT)) / LARGE_PRINT_PX)
    for name in ("asked", "typed", "guided", "verdict", "not-yet", "total"):
        layout = lay_out(SCENES[name], *size, Look(step=step, has_pad=True), RULER)
        keys = [button.box for button in layout.buttons if button.presses in PAD]
        assert len(keys) == len(PAD), name
        assert all(box.width >= least_px <= box.height for box in keys)
        assert not any(_meet(one, other) for one, other in itertools.combinations(keys, 2))


def test_the_first_questions_have_buttons_to_answer_them() -> None:
    for name in ("starting", "print-tried"):
        for size in WINDOWS:
            layout = lay_out(SCENES[name], *size, Look(), RULER)
            assert {button.presses for button in layout.buttons} == set(CHOOSING), (name, size)


def test_where_tab_is_shows_without_any_colour() -> None:
    """By a frame at least twice as thick, by bold letters and by a line under the name; nothing moves."""
    here, elsewhere = SCENES["guided"], SCENES["asked"]
    layouts = [lay_out(shown, 1366, 768, Look(), RULER) for shown in (here, elsewhere)]
    assert [button.box for button in layouts[0].buttons] == [button.box for button in layouts[1].buttons]
    boxes = {button.presses: button.box for button in layouts[0].buttons}
    thick = {shape.box: shape.thick_px for shape in layouts[0].shapes if isinstance(shape, Frame)}
    assert thick[boxes[Focus.HELP]] >= 2 * thick[boxes[Focus.SKIP]]
    bold = [shape.text for shape in layouts[0].shapes if isinstance(shape, Words) and shape.is_bold]
    assert "Help" in bold
    assert "Skip" not in bold


def test_a_grid_too_large_says_which_part_of_it_is_shown() -> None:
    layout = lay_out(SCENES["large-numbers"], 1366, 768, Look("grid"), RULER)
    assert any(text.startswith("Row") and "of 20" in text for text in texts(layout))
    assert {"999", "+5"} <= set(texts(layout))


def test_the_grid_marks_the_current_cell_without_any_colour() -> None:
    layout = lay_out(SCENES["guided"], 1366, 768, Look("grid"), RULER)
    turned = {shape.text for shape in layout.shapes if isinstance(shape, Words) and shape.is_turned}
    assert turned == {"57", "+8"}


def test_the_grid_button_shows_the_grid() -> None:
    opened = replace(SCENES["asked"], shows_grid=True)
    assert lay_out(opened, 1366, 768, Look(), RULER) == lay_out(SCENES["asked"], 1366, 768, Look("grid"), RULER)


def test_one_cell_says_in_words_when_nothing_is_asked() -> None:
    """In the adult's turn that is all that a digit marks."""
    for scene in (SCENES["adult"], SCENES["paused"]):
        shown = " ".join(texts(lay_out(scene, 800, 600, Look("one cell"), RULER)))
        assert shown == " ".join(scene.for_adult or [scene.now_words])


def test_at_the_end_no_question_stays() -> None:
    for look in LOOKS:
        assert " ".join(texts(lay_out(SCENES["over"], 800, 600, look, RULER))) == SCENES["over"].caption.text


def test_a_scene_before_the_first_question_is_its_caption() -> None:
    caption = Caption("Press Enter to begin.", is_help=False)
    nothing_asked = replace(SCENES["asked"], sum=None, answer=None, line=None, caption=caption)
    for size in SIZES:
        for look in LOOKS:
            layout = lay_out(nothing_asked, *size, look, RULER)
            assert list(faults(layout)) == []
    assert " ".join(texts(lay_out(nothing_asked, 800, 600, Look(), RULER))).count("Press Enter to begin.") == 1
