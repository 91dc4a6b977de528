"""What was asked on the command line, refused in plain words where it cannot be."""

import argparse
import re
from collections.abc import Callable
from typing import NoReturn

from saythesum.errors import CallerError
from saythesum.settings.toml_text import rather

_PLAINLY: tuple[tuple[str, Callable[[re.Match[str]], str]], ...] = (
    (r"argument (-\S+): invalid choice: (.+) \(choose from (.+)\)", lambda told: _choice(told[1], told[2], told[3])),
    (r"argument \S+: invalid choice: (.+) \(choose from (.+)\)", lambda told: _verb(told[1], told[2])),
    (r"argument (\S+): expected (?:one|at least one) argument", lambda told: f"Something is missing after {told[1]}"),
    (r"argument (\S+): not allowed with argument (\S+)", lambda told: f"{told[1]} and {told[2]} do not go together"),
    (r"argument (\S+): ignored explicit argument (.+)", lambda told: f"{told[1]} takes nothing after it"),
    (r"the following arguments are required: (.+)", lambda told: f"{told[1]} is missing"),
    (r"unrecognized arguments: (.+)", lambda told: f"{_short(told[1])!r} has no meaning here"),
    (r"ambiguous option: (\S+) could match (.+)", lambda told: f"{told[1]} could be {told[2].replace(', ', ' or ')}"),
    (r"argument (\S+): (.+)", lambda told: f"{told[1]}: {told[2]}"),
)
"""The words of argparse, which are for programmers, and ours."""


class Parser(argparse.ArgumentParser):
    def error(self, message: str) -> NoReturn:
        told = _plainly(message)
        raise CallerError(f"{told}{'' if told[-1] in '.?' else '.'} `{self.prog} --help` says what can be asked.")


def _plainly(message: str) -> str:
    for pattern, words in _PLAINLY:
        if told := re.fullmatch(pattern, message, re.DOTALL):
            return words(told)
    return message


def _choice(option: str, given: str, choices: str) -> str:
    return f"{option} cannot be {_short(given)}; {_rather(given, choices)}"


def _verb(given: str, choices: str) -> str:
    return f"There is no verb {_short(given)}; {_rather(given, choices)}"


def _rather(given: str, choices: str) -> str:
    return rather(given.strip("'"), choices.replace("'", "").split(", "))


def _short(given: str) -> str:
    return given if len(given) <= 40 else f"{given[:40]}…"
