"""What a system lacks is met in the adapter for it, and nowhere else: schools have Windows."""

import pkgutil
import subprocess
import sys

import saythesum
from tests.app.command import TOP

ADAPTERS = {"saythesum.app.terminal.posix_keys", "saythesum.app.terminal.windows_keys"}
"""Each imported on its own system only."""
MISSING = (
    "termios",
    "fcntl",
    "pwd",
    "grp",
    "resource",
    "tty",
    "pty",
    "Xlib",
    "sounddevice",
    "pyttsx3",
    "vosk",
    "pygame.x11",
)

IMPORTS = """
import ctypes, importlib, sys

sys.modules.update({name: None for name in sys.argv[1].split(",")})  # an import of one of these fails

class NoX(ctypes.CDLL):
    def __init__(self, name, *rest, **more):
        if name and "X11" in str(name):
            raise OSError(f"{name} is missing")
        super().__init__(name, *rest, **more)

ctypes.CDLL = NoX
for name in sys.argv[2].split(","):
    importlib.import_module(name)
print("all were imported")
"""


def modules() -> list[str]:
    found = (module.name for module in pkgutil.walk_packages(saythesum.__path__, "saythesum."))
    return sorted({*found} - ADAPTERS - {"saythesum.__main__"})


def imported(*words: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run([sys.executable, "-c", IMPORTS, *words], capture_output=True, text=True, cwd=TOP, check=False)


def test_every_module_can_be_imported_where_posix_and_x_are_missing() -> None:
    assert len(modules()) > 150
    done = imported(",".join(MISSING), ",".join(modules()))
    assert done.stdout == "all were imported\n", done.stderr


def test_what_is_missing_is_missed() -> None:
    """The keys of a POSIX terminal cannot be had without termios: so the test above would see it."""
    done = imported("termios", "saythesum.app.terminal.posix_keys")
    assert "import of termios halted" in done.stderr
