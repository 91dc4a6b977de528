"""Half a page for whoever sits beside the pupil, as text, HTML or PDF. Desk and verb both call it."""

from markupsafe import Markup

from saythesum.office.plans.cover_sheet import CoverSheet
from saythesum.publishing.pdf import pdf_of
from saythesum.publishing.reports.forms import templates


def cover_text(sheet: CoverSheet) -> str:
    """A line for each thing, the day first."""
    lines = (f"{about}: {text}" if about else text for about, text in sheet.lines)
    return "\n".join((f"{sheet.title}.", *lines)) + "\n"


def cover_html(sheet: CoverSheet) -> str:
    return templates().get_template("cover.html").render(sheet=sheet)


def lines_html(sheet: CoverSheet) -> Markup:
    """What stands below the title, to be put into another page."""
    return Markup(templates().get_template("cover_lines.html").render(sheet=sheet))  # noqa: S704 - escaped


def cover_as(suffix: str, sheet: CoverSheet) -> bytes:
    """By the ending of a file's name; text where it says nothing. Raises CallerError where a PDF cannot be made."""
    match suffix.lower():
        case ".pdf":
            return pdf_of(cover_html(sheet))
        case ".html" | ".htm":
            return cover_html(sheet).encode()
        case _:
            return cover_text(sheet).encode()
