"""The pages without a server or a browser, for what does not need them."""

import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import UTC, datetime
from html import unescape
from pathlib import Path

from flask.testing import FlaskClient
from werkzeug.test import TestResponse

from saythesum.desk.desk import Desk
from saythesum.desk.guard import COOKIE
from saythesum.desk.web import made_app
from tests.office.places import home_in

ADDRESS = "http://127.0.0.1:8040"
NOW = datetime(2031, 5, 14, 8, 0, tzinfo=UTC)


@dataclass
class Starts:
    """Keeps what was to be started; `trouble` is what comes of it."""

    trouble: str | None = None
    words: list[Sequence[str]] = field(default_factory=list)

    def begin(self, words: Sequence[str]) -> str | None:
        self.words.append(words)
        return self.trouble


class Application:
    def __init__(self, home: Path, starts: Starts | None = None) -> None:
        self.desk = Desk(home_in(home), lambda: NOW, starts or Starts(), ADDRESS, ())
        cookie = self.desk.visitors.enter()
        visitor = self.desk.visitors.known(cookie)
        assert visitor
        self._token = visitor.token
        self._client: FlaskClient = made_app(self.desk).test_client()
        self._client.set_cookie(COOKIE, cookie, domain="127.0.0.1")

    def asks(self, path: str) -> TestResponse:
        return self._client.get(path, base_url=ADDRESS)

    def sends(self, path: str, **fields: object) -> TestResponse:
        """Names of fields with two underscores for a dot."""
        given = {name.replace("__", "."): value for name, value in fields.items()}
        data = {"token": self._token, **given}
        return self._client.post(path, base_url=ADDRESS, data=data, content_type="multipart/form-data")


def said(answer: TestResponse) -> str:
    """The page's own part, as plain words."""
    main = answer.get_data(as_text=True).split("<main")[-1].split("<footer")[0].partition(">")[2]
    return " ".join(unescape(re.sub(r"<[^>]*>", " ", main)).split())
