"""Whether there is a screen to open a window on."""

import os
import sys


def has_display() -> bool:
    """Without one, pygame would draw into nothing."""
    names = ("DISPLAY", "WAYLAND_DISPLAY", "SDL_VIDEODRIVER")
    return not sys.platform.startswith("linux") or any(os.environ.get(name) for name in names)
