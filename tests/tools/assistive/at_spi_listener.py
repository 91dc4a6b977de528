"""Listens for announcements of AT-SPI, run by Debian's own Python: a JSON line each, with when it came and its text."""

import json
import time
from typing import Any

import gi

gi.require_version("Atspi", "2.0")
from gi.repository import Atspi  # noqa: E402


def note(event: Any, *_more: object) -> None:
    print(json.dumps({"at_s": time.perf_counter(), "text": event.any_data}), flush=True)


Atspi.init()
listener = Atspi.EventListener.new(note, None)
listener.register("object:announcement")
print(json.dumps({"at_s": time.perf_counter(), "text": None}), flush=True)
Atspi.event_main()
