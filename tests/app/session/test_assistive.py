"""The window for assistive software: a client of AT-SPI reads its tree and presses what stands there."""

from contextlib import ExitStack
from pathlib import Path

import pytest

from saythesum.scene.braille_line import braille_line
from tests.publishing.louis import cells_by_louis
from tests.screen.scenes import Shown
from tests.talk import Talk, plan_of
from tests.tools.assistive.braille_display import BLANK, braille_display, free_server
from tests.tools.assistive.client import NAMES, at_spi_client
from tests.tools.assistive.practice import STEPS, by_keys, in_a_window, keys_of, practised, wait_for_line
from tests.tools.assistive.screen_reader import orca, practise_with_orca
from tests.tools.assistive.session import Session, assistive_session
from tests.tools.touch_screen import Finger, finger, touch_screen
from tests.tools.x_server import x_server


def test_a_client_practises_a_whole_grid_as_keys_do(tmp_path: Path) -> None:
    """Each turn is heard whole, and the rows are the same as by keys."""
    expected = by_keys(tmp_path / "keys")
    first, *turns = expected.turns()
    home = tmp_path / "window"
    with (
        assistive_session(tmp_path) as session,
        in_a_window(session, home),
        at_spi_client(session) as client,
    ):
        session.enable()
        client.wait_for_all(first)
        shown = {(node["role"], node["name"]) for node in client.tree()}
        assert ("table cell", "fifty-seven add eight, not done") in shown
        assert ("column header", "add eight") in shown
        assert ("row header", "fifty-seven") in shown
        assert client.focused() == ("entry", "Answer", "38+5=")
        client.focus("Stop")
        client.wait_until(lambda: client.focused()[1], lambda name: name == "Stop")
        client.focus("Answer")
        client.wait_until(lambda: client.focused()[1], lambda name: name == "Answer")
        after = iter(turns)
        for step in STEPS:
            was_open = client.focused()[0] == "table cell"
            if isinstance(step, int):
                client.types(step)
            else:
                client.press(step)
            if step == "Grid" and was_open:
                client.wait_until(lambda: client.focused()[0], lambda role: role == "entry")  # nothing is said
            else:
                client.wait_for_all(next(after))
    assert next(after, None) is None
    assert practised(home).rows() == expected.rows()


class Pointer:
    """Of the X server's test extension. Places are in the window's pixels."""

    def __init__(self, session: Session) -> None:
        self._tool, self._window = session.server.tool, session.window()

    def slides(self, start: tuple[int, int], end: tuple[int, int]) -> None:
        for place, does in ((start, "mousedown"), (end, "mouseup")):
            self._tool("mousemove", "--window", self._window, *map(str, place), does, "1")


class FingerOn:
    """On a touch screen. Places are in the window's pixels."""

    def __init__(self, session: Session, finger: Finger) -> None:
        self._finger, self._at = finger, session.window_at()

    def slides(self, start: tuple[int, int], end: tuple[int, int]) -> None:
        left, top = self._at
        self._finger.slides((left + start[0], top + start[1]), (left + end[0], top + end[1]))


NOWHERE = (2, 2)
"""In the window's corner is no button."""


@pytest.mark.parametrize("is_touch", [False, True], ids=["pointer", "finger"])
def test_who_points_or_touches_practises_a_whole_grid_by_the_buttons_to_be_seen(tmp_path: Path, is_touch: bool) -> None:
    """Real clicks or touches, each let go where it was pressed; every target is 44 px or more. Slid off, none acts."""
    expected = by_keys(tmp_path / "keys")
    first, *turns = expected.turns()
    home = tmp_path / "window"
    with ExitStack() as stack:
        session = stack.enter_context(assistive_session(tmp_path, touch_screen if is_touch else x_server))
        stack.enter_context(in_a_window(session, home))
        client = stack.enter_context(at_spi_client(session))
        session.enable()
        client.wait_for_all(first)
        hand = FingerOn(session, stack.enter_context(finger(tmp_path))) if is_touch else Pointer(session)
        hand.slides(NOWHERE, NOWHERE)  # the pad comes
        (stop,) = client.middles("Stop")
        hand.slides(stop, NOWHERE)
        hand.slides(NOWHERE, stop)
        after = iter(turns)
        for step in STEPS:
            was_open = client.focused()[0] == "table cell"
            names = (*(NAMES[int(digit)] for digit in str(step)), "Enter") if isinstance(step, int) else (step,)
            for middle in client.middles(*names):
                hand.slides(middle, middle)
            if not (step == "Grid" and was_open):
                client.wait_for_all(next(after))
    assert practised(home).rows() == expected.rows()


CURSOR = 0xC0
"""Dots 7 and 8."""


def felt(text: str, behind: str = "") -> str:
    """As liblouis writes it in Unified English Braille: the cursor at the bar, two blanks before `behind`."""
    before, bar, after = text.partition("|")
    cells = cells_by_louis(before + after)
    if bar:
        at = len(cells_by_louis(before))
        cells = cells.ljust(at + 1, BLANK)
        cells = f"{cells[:at]}{chr(ord(cells[at]) | CURSOR)}{cells[at + 1 :]}"
    return f"{cells.ljust(len(cells_by_louis(before + after)) + 2, BLANK)}{cells_by_louis(behind)}".rstrip(BLANK)


def test_a_braille_display_without_a_screen_reader_practises_with_lines_compared_whole(tmp_path: Path) -> None:
    """Each line is waited for before the next press: keys and the display come by different ways."""
    home = tmp_path / "window"
    first_step = braille_line(Shown(Talk(plan_of((38, 57), (5, 8, 4)))).says("43", "45").scene).text
    assert first_step.startswith("Not yet 38 "), "which step is asked first is the tutor's affair"
    with (
        assistive_session(tmp_path) as session,
        braille_display(session, tmp_path) as display,
        in_a_window(session, home, "[braille]\nletters_as_digits = true\n"),
    ):
        session.wait_for_window()
        session.focus_window()
        display.wait_for(felt("38+5=|", "sum 1 of 6"))
        for typed in ("4", "44"):
            display.press("PASSDOTS 25")  # dots 1, 4 and 5: the letter d, without a number sign
            display.wait_for(felt(f"38+5={typed}|", "sum 1 of 6"))
        display.press("KEY_BACKSPACE")
        display.wait_for(felt("38+5=4|", "sum 1 of 6"))
        display.press("PASSDOTS 9")  # the letter c
        display.wait_for(felt("38+5=43|", "sum 1 of 6"))
        display.press("KEY_ENTER")
        display.wait_for(felt("Yes 38+8=|", "sum 2 of 6"))
        session.server.keys("4", "5", "Return")
        display.wait_for(felt(f"{first_step}|", "sum 2 of 6"))
        session.server.keys("Escape", "Tab", "Return")
        display.wait_for(felt("38: 43 |? ?"))
        display.press(f"ROUTE {len(cells_by_louis('38: 43 ? ')) + 1}")  # the last cell's place
        display.wait_for(felt("38: 43 ? |?"))
        session.server.keys("Tab", "Return")
        display.wait_for(felt("38+4=|", "sum 3 of 6"))


def test_of_two_displays_one_has_the_line_and_another_may_take_its_place(tmp_path: Path) -> None:
    """The line, and a digit that was typed on the first display, come to a narrower one at the same server."""
    home, server = tmp_path / "window", free_server()
    with assistive_session(tmp_path) as session, braille_display(session, tmp_path / "other", cells=32) as other:
        with ExitStack() as window:
            with braille_display(session, tmp_path / "wide", server=server) as wide:
                window.enter_context(in_a_window(session, home, "[braille]\nletters_as_digits = true\n"))
                session.wait_for_window()
                session.focus_window()
                wide.wait_for(felt("38+5=|", "sum 1 of 6"))
                wide.press("PASSDOTS 25")
                wide.wait_for(felt("38+5=4|", "sum 1 of 6"))
            narrow = window.enter_context(braille_display(session, tmp_path / "narrow", cells=20, server=server))
            narrow.wait_for(felt("38+5=4|"))
            narrow.press("FWINRT")
            narrow.wait_for(felt("sum 1 of 6"))
            other.press("KEY_ENTER")
            narrow.press("PASSDOTS 9")
            narrow.wait_for(felt("38+5=43|"))
            narrow.press("KEY_ENTER")
            narrow.wait_for(felt("Yes 38+8=|"))
        assert felt("38+5=|", "sum 1 of 6") not in other.lines
    assert [line["given"] for line in practised(home).lines if line["kind"] == "answer"] == [43]


def test_with_a_real_screen_reader_each_turn_is_heard_once_and_the_rows_are_those_of_keys(tmp_path: Path) -> None:
    """Orca, by its own log; its braille line has each turn, too.

    Twenty sessions in a row: `python -m tests.tools.assistive.screen_reader`.
    """
    expected = by_keys(tmp_path / "keys")
    said = practise_with_orca(tmp_path, expected)
    assert [line for line in said if line in expected.turns()] == expected.turns()
    assert practised(tmp_path / "window").rows() == expected.rows()


def test_whatever_comes_and_goes_the_practice_goes_on_and_nothing_is_answered_by_accident(tmp_path: Path) -> None:
    """A window of 200 pixels, a screen reader started and stopped in mid-practice, the bus lost and back again.

    The rows are those of the same keys without any of that.
    """
    expected, home = by_keys(tmp_path / "keys"), tmp_path / "window"
    turns = expected.turns()
    with assistive_session(tmp_path) as session, in_a_window(session, home):

        def press(*steps: int | str) -> None:
            for step in steps:
                session.server.keys(*keys_of(step))

        session.wait_for_window()
        session.focus_window()
        press(*STEPS[:2])
        session.resize_window(200, 150)
        press(STEPS[2])
        with orca(session, tmp_path) as reader:
            reader.wait_until_said(turns[3])
            press(STEPS[3])
            reader.wait_until_said(turns[4])
        press(*STEPS[4:6])
        session.lose_bus()
        press(*STEPS[6:9])
        session.start_bus()
        session.enable()
        press(*STEPS[9:])
        wait_for_line(home, lambda line: line["kind"] == "end")
    assert practised(home).rows() == expected.rows()
