"""The adult's own grids as files."""

from pathlib import Path

import pytest

from saythesum.core.grids.grid import Grid
from saythesum.core.grids.starters import STARTERS
from saythesum.errors import GridError
from saythesum.office.grids import (
    bring_grid_back,
    copy_grid,
    facts,
    give_grid_out,
    list_grids,
    open_grid,
    put_grid_away,
    rename_grid,
    save_grid,
    take_grid_in,
)
from tests.office.places import home_in

OARS = Grid("Rows of oars", (37, 58), (4, 6))


def test_a_grid_through_its_days(tmp_path: Path) -> None:
    own = home_in(tmp_path / "home")
    save_grid(own, "oars", OARS)
    copy_grid(own, "oars", "oars-2", title="More oars")
    rename_grid(own, "oars-2", "boats")
    assert [card.name for card in list_grids(own)][:2] == ["boats", "oars"]
    assert open_grid(own, "boats").title == "More oars"
    put_grid_away(own, "oars")
    assert "oars" not in [card.name for card in list_grids(own)]
    assert ("oars", True) in [(card.name, card.is_put_away) for card in list_grids(own, put_away=True)]
    bring_grid_back(own, "oars")
    assert open_grid(own, "oars") == OARS
    given = give_grid_out(own, "oars", tmp_path)
    take_grid_in(own, given, "from-next-door")
    assert open_grid(own, "from-next-door") == OARS


def test_nothing_is_written_over(tmp_path: Path) -> None:
    own = home_in(tmp_path / "home")
    save_grid(own, "oars", OARS)
    for refused in (
        lambda: save_grid(own, "oars", OARS),
        lambda: save_grid(own, STARTERS[0].name, OARS),
        lambda: rename_grid(own, STARTERS[0].name, "mine"),
        lambda: save_grid(own, "../oars", OARS),
        lambda: save_grid(own, "nul", OARS),
        lambda: open_grid(own, "orrs"),
    ):
        with pytest.raises(GridError):
            refused()
    assert sorted(path.name for path in tmp_path.rglob("*.toml")) == ["oars.toml"]


def test_a_broken_file_is_listed_with_its_line(tmp_path: Path) -> None:
    own = home_in(tmp_path)
    save_grid(own, "oars", OARS)
    (own.grids / "torn.toml").write_text("add = [3, 5\nstart = [37]\n")
    torn = next(card for card in list_grids(own) if card.name == "torn")
    assert torn.grid is None and torn.problem and "Line" in torn.problem


def test_what_a_grid_tells_apart(tmp_path: Path) -> None:
    """On 37 + 4: 31 is new-ten-lost, 40 stopped-at-the-ten; a double that is not there cannot show."""
    shown = facts(Grid("Oars", (37,), (4,))).shown
    assert {"new-ten-lost", "stopped-at-the-ten"} <= {
        *shown.told_apart,
        *(name for some in shown.alike for name in some),
    }
    assert not any({"new-ten-lost", "stopped-at-the-ten"} <= {*group} for group in shown.alike)
    within = facts(Grid("Oars", (31,), (4,))).shown
    assert "stopped-at-the-ten" in within.unseen
