"""Who may come in: a secret that is valid once, and then a cookie.

The secret lies in a file that only its owner may read, so whoever can open it is the user whose records these are.
It is on no command line, in no address and in no log.
"""

import os
import secrets
from contextlib import suppress
from dataclasses import dataclass, field
from hashlib import sha256
from html import escape
from pathlib import Path

from saythesum.errors import CallerError

_PAGE = """<!doctype html>
<html lang="en">
<head><meta charset="utf-8"><title>Open the desk</title></head>
<body>
<main>
<h1>Open the desk</h1>
<form id="open" method="post" action="{address}/enter">
<input type="hidden" name="secret" value="{secret}">
<p><button autofocus>Open the desk</button></p>
</form>
<p>This works once. After that, open the desk from its icon again.</p>
</main>
<script>document.getElementById("open").submit()</script>
</body>
</html>
"""
"""With the secret in a form, not in its address: addresses are kept by the browser, and shown."""


def invite(folder: Path, address: str) -> Path:
    """A new file that leads in, once. Raises CallerError where it cannot be written."""
    secret = secrets.token_urlsafe(32)
    file = _file(folder, secret)
    page = _PAGE.format(address=escape(address), secret=escape(secret)).encode()
    try:
        folder.mkdir(parents=True, exist_ok=True)
        handle = os.open(file, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
        with os.fdopen(handle, "wb") as written:
            written.write(page)
    except OSError as error:
        raise CallerError(f"{file} cannot be written ({error.strerror}): make its folder writable.") from error
    return file


def admit(folders: tuple[Path, ...], secret: str) -> bool:
    """Whether a file with that secret was there. It is gone then: of two who use it at once only one comes in."""
    for folder in folders:
        with suppress(OSError):
            _file(folder, secret).unlink()
            return True
    return False


def withdraw(folders: tuple[Path, ...]) -> None:
    """Whatever was not used leads nowhere any more; files that waited to be taken in are gone."""
    for folder in folders:
        for file in (*folder.glob("open-the-desk-*.html"), *folder.glob("to-take-in-*.json")):
            with suppress(OSError):
                file.unlink()


def _file(folder: Path, secret: str) -> Path:
    """Named by a digest, so that the name gives nothing away."""
    return folder / f"open-the-desk-{sha256(secret.encode()).hexdigest()[:40]}.html"


@dataclass(slots=True)
class Visitor:
    """A browser that came in."""

    token: str = field(default_factory=lambda: secrets.token_urlsafe(32))
    """Stands in each form, so that no other site's form is taken for one of ours."""
    notices: list[str] = field(default_factory=list)
    """What the next page says first."""
    waiting: Path | None = None
    """A file of records that was looked into and may be taken in."""


class Visitors:
    def __init__(self) -> None:
        self._by_cookie: dict[str, Visitor] = {}

    def enter(self) -> str:
        """The cookie."""
        cookie = secrets.token_urlsafe(32)
        self._by_cookie[cookie] = Visitor()
        return cookie

    def known(self, cookie: str) -> Visitor | None:
        return self._by_cookie.get(cookie)
