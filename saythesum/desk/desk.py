"""What every page stands on."""

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import date, datetime
from pathlib import Path
from typing import Protocol

from flask import current_app

from saythesum.desk.door import Visitors
from saythesum.desk.practising import Begins
from saythesum.office.places import Places


class DeskPlaces(Places, Protocol):
    @property
    def desk(self) -> Path: ...

    @property
    def cache(self) -> Path: ...


@dataclass(slots=True)
class Desk:
    places: DeskPlaces
    now: Callable[[], datetime]
    """UTC."""
    begins: Begins
    address: str
    """http://127.0.0.1 and the port."""
    doors: tuple[Path, ...]
    """The folders in which a file may lead in."""
    visitors: Visitors = field(default_factory=Visitors)
    last_visit: datetime | None = None
    """When the desk was open before."""
    used_at: datetime | None = None
    """When a page was last asked for."""
    is_left: bool = False


def the_desk() -> Desk:
    """Of the request that is being answered."""
    desk: Desk = current_app.extensions["desk"]
    return desk


def today() -> date:
    """By the clock of this machine."""
    return the_desk().now().astimezone().date()
