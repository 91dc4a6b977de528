"""An X server without a screen that has a touch screen: Xorg with its dummy driver, and a finger by its test driver.

Source of the messages: Xorg's xf86-input-inputtest-protocol.h, version 1.1, and inputtestdrv(4).
"""

import socket
import struct
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from tests.tools.x_server import XServer

SIZE = (1280, 1024)
FURTHEST = 0xFFFF
"""A place on the device, across and down."""
_CLIENT_VERSION, _WAIT_FOR_SYNC, _TOUCH = 0, 1, 6
_BEGIN, _UPDATE, _END = 18, 19, 20
"""Source: X11/extensions/XI2.h."""
_VALUATORS = 64
_ONE_FINGER = 1
_CONFIGURATION = """
Section "ServerFlags"
  Option "AutoAddDevices" "false"
EndSection
Section "Device"
  Identifier "card"
  Driver "dummy"
  VideoRam 16384
EndSection
Section "Monitor"
  Identifier "monitor"
  HorizSync 5-1000
  VertRefresh 5-200
EndSection
Section "Screen"
  Identifier "screen"
  Device "card"
  Monitor "monitor"
  DefaultDepth 24
  SubSection "Display"
    Modes "{width}x{height}"
  EndSubSection
EndSection
Section "InputDevice"
  Identifier "finger"
  Driver "inputtest"
  Option "SocketPath" "{finger}"
  Option "DeviceType" "Touch"
EndSection
Section "InputDevice"
  Identifier "pointer"
  Driver "inputtest"
  Option "SocketPath" "{pointer}"
  Option "DeviceType" "Pointer"
EndSection
Section "InputDevice"
  Identifier "keyboard"
  Driver "inputtest"
  Option "SocketPath" "{keyboard}"
  Option "DeviceType" "Keyboard"
EndSection
Section "ServerLayout"
  Identifier "layout"
  Screen "screen"
  InputDevice "pointer" "CorePointer"
  InputDevice "keyboard" "CoreKeyboard"
  InputDevice "finger"
EndSection
"""


class Finger:
    def __init__(self, path: Path) -> None:
        self._socket = socket.socket(socket.AF_UNIX)
        self._socket.connect(str(path))
        self._send(_CLIENT_VERSION, struct.pack("=HH", 1, 1))
        assert self._socket.recv(64), "the server speaks another version"

    def slides(self, start: tuple[int, int], end: tuple[int, int]) -> None:
        """Down, along and up again, in dots of the screen; once it returns the server has done with all of it."""
        for kind, at in ((_BEGIN, start), (_UPDATE, end), (_END, end)):
            self._touch(kind, at)

    def close(self) -> None:
        self._socket.close()

    def _touch(self, kind: int, at: tuple[int, int]) -> None:
        place = [FURTHEST * (dot + 0.5) / dots for dot, dots in zip(at, SIZE, strict=True)]
        valuators = struct.pack("=I8s4x64d64d", 0, bytes([0b11]), *place, *[0.0] * (2 * _VALUATORS - 2))
        self._send(_TOUCH, struct.pack("=II", _ONE_FINGER, kind) + valuators)
        self._send(_WAIT_FOR_SYNC, b"")
        assert self._socket.recv(64), "the server has gone"

    def _send(self, kind: int, rest: bytes) -> None:
        self._socket.sendall(struct.pack("=II", 8 + len(rest), kind) + rest)


@contextmanager
def touch_screen(folder: Path) -> Iterator[XServer]:
    sockets = {name: folder / f"{name}.socket" for name in ("finger", "pointer", "keyboard")}
    configuration = folder / "xorg.conf"
    configuration.write_text(_CONFIGURATION.format(width=SIZE[0], height=SIZE[1], **sockets), encoding="utf-8")
    log = ("-logfile", str(folder / "xorg.log"))
    server = XServer(folder, command=("/usr/lib/xorg/Xorg", "-config", str(configuration), *log, "-novtswitch"))
    try:
        yield server
    finally:
        server.kill()


@contextmanager
def finger(folder: Path) -> Iterator[Finger]:
    """On the touch screen that was made in this folder."""
    ours = Finger(folder / "finger.socket")
    try:
        yield ours
    finally:
        ours.close()
