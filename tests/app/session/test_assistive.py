"""The window for assistive software: a client of AT-SPI reads its tree and presses what stands there."""

from pathlib import Path

import pytest

from tests.publishing.louis import cells_by_louis
from tests.tools.assistive.braille_display import braille_display
from tests.tools.assistive.client import NAMES, Client, at_spi_client
from tests.tools.assistive.practice import STEPS, by_keys, in_a_window, practised
from tests.tools.assistive.screen_reader import practise_with_orca
from tests.tools.assistive.session import Session, assistive_session


@pytest.mark.timeout(120)
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


@pytest.mark.timeout(120)
def test_a_pointer_practises_a_whole_grid_by_the_buttons_it_sees(tmp_path: Path) -> None:
    """Real clicks on an X server, each let go where it was pressed; every target is 44 px or more."""
    expected = by_keys(tmp_path / "keys")
    first, *turns = expected.turns()
    home = tmp_path / "window"
    with assistive_session(tmp_path) as session, in_a_window(session, home), at_spi_client(session) as client:
        session.enable()
        client.wait_for_all(first)
        click(session, client, "Number pad", is_button=False)  # somewhere: the pad comes
        after = iter(turns)
        for step in STEPS:
            was_open = client.focused()[0] == "table cell"
            for name in (*(NAMES[int(digit)] for digit in str(step)), "Enter") if isinstance(step, int) else (step,):
                click(session, client, name)
            if not (step == "Grid" and was_open):
                client.wait_for_all(next(after))
    assert practised(home).rows() == expected.rows()


def click(session: Session, client: Client, name: str, *, is_button: bool = True) -> None:
    left, top, width, height = client.place(name) if is_button else (2, 2, 44, 44)
    assert width >= 44 <= height, name
    session.server.tool("mousemove", "--window", session.window(), str(left + width // 2), str(top + height // 2))
    session.server.tool("click", "1")


CURSOR = "\u28c0"
"""Dots 7 and 8."""


def felt(text: str, *, has_cursor: bool = True) -> str:
    """As liblouis writes it in Unified English Braille, in print before the cursor and after it."""
    before, _, after = text.partition("|")
    line = cells_by_louis(before) + (CURSOR if has_cursor else "") + cells_by_louis(after)[bool(after) :]
    return line.rstrip("\u2800")


@pytest.mark.timeout(120)
def test_a_braille_display_without_a_screen_reader_practises_with_lines_compared_whole(tmp_path: Path) -> None:
    home = tmp_path / "window"
    with (
        assistive_session(tmp_path) as session,
        braille_display(session, tmp_path) as display,
        in_a_window(session, home, "[braille]\nletters_as_digits = true\n"),
    ):
        session.wait_for_window()
        session.focus_window()
        display.wait_for(felt("38+5=|  sum 1 of 6"))
        for typed in ("4", "44"):
            display.press("PASSDOTS 25")  # dots 1, 4 and 5: the letter d, without a number sign
            display.wait_for(felt(f"38+5={typed}|"))
        display.press("KEY_BACKSPACE")
        display.wait_for(felt("38+5=4|"))
        display.press("PASSDOTS 9")  # the letter c
        display.wait_for(felt("38+5=43|"))
        display.press("KEY_ENTER")
        display.wait_for(felt("Yes 38+8=|"))
        session.server.keys("4", "5", "Return")
        display.wait_for(felt("Not yet 38 one more? |"))
        session.server.keys("Escape", "Tab", "Return")
        display.wait_for(felt("38: 43 ? ?", has_cursor=False))
        display.press(f"ROUTE {len(felt('38: 43 ? ', has_cursor=False)) + 1}")  # the last cell's place
        session.server.keys("Tab", "Return")
        display.wait_for(felt("38+4=|  sum 3 of 6"))


@pytest.mark.timeout(120)
def test_with_a_real_screen_reader_each_turn_is_heard_once_and_the_rows_are_those_of_keys(tmp_path: Path) -> None:
    """Orca, by its own log. Twenty sessions in a row: `python -m tests.tools.assistive.screen_reader`."""
    expected = by_keys(tmp_path / "keys")
    said = practise_with_orca(tmp_path, expected)
    assert [line for line in said if line in expected.turns()] == expected.turns()
    assert practised(tmp_path / "window").rows() == expected.rows()
