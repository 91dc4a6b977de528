"""Help, and the pages for the technician and the data protection lead."""

from importlib.resources import files

from flask import Blueprint, abort, render_template
from markdown_it import MarkdownIt
from markupsafe import Markup

from saythesum.desk import documents

pages = Blueprint("help", __name__, url_prefix="/help")
DOCUMENTS = ("technician", "data-protection")
_MARKDOWN = MarkdownIt("commonmark", {"html": False})
"""Nothing in a text is taken for HTML."""


@pages.get("/")
def help() -> str:
    return render_template("help/help.html", documents=[(name, title_of(_text(name))) for name in DOCUMENTS])


@pages.get("/<name>")
def document(name: str) -> str:
    if name not in DOCUMENTS:
        abort(404)
    text = _text(name)
    return render_template("help/document.html", title=title_of(text), text=as_html(text))


def title_of(text: str) -> str:
    """Of a document, whose first line is its heading."""
    return text.partition("\n")[0].removeprefix("# ")


def as_html(text: str) -> Markup:
    """Without its first line: that heading is the page's."""
    return Markup(_MARKDOWN.render(text.partition("\n")[2]))  # noqa: S704 - escaped by the library


def _text(name: str) -> str:
    return (files(documents) / f"{name}.md").read_text(encoding="utf-8")
