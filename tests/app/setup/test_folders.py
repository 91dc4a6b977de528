"""Where things live: the platform's folders, or one place for all."""

import sys
from pathlib import Path

import pytest

from saythesum.app.setup.folders import BESIDE_NAME, Places, places, program_folders
from saythesum.errors import CallerError


def all_in(home: Path) -> Places:
    return Places(data=home, settings_file=home / "settings.toml", cache=home / "cache", models=home / "models")


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="the folders of the XDG specification")
def test_the_platforms_own_folders(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    # Source of the defaults: XDG Base Directory Specification 0.8, "Environment variables".
    for name in ("XDG_DATA_HOME", "XDG_CONFIG_HOME", "XDG_CACHE_HOME"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setenv("HOME", str(tmp_path))
    found = places({}, (tmp_path,))
    assert found == Places(
        data=tmp_path / ".local/share/saythesum",
        settings_file=tmp_path / ".config/saythesum/settings.toml",
        cache=tmp_path / ".cache/saythesum",
        models=tmp_path / ".local/share/saythesum/models",
    )
    assert found.records_file == tmp_path / ".local/share/saythesum/records.sqlite"
    assert list(tmp_path.iterdir()) == []


def test_one_place_for_all(tmp_path: Path) -> None:
    home = tmp_path / "stick"
    assert places({"SAYTHESUM_HOME": str(home)}, ()) == all_in(home)
    assert not home.exists()


def test_a_relative_place_is_made_certain_at_once(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("HOME", "/home/ferry")
    assert places({"SAYTHESUM_HOME": "stick"}, ()) == all_in(tmp_path / "stick")
    assert places({"SAYTHESUM_HOME": "~/stick"}, ()) == all_in(Path("/home/ferry/stick"))


def test_a_folder_beside_the_program(tmp_path: Path) -> None:
    first, second = tmp_path / "bin", tmp_path / "checkout"
    (second / BESIDE_NAME).mkdir(parents=True)
    assert places({}, (first, second)) == all_in(second / BESIDE_NAME)
    (first / BESIDE_NAME).mkdir(parents=True)
    assert places({}, (first, second)) == all_in(first / BESIDE_NAME)
    assert places({"SAYTHESUM_HOME": str(tmp_path)}, (first, second)) == all_in(tmp_path)


@pytest.mark.parametrize("home", ["", "  "])
def test_an_empty_name_names_nothing(home: str, tmp_path: Path) -> None:
    (tmp_path / BESIDE_NAME).mkdir()
    assert places({"SAYTHESUM_HOME": home}, (tmp_path,)) == all_in(tmp_path / BESIDE_NAME)


def test_a_file_is_no_place(tmp_path: Path) -> None:
    (tmp_path / "rolls").write_text("12")
    with pytest.raises(CallerError, match="rolls', which is not a folder: name one"):
        places({"SAYTHESUM_HOME": str(tmp_path / "rolls")}, ())
    with pytest.raises(CallerError, match="no such user is known"):
        places({"SAYTHESUM_HOME": "~nobody-of-this-name/stick"}, ())


def test_beside_the_program_is_where_it_was_called_and_where_that_leads(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    real = tmp_path / "venv" / "bin" / "saythesum"
    real.parent.mkdir(parents=True)
    real.touch()
    called = tmp_path / "links" / "saythesum"
    called.parent.mkdir()
    called.symlink_to(real)
    monkeypatch.setattr(sys, "argv", [str(called), "practise"])
    checkout = Path(__file__).resolve().parents[3]
    assert program_folders() == (called.parent, real.parent, checkout)
