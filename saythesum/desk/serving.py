"""The server: on this machine alone, until somebody leaves it or nobody has used it for hours."""

import webbrowser
from collections.abc import Callable, Mapping
from contextlib import closing, suppress
from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path
from time import sleep
from typing import Any

from waitress import wasyncore
from waitress.channel import HTTPChannel
from waitress.server import create_server
from waitress.task import ErrorTask

from saythesum.core.records.times import utc_text
from saythesum.desk.desk import Desk, DeskPlaces
from saythesum.desk.door import invite, withdraw
from saythesum.desk.practising import Begins
from saythesum.desk.web import TOO_LARGE, made_app
from saythesum.errors import CallerError, StoreError
from saythesum.office.pupils import note_all_changes
from saythesum.ports import Clock
from saythesum.store.beside.opening import make_folder
from saythesum.store.lock import lock_of_desk

HOST = "127.0.0.1"
LOOKS_EVERY_S = 0.5
LAST_PAGE_S = 1.0
"""So long after somebody left, the goodbye still goes out."""
MOST_BYTES = 2_000_000_000
"""Of any request: what is announced as larger is not waited for. Up to there the pages refuse by themselves, which a
browser shows in full."""
ADDRESS_NAME = "address"
VISIT_NAME = "last-visit"
_WAIT_S = 3.0


@dataclass(frozen=True, slots=True)
class Wish:
    port: int | None = None
    """None: any that is free."""
    opens_browser: bool = True
    unused: timedelta = timedelta(hours=4)
    """After so long without a page it ends."""


def open_desk(places: DeskPlaces, clock: Clock, begins: Begins, wish: Wish, show: Callable[[str], None]) -> None:
    """Returns when the desk is over; at once where one is open already, which is then shown.

    Raises CallerError where the port is taken, and StoreError where the folders cannot be written.
    """
    make_folder(places.data)
    lock = lock_of_desk(places.data)
    if lock is None:
        _lead_into(places, _address_of_running(places), wish, show, "is open already")
        return
    with closing(lock):
        _serve(places, clock, begins, wish, show)


def _serve(places: DeskPlaces, clock: Clock, begins: Begins, wish: Wish, show: Callable[[str], None]) -> None:
    doors = _doors(places)
    desk = Desk(places, clock.now, begins, "", doors, last_visit=_last_visit(places), used_at=clock.now())
    with suppress(StoreError):  # the pages say what is wrong with the records
        note_all_changes(places, clock.now())
    connections: dict[int, Any] = {}
    try:
        server = create_server(
            made_app(desk),
            connections,
            host=HOST,
            port=wish.port or 0,
            threads=4,
            ident=None,
            max_request_body_size=MOST_BYTES,
        )
    except OSError as error:
        which = f"The port {wish.port} is not" if wish.port else "No port of this machine is"
        raise CallerError(
            f"{which} free for the desk ({error.strerror}): leave --port out, or name another."
        ) from error
    server.channel_class = _Channel
    desk.address = f"http://{HOST}:{server.effective_port}"
    withdraw(doors)
    _note(places, ADDRESS_NAME, desk.address)
    _note(places, VISIT_NAME, utc_text(clock.now()))
    try:
        _lead_into(places, desk.address, wish, show, "is open")
        _until_over(desk, wish.unused, connections)
    finally:
        server.task_dispatcher.shutdown()
        server.close()
        withdraw(doors)
        (places.desk / ADDRESS_NAME).unlink(missing_ok=True)
        _note(places, VISIT_NAME, utc_text(clock.now()))


class _Refusal(ErrorTask):  # type: ignore[misc]
    """What is refused before a page can do it: with a sentence of ours."""

    def execute(self) -> None:
        if self.request.error.code == 413:
            self.request.error.body = TOO_LARGE
        super().execute()


class _Channel(HTTPChannel):  # type: ignore[misc]
    error_task_class = _Refusal


def _until_over(desk: Desk, unused: timedelta, connections: Mapping[int, Any]) -> None:
    left_for_s = 0.0
    while left_for_s < LAST_PAGE_S:
        wasyncore.loop(timeout=LOOKS_EVERY_S, map=connections, count=1)
        used_at = desk.used_at
        if used_at and desk.now() - used_at > unused:
            return
        if desk.is_left:
            wasyncore.loop(timeout=0.1, map=connections, count=3)
            sleep(0.1)
            left_for_s += 0.1


def _doors(places: DeskPlaces) -> tuple[Path, ...]:
    """A browser that came as a snap may read no hidden folder, but the user's own (snapd's interface "home"). Not
    tried."""
    return (places.desk, Path.home()) if Path("/snap").is_dir() else (places.desk,)


def _lead_into(places: DeskPlaces, address: str, wish: Wish, show: Callable[[str], None], state: str) -> None:
    file = invite(_doors(places)[-1], address)
    show(f"The desk {state} at {address}; this file leads in, once: {file}")
    if wish.opens_browser and not webbrowser.open(file.as_uri()):
        show("No browser was found here: open that file in one.")


def _note(places: DeskPlaces, name: str, text: str) -> None:
    try:
        places.desk.mkdir(parents=True, exist_ok=True)
        (places.desk / name).write_text(text, encoding="utf-8")
    except OSError as error:
        raise StoreError(f"{places.desk} cannot be written ({error.strerror}): make it writable.") from error


def _last_visit(places: DeskPlaces) -> datetime | None:
    try:
        return datetime.fromisoformat((places.desk / VISIT_NAME).read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return None


def _address_of_running(places: DeskPlaces) -> str:
    """One that has just been started may not have told it yet."""
    for _ in range(round(_WAIT_S / 0.1)):
        try:
            if address := (places.desk / ADDRESS_NAME).read_text(encoding="utf-8"):
                return address
        except OSError:
            pass
        sleep(0.1)
    raise StoreError("The desk is open already, but does not say where: close its browser pages, and wait a little.")
