"""`python -m tests.loopback COMMAND...`, in a network of its own: the machine can reach itself there, then the command
runs. Without that the desk could not be asked for a page.

Source: netdevice(7), capabilities(7) and prctl(2) of the Linux manual pages.
"""

import ctypes
import fcntl
import os
import socket
import struct
import sys

GET_FLAGS, SET_FLAGS = 0x8913, 0x8914
"""SIOCGIFFLAGS and SIOCSIFFLAGS."""
IS_UP = 0x1
AMBIENT, CLEAR_ALL = 47, 4
"""PR_CAP_AMBIENT and PR_CAP_AMBIENT_CLEAR_ALL."""


def bring_up() -> None:
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as any_socket:
        asked = struct.pack("16sH14x", b"lo", 0)
        (_, flags) = struct.unpack("16sH14x", fcntl.ioctl(any_socket, GET_FLAGS, asked))
        fcntl.ioctl(any_socket, SET_FLAGS, struct.pack("16sH14x", b"lo", flags | IS_UP))


def main(command: list[str]) -> None:
    bring_up()
    ctypes.CDLL(None).prctl(AMBIENT, CLEAR_ALL, 0, 0, 0)  # the rights were for this alone
    os.execvp(command[0], command)  # noqa: S606 - what was asked for


if __name__ == "__main__":
    main(sys.argv[1:])
