"""A child program that fails, the first times it is run, and then is the real one.

python failing_child.py FOLDER TIMES WAY: every run leaves a file in FOLDER; the first TIMES runs fail in the way named.
"""

import ctypes
import json
import os
import signal
import sys
from pathlib import Path
from tempfile import mkstemp

from saythesum.speaking.worker import main


def hang() -> None:
    signal.pause()


def die(_: object = None) -> None:
    os.kill(os.getpid(), signal.SIGKILL)


def ready() -> None:
    sys.stdin.readline()
    answer(ready="an engine", voice="gmw/en", cannot=[])


def answer(**fields: object) -> None:
    print(json.dumps(fields), flush=True)


def next_phrase() -> dict[str, object]:
    request: dict[str, object] = json.loads(sys.stdin.readline())
    return request


def fail(way: str) -> None:
    match way:
        case "cannot load the library":
            ctypes.cdll.LoadLibrary = die_as_missing  # type: ignore[assignment]
            main()
        case "has no pyttsx3":
            sys.modules["pyttsx3"] = None  # type: ignore[assignment]
            main()
        case "hangs at the start":
            hang()
        case "dies at the start":
            die()
        case "babbles at the start":
            print("Welcome to your new voice!", flush=True)
            hang()
        case "babbles without an end":
            while True:
                print("bla", end="")
        case "is never ready":
            answer(number=1)
        case _:
            ready()
            fail_in_phrase(way)


def die_as_missing(name: str) -> None:
    raise OSError(f"{name}: cannot open shared object file")


def fail_in_phrase(way: str) -> None:
    request = next_phrase()
    match way:
        case "hangs in the phrase":
            hang()
        case "dies in the phrase":
            die()
        case "babbles in the phrase":
            print(f"Audio saved to {request['file']}")
            answer(number=request["number"])
        case "babbles numbers":
            print("42", flush=True)
        case "writes no file":
            answer(number=request["number"])
        case "writes half a file":
            Path(str(request["file"])).write_bytes(b"RIFF\x00\x01\x00\x00WAVEfmt ")
            answer(number=request["number"])
        case "answers another phrase":
            answer(number=-1)
        case "says that it failed":
            answer(number=request["number"], failed="no voice today")
        case _:
            raise ValueError(way)


if __name__ == "__main__":
    folder, times, named = Path(sys.argv[1]), int(sys.argv[2]), sys.argv[3]
    mkstemp(prefix=f"{os.getpid()}-", suffix=".run", dir=folder)
    if len(list(folder.glob("*.run"))) <= times:
        fail(named)
    else:
        main()
