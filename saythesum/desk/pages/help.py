"""Help, and the pages for the technician and the data protection lead."""

from flask import Blueprint, render_template

pages = Blueprint("help", __name__, url_prefix="/help")


@pages.get("/")
def help() -> str:
    return render_template("help/help.html")
