"""A sheet in large print: one HTML file with its lettering in it, so that it prints the same everywhere; and as PDF.

Source of the page's rules: UKAAF, Creating clear print and large print documents (G003): no italics, no underlining,
left aligned, one clear lettering throughout; bold as in England's modified large print tests.
"""

from base64 import b64encode
from functools import cache

from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

from saythesum.core.exercises.exercise import Exercise
from saythesum.publishing.sheets.line_drawing import line_drawing
from saythesum.reports.sheets import said_sheet
from saythesum.reports.sheets.print_layout import LINE_EM, MARGIN_MM, Contents, PrintLayout, laid_out
from saythesum.reports.sheets.sheet import Sheet
from saythesum.screen.colours import COLOUR_SETS, Colour
from saythesum.settings import Sheets
from saythesum.settings.shipped_files import fonts_folder

HELPER_POINTS = 14
"""Source: UKAAF G003, clear print: at least 12 point, ideally 14."""


def layout_of(sheet: Sheet, look: Sheets) -> PrintLayout:
    """Raises CallerError where the print is too large for the page."""
    asked = [sheet.asked(cell) for cell in sheet.cells]
    has_table = not sheet.grid.is_one_by_one
    contents = Contents(
        rows=sheet.grid.rows if has_table else 0,
        columns=sheet.grid.columns if has_table else 0,
        start_digits=max(len(str(one.start)) for one in asked),
        answer_digits=max(len(str(one.total)) for one in asked),
        title_letters=len(sheet.filled.title),
    )
    return laid_out(contents, look.print_size, look.paper)


def sheet_html(sheet: Sheet, look: Sheets) -> str:
    layout = layout_of(sheet, look)
    colours = COLOUR_SETS[look.colours]
    return (
        _pages()
        .get_template("sheet.html")
        .render(
            sheet=sheet,
            layout=layout,
            margin_mm=MARGIN_MM,
            line_height=LINE_EM,
            ground=_css(colours.ground),
            ink=_css(colours.ink),
            said=said_sheet,
            drawing=lambda asked: _drawing(sheet, asked, layout),
            font=_font(),
        )
    )


def helper_html(sheet: Sheet, look: Sheets) -> str:
    """Answers and steps of every sum, for the adult, in clear print."""
    return (
        _pages()
        .get_template("helper.html")
        .render(
            sheet=sheet,
            lines=tuple(said_sheet.helper_lines(sheet)),
            introduction=said_sheet.HELPER_INTRODUCTION,
            points=HELPER_POINTS,
            paper=look.paper,
            margin_mm=MARGIN_MM,
            line_height=LINE_EM,
        )
    )


def _drawing(sheet: Sheet, asked: Exercise, layout: PrintLayout) -> Markup:
    line = sheet.number_line(asked)
    if line is None:
        return Markup()
    name = f"Number line from {line.first} to {line.last}, starting at {line.start}"
    return Markup(line_drawing(line, layout.width_mm, layout.em_mm, name))  # noqa: S704 - drawn by us, of numbers


@cache
def _pages() -> Environment:
    loader = PackageLoader("saythesum.publishing.sheets")
    return Environment(loader=loader, autoescape=True, undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True)


@cache
def _font() -> Markup:
    """The lettering itself, unchanged, as its licence wants it."""
    return Markup(b64encode((fonts_folder() / "Andika-Bold.ttf").read_bytes()).decode("ascii"))  # noqa: S704 - letters, digits, +, / and =


def _css(colour: Colour) -> str:
    return f"rgb({colour[0]}, {colour[1]}, {colour[2]})"
