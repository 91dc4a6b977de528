"""Somebody who speaks HTTP by hand, without a browser's good manners."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from html import unescape
from http.client import HTTPConnection
from urllib.parse import urlencode

from saythesum.desk.guard import COOKIE
from tests.desk.opened import OpenDesk

FORM = "application/x-www-form-urlencoded"
BOUNDARY = "saythesum-oars"


@dataclass(frozen=True, slots=True)
class Answer:
    code: int
    headers: Mapping[str, str]
    page: str

    @property
    def said(self) -> str:
        """The page's own part, as plain words."""
        main = self.page.split("<main")[-1].split("<footer")[0]
        return " ".join(unescape(re.sub(r"<[^>]*>", " ", main.partition(">")[2])).split())

    @property
    def token(self) -> str:
        return found(r'name="token" value="([^"]+)"', self.page)


@dataclass(slots=True)
class Visitor:
    desk: OpenDesk
    cookie: str = ""

    def asks(self, path: str, method: str = "GET", body: bytes = b"", **headers: str) -> Answer:
        connection = HTTPConnection("127.0.0.1", int(self.desk.address.rpartition(":")[2]), timeout=60)
        own = {"Cookie": f"{COOKIE}={self.cookie}"} if self.cookie else {}
        named = {name.replace("_", "-"): value for name, value in headers.items()}
        connection.request(method, path, body, {**own, **named})
        response = connection.getresponse()
        page = response.read().decode("utf-8", "replace")
        connection.close()
        return Answer(response.status, dict(response.getheaders()), page)

    def sends(self, path: str, fields: Mapping[str, str], **headers: str) -> Answer:
        return self.asks(path, "POST", urlencode(fields).encode(), Content_Type=FORM, **headers)

    def uploads(self, path: str, fields: Mapping[str, str], file_name: str, content: bytes) -> Answer:
        parts = [f'Content-Disposition: form-data; name="{name}"\r\n\r\n{value}' for name, value in fields.items()]
        body = b"".join(f"--{BOUNDARY}\r\n{part}\r\n".encode() for part in parts)
        head = f'Content-Disposition: form-data; name="file"; filename="{file_name}"\r\n\r\n'
        body += f"--{BOUNDARY}\r\n{head}".encode() + content + f"\r\n--{BOUNDARY}--\r\n".encode()
        return self.asks(path, "POST", body, Content_Type=f"multipart/form-data; boundary={BOUNDARY}")

    @property
    def token(self) -> str:
        return self.asks("/").token


def secret_in(desk: OpenDesk) -> str:
    return found(r'name="secret" value="([^"]+)"', desk.way_in.read_text(encoding="utf-8"))


def let_in(desk: OpenDesk) -> Visitor:
    answer = Visitor(desk).sends("/enter", {"secret": secret_in(desk)})
    assert answer.code == 200, answer.said
    return Visitor(desk, found(rf"{COOKIE}=([^;]+)", answer.headers["Set-Cookie"]))


def found(pattern: str, text: str) -> str:
    match = re.search(pattern, text)
    assert match, pattern
    return match[1]
