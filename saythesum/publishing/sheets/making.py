"""A sheet, its answers, and the helper's page as files: all of them or none. Desk and verb both call it."""

from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Protocol

from saythesum.core.grids.grid import Grid
from saythesum.errors import CallerError
from saythesum.office.papers.sheets import code_for, keep_sheet
from saythesum.office.places import Places as OfficePlaces
from saythesum.publishing.braille.pages import PageSize
from saythesum.publishing.braille.translator import Translator
from saythesum.publishing.pdf import pdf_of
from saythesum.publishing.sheets.as_sound import write_sound
from saythesum.publishing.sheets.in_braille import brf_sheet
from saythesum.publishing.sheets.in_print import helper_html, layout_of, sheet_html
from saythesum.publishing.whole_folder import whole_folder
from saythesum.reports.sheets.said_sheet import split_sentence
from saythesum.reports.sheets.sheet import Sheet
from saythesum.settings import Settings
from saythesum.speaking.voice import ToolVoice

ANSWERS_PAUSE_MS = 1000
"""Enough to follow with a finger: nothing is written."""


class Places(OfficePlaces, Protocol):
    @property
    def cache(self) -> Path:
        """Of phrases that were rendered before."""


@dataclass(frozen=True, slots=True)
class SheetWish:
    grid: Grid
    pupil: str
    kind: str
    """print, braille or sound."""
    with_steps: bool = False
    with_line: bool = False
    with_pdf: bool = False


@dataclass(frozen=True, slots=True)
class MadeSheet:
    code: str
    files: tuple[str, ...]
    """By name."""
    about: str
    """A sentence for the adult: how the grid is laid out."""
    notices: tuple[str, ...]
    """What could not be done as asked for."""


def make_sheet(places: Places, wish: SheetWish, settings: Settings, now: datetime, into: Path) -> MadeSheet:
    """`settings`: the pupil's. Raises CallerError where the sheet does not fit or the folder cannot be written."""
    code = code_for(places, wish.grid)
    sheet = Sheet(code, wish.grid, settings.helping, with_steps=wish.with_steps, with_line=wish.with_line)
    with whole_folder(into) as folder:
        match wish.kind:
            case "braille":
                about, notices = _braille(sheet, settings, folder)
            case "sound":
                about, notices = _sound(sheet, settings, folder, places.cache), ()
            case _:
                about, notices = _print(sheet, settings, folder, with_pdf=wish.with_pdf)
        helper = folder / f"{code}-helper.html"
        helper.write_text(helper_html(sheet, settings.sheets), encoding="utf-8")
        files = tuple(sorted(file.name for file in folder.iterdir()))
        keep_sheet(places, wish.pupil, code, wish.grid, now)
    return MadeSheet(code, files, about, notices)


def _print(sheet: Sheet, settings: Settings, folder: Path, *, with_pdf: bool) -> tuple[str, tuple[str, ...]]:
    notices: tuple[str, ...] = ()
    for one, name in _with_answers(sheet):
        (folder / f"{name}.html").write_text(sheet_html(one, settings.sheets), encoding="utf-8")
    if with_pdf:
        try:
            for file in sorted(folder.glob("*.html")):
                file.with_suffix(".pdf").write_bytes(pdf_of(file.read_text(encoding="utf-8")))
        except CallerError as missing:  # the HTML stays
            notices = (str(missing),)
    return split_sentence(layout_of(sheet, settings.sheets)), notices


def _braille(sheet: Sheet, settings: Settings, folder: Path) -> tuple[str, tuple[str, ...]]:
    look = settings.sheets
    translator, size = Translator(look.braille), PageSize(look.braille_cells, look.braille_lines)
    for one, name in _with_answers(sheet):
        (folder / f"{name}.brf").write_bytes(brf_sheet(one, translator, size, spaces=look.braille_spaces))
    notices = (translator.notice,) if translator.notice else ()
    return f"Pages of {size.cells} cells and {size.lines} lines.", notices


def _sound(sheet: Sheet, settings: Settings, folder: Path, cache: Path) -> str:
    pause_ms = settings.sheets.pause_ms
    voice = ToolVoice(settings.speech, cache)
    try:
        write_sound(sheet, voice, pause_ms, folder)
        write_sound(sheet.filled, voice, ANSWERS_PAUSE_MS, folder)
    finally:
        voice.close()
    return f"A file for each row, with {pause_ms / 1000:g} seconds after each sum."


def _with_answers(sheet: Sheet) -> tuple[tuple[Sheet, str], tuple[Sheet, str]]:
    """Each with its file's name."""
    return (sheet, sheet.code), (sheet.filled, f"{sheet.code}-answers")
