"""What the verb `sheet` makes: the sheet, its answers, and the helper's page, all of them or none."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from saythesum.app.session.practice import grid_in, own_places
from saythesum.app.setup.clock import RealClock
from saythesum.app.setup.pupil_settings import settings_of
from saythesum.app.terminal.console import show, tell
from saythesum.errors import CallerError
from saythesum.office.sheets import code_for, keep_sheet
from saythesum.publishing.braille.pages import PageSize
from saythesum.publishing.braille.translator import Translator
from saythesum.publishing.sheets.as_sound import write_sound
from saythesum.publishing.sheets.in_braille import brf_sheet
from saythesum.publishing.sheets.in_print import helper_html, layout_of, pdf_of, sheet_html
from saythesum.publishing.whole_folder import whole_folder
from saythesum.reports.sheets.said_sheet import split_sentence
from saythesum.reports.sheets.sheet import Sheet
from saythesum.settings import Settings
from saythesum.speaking.voice import ToolVoice
from saythesum.store.pupils import pupil_code

ANSWERS_PAUSE_MS = 1000
"""Enough to follow with a finger: nothing is written."""


@dataclass(frozen=True, slots=True)
class SheetWish:
    grid: Path
    kind: str
    into: Path
    pupil: str
    for_once: Mapping[str, Any]
    """In place of the pupil's own settings of sheets."""


def make_sheet(wish: SheetWish, *, with_steps: bool, with_line: bool, with_pdf: bool) -> None:
    grid, pupil, own = grid_in(wish.grid), pupil_code(wish.pupil), own_places()
    settings = settings_of(pupil, own)
    settings = replace(settings, sheets=replace(settings.sheets, **wish.for_once))
    sheet = Sheet(code_for(own, grid), grid, settings.helping, with_steps=with_steps, with_line=with_line)
    with whole_folder(wish.into) as folder:
        told = _MAKERS[wish.kind](sheet, settings, folder)
        if with_pdf and wish.kind == "print":
            _add_pdf(folder)
        helper = folder / f"{sheet.code}-helper.html"
        helper.write_text(helper_html(sheet, settings.sheets), encoding="utf-8")
        names = sorted(file.name for file in folder.iterdir())
        keep_sheet(own, pupil, sheet.code, grid, RealClock().now())
    show(f"Sheet {sheet.code}, of {grid.title}. {told}")
    for name in names:
        show(str(wish.into / name))


def _print(sheet: Sheet, settings: Settings, folder: Path) -> str:
    for one, name in _with_answers(sheet):
        (folder / f"{name}.html").write_text(sheet_html(one, settings.sheets), encoding="utf-8")
    return split_sentence(layout_of(sheet, settings.sheets))


def _add_pdf(folder: Path) -> None:
    """Of each page there. Without the library it is told, and the HTML stays."""
    try:
        for file in sorted(folder.glob("*.html")):
            file.with_suffix(".pdf").write_bytes(pdf_of(file.read_text(encoding="utf-8")))
    except CallerError as missing:
        tell(str(missing))


def _braille(sheet: Sheet, settings: Settings, folder: Path) -> str:
    look = settings.sheets
    translator, size = Translator(look.braille), PageSize(look.braille_cells, look.braille_lines)
    for one, name in _with_answers(sheet):
        (folder / f"{name}.brf").write_bytes(brf_sheet(one, translator, size, spaces=look.braille_spaces))
    if translator.notice:
        tell(translator.notice)
    return f"Pages of {size.cells} cells and {size.lines} lines."


def _sound(sheet: Sheet, settings: Settings, folder: Path) -> str:
    pause_ms = settings.sheets.pause_ms
    voice = ToolVoice(settings.speech, own_places().cache)
    try:
        write_sound(sheet, voice, pause_ms, folder)
        write_sound(sheet.filled, voice, ANSWERS_PAUSE_MS, folder)
    finally:
        voice.close()
    return f"A file for each row, with {pause_ms / 1000:g} seconds after each sum."


def _with_answers(sheet: Sheet) -> tuple[tuple[Sheet, str], tuple[Sheet, str]]:
    """Each with its file's name."""
    return (sheet, sheet.code), (sheet.filled, f"{sheet.code}-answers")


_MAKERS: Mapping[str, Callable[[Sheet, Settings, Path], str]] = {"print": _print, "braille": _braille, "sound": _sound}
