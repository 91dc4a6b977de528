"""When the desk is open, where, and when it is over."""

import os
import signal
import socket
import subprocess
from contextlib import closing
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from saythesum.desk.practising import Begins
from saythesum.desk.serving import Wish, open_desk
from tests.app.command import COMMAND, Person, is_one_sentence
from tests.desk.opened import OPEN, OpenDesk, opened
from tests.desk.visitor import Visitor, let_in, secret_in
from tests.office.places import home_in


class Nobody(Begins):
    def begin(self, words: object) -> str | None:
        return None


class Clock:
    """An hour goes by with each look at it."""

    def __init__(self) -> None:
        self.time = datetime(2031, 5, 14, 8, tzinfo=UTC)

    def now(self) -> datetime:
        self.time += timedelta(hours=1)
        return self.time

    def since_start_ms(self) -> int:
        return 0


def test_it_answers_on_this_machine_only(desk: OpenDesk) -> None:
    port = int(desk.address.rpartition(":")[2])
    listening = [
        line.split()[1] for line in Path("/proc/net/tcp").read_text().splitlines()[1:] if line.split()[3] == "0A"
    ]
    assert f"0100007F:{port:04X}" in listening
    assert f"00000000:{port:04X}" not in listening


def test_a_second_desk_opens_the_running_one(desk: OpenDesk, tmp_path: Path) -> None:
    person = Person(tmp_path)
    second = person.runs("desk", "--no-browser")
    assert second.code == 0, second.told
    match = OPEN.fullmatch(second.shown[0])
    assert match and match[1] == desk.address
    assert "already" in second.shown[0]
    again = OpenDesk(desk.address, Path(match[2]), desk.process)
    for way in (desk, again):
        assert let_in(way).asks("/").code == 200


def test_it_ends_by_a_press_and_leaves_nothing_that_leads_in(tmp_path: Path) -> None:
    with opened(tmp_path) as desk:
        adult = let_in(desk)
        goodbye = adult.sends("/leave", {"token": adult.token})
        assert "The desk is closed" in goodbye.said
        assert desk.process.wait(20) == 0
    assert [file.name for file in home_in(tmp_path).desk.iterdir()] == ["last-visit"]


def test_it_ends_by_itself_when_nobody_uses_it(tmp_path: Path) -> None:
    """Four hours, unless the settings say otherwise."""
    told: list[str] = []
    wish = Wish(opens_browser=False, unused=timedelta(hours=4))
    open_desk(home_in(tmp_path), Clock(), Nobody(), wish, told.append)
    assert len(told) == 1


def test_a_port_that_is_taken_is_a_sentence(tmp_path: Path) -> None:
    with closing(socket.socket()) as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        done = Person(tmp_path).runs("desk", "--no-browser", "--port", str(port))
    assert done.code == 2
    assert is_one_sentence(done.told)
    assert f"The port {port} is not free" in done.told[0]


@pytest.mark.parametrize("port", ["0", "65536", "-1", "oars", "80 80"])
def test_a_port_that_is_none_is_a_sentence(tmp_path: Path, port: str) -> None:
    done = Person(tmp_path).runs("desk", "--no-browser", "--port", port)
    assert (done.code, len(done.told)) == (2, 1)


def test_a_port_can_be_named(tmp_path: Path) -> None:
    with closing(socket.socket()) as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    with opened(tmp_path, "--port", str(port)) as desk:
        assert desk.address == f"http://127.0.0.1:{port}"


def test_without_a_browser_it_says_what_to_open(tmp_path: Path) -> None:
    process = subprocess.Popen(
        [*COMMAND, "desk"],
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        cwd=tmp_path,
        env=Person(tmp_path).environment({"PATH": "/nowhere", "BROWSER": ""}),
    )
    try:
        assert process.stdout
        assert OPEN.fullmatch(process.stdout.readline().decode().strip())
        assert process.stdout.readline().decode() == "No browser was found here: open that file in one.\n"
    finally:
        os.kill(process.pid, signal.SIGTERM)
        process.wait(10)


def test_a_killed_desk_does_not_stand_in_the_way(tmp_path: Path) -> None:
    with opened(tmp_path) as desk:
        secret, address = secret_in(desk), desk.address
        desk.process.kill()
        desk.process.wait(10)
    with opened(tmp_path) as again:
        assert not desk.way_in.exists() or address == again.address
        assert Visitor(again).sends("/enter", {"secret": secret}).code == 403
