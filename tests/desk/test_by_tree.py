"""The same way by the accessibility tree alone: what a screen reader tells is enough to come to a practice."""

from pathlib import Path

from playwright.sync_api import Browser

from saythesum.store.reading import kept_grid
from tests.desk.opened import opened
from tests.desk.practising import end_practices, practice_of, waited_for
from tests.desk.tree import Tree
from tests.tools.x_server import x_server


def test_from_an_empty_home_to_a_pupil_who_practises_a_grid_of_ones_own(tmp_path: Path, browser: Browser) -> None:
    home = tmp_path / "home"
    home.mkdir()
    with x_server(tmp_path) as screen:
        try:
            with opened(home, more=screen.environment) as desk:
                tab = browser.new_page()
                tab.goto(desk.way_in.as_uri())
                tree = Tree(tab)
                tree.the("heading", "Today")
                tree.does("link", "Add a pupil")
                tree.the("heading", "Add a pupil")
                code = tree.the_focused("textbox", "Code or nickname")
                assert "No real name" in code.description
                tree.does("button", "Add the pupil")
                tree.the_focused("alert", "Not saved yet: something has to be put right")
                wrong = tree.the("textbox", "Code or nickname")
                assert "must be 1 to 20 letters" in wrong.description
                tree.writes("Code or nickname", "m1")
                tree.does("button", "Add the pupil")
                tree.the("heading", "m1")
                tree.does("link", "Make a grid for m1")
                tree.does("button", "Make it as wished below")
                tree.the("heading", "A grid as wished")
                assert {"columnheader", "rowheader", "cell"} <= {node.role for node in tree.nodes()}
                tree.does("button", "Save it for m1")
                tree.the("heading", "Start a practice")
                tree.does("button", "Start m1")
                tree.the_focused("status", "")
                tab.close()
            practice = waited_for(lambda: practice_of(home, "m1"))
            grid = kept_grid(practice.grid_text)
            assert (len(grid.starts), len(grid.amounts)) == (4, 3)
        finally:
            end_practices(home)
