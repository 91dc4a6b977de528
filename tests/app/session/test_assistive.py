"""The window for assistive software: a client of AT-SPI reads its tree and presses what stands there."""

from pathlib import Path

import pytest

from tests.tools.assistive.client import at_spi_client
from tests.tools.assistive.practice import STEPS, by_keys, in_a_window, practised
from tests.tools.assistive.screen_reader import practise_with_orca
from tests.tools.assistive.session import assistive_session


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
def test_with_a_real_screen_reader_each_turn_is_heard_once_and_the_rows_are_those_of_keys(tmp_path: Path) -> None:
    """Orca, by its own log. Twenty sessions in a row: `python -m tests.tools.assistive.screen_reader`."""
    expected = by_keys(tmp_path / "keys")
    said = practise_with_orca(tmp_path, expected)
    assert [line for line in said if line in expected.turns()] == expected.turns()
    assert practised(tmp_path / "window").rows() == expected.rows()
