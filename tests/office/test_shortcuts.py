"""Icons: written by each platform's rules, and the Linux one read as its specification says."""

import configparser
import shlex
import subprocess
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from saythesum.errors import CallerError
from saythesum.office.upkeep.shortcuts import icons, put_icons


def exec_words(text: str) -> list[str]:
    """Read back by the Desktop Entry Specification 1.5: the general escapes of strings, then the quoting of the chapter
    "The Exec key" (inside double quotes a backslash stands before a double quote, a backtick, a dollar sign and a
    backslash, as in a shell; %% is a percent sign). The shell reads them here (POSIX, "Double-Quotes")."""
    parser = configparser.RawConfigParser(delimiters=("=",), comment_prefixes=("#",), interpolation=None)
    parser.optionxform = str  # type: ignore[method-assign, assignment]
    parser.read_string(text)
    value = parser["Desktop Entry"]["Exec"].replace("\\\\", "\\")
    shown = subprocess.run(["sh", "-c", f'printf "%s\\0" {value}'], capture_output=True, text=True, check=True).stdout
    return [word.replace("%%", "%") for word in shown.split("\0")[:-1]]


@given(st.text(st.characters(codec="utf-8", exclude_categories=("C", "Z")) | st.just(" "), min_size=1, max_size=30))
@settings(max_examples=40, deadline=None)
def test_whatever_the_path_the_words_come_back(name: str) -> None:
    program = f"/opt/{name}/saythesum"
    practise, desk = icons([program], Path(f"/srv/{name}"), "linux")
    home = ["env", f"SAYTHESUM_HOME={Path(f'/srv/{name}')}"]
    assert exec_words(practise.text) == [*home, program]
    assert exec_words(desk.text) == [*home, program, "desk"]


def test_the_keys_that_the_specification_requires() -> None:
    for icon in icons(["saythesum"], None, "linux"):
        assert icon.file_name.endswith(".desktop")
        lines = icon.text.splitlines()
        assert lines[0] == "[Desktop Entry]"
        assert {"Type=Application", "Terminal=false"} <= {*lines}
        assert any(line.startswith("Name=") for line in lines)


def test_the_other_platforms_have_a_script_each() -> None:
    assert [icon.file_name for icon in icons(["x"], None, "win32")] == ["Practise sums.cmd", "Desk for sums.cmd"]
    _, desk = icons(["/Users/it's/saythesum"], Path("/Users/a b"), "darwin")
    assert shlex.split(desk.text.splitlines()[1]) == [
        *("exec", "env", "SAYTHESUM_HOME=/Users/a b", "/Users/it's/saythesum", "desk")
    ]
    practise, _ = icons([r"C:\Program Files\saythesum.exe"], Path("D:\\100%"), "win32")
    assert r'"C:\Program Files\saythesum.exe"' in practise.text and '"SAYTHESUM_HOME=D:\\100%%"' in practise.text


def test_both_are_put_where_there_is_a_folder_and_again_over_it(tmp_path: Path) -> None:
    desktop, missing = tmp_path / "Desktop", tmp_path / "menu"
    desktop.mkdir()
    for _ in range(2):
        written = put_icons(["/usr/bin/saythesum"], None, "linux", [desktop, missing])
        assert [file.name for file in written] == ["saythesum-practise.desktop", "saythesum-desk.desktop"]
        assert all(file.stat().st_mode & 0o100 for file in written)
    with pytest.raises(CallerError, match="There is no folder"):
        put_icons(["saythesum"], None, "linux", [missing])
    with pytest.raises(CallerError, match="line break"):
        icons(["/opt/a\nb"], None, "linux")
