"""Help, and the pages for the technician and the data protection lead."""

from importlib.resources import files

from flask import Blueprint, abort, render_template

from saythesum.desk import documents
from saythesum.desk.plain_markdown import as_html, title_of

pages = Blueprint("help", __name__, url_prefix="/help")
DOCUMENTS = ("technician", "data-protection")


@pages.get("/")
def help() -> str:
    return render_template("help/help.html", documents=[(name, title_of(_text(name))) for name in DOCUMENTS])


@pages.get("/<name>")
def document(name: str) -> str:
    if name not in DOCUMENTS:
        abort(404)
    text = _text(name)
    return render_template("help/document.html", title=title_of(text), text=as_html(text))


def _text(name: str) -> str:
    return (files(documents) / f"{name}.md").read_text(encoding="utf-8")
