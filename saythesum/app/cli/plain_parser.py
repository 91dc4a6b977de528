"""What was asked on the command line, refused in plain words where it cannot be.

argparse's own sentences are for programmers and are never shown: what is wrong follows from where it was found.
"""

import argparse
from collections.abc import Callable, Sequence
from typing import Any, NoReturn, TypeAlias

from saythesum.errors import SayTheSumError
from saythesum.settings.toml_text import rather

LONGEST_WORD = 4_096
"""Of the command line; no path is longer on Linux (PATH_MAX in <linux/limits.h>)."""


class CommandLineError(SayTheSumError):
    """No ValueError: argparse would take one for its own."""

    code = "command-line"
    exit_code = 2


class Parser(argparse.ArgumentParser):
    def __init__(self, *, needs: str = "WHAT", **more: Any) -> None:
        """`needs`: what has to be given besides options."""
        super().__init__(**{**more, "exit_on_error": False, "allow_abbrev": False})
        self._needs = needs
        self._verbs: argparse.Action | None = None

    def add_subparsers(self, **more: Any) -> Any:
        self._verbs = super().add_subparsers(**more)
        return self._verbs

    def parse_words(self, words: Sequence[str]) -> argparse.Namespace:
        """Raises CommandLineError."""
        for place, word in enumerate(words, start=1):
            if len(word) > LONGEST_WORD:
                self._refuse(f"Word {place} of what was asked has {len(word):,} characters, more than anything needs")
            option, _, value = word.partition("=")
            if word.startswith("--") and value == "--":
                self._refuse(f"{short(option)} cannot be '--'")
        options: argparse.Namespace
        options, left_over = self.parse_known_args(words)
        if left_over:
            self._refuse(f"{short(left_over[0])!r} has no meaning here")
        return options

    def parse_known_args(self, args: Any = None, namespace: Any = None) -> Any:
        """Called by argparse for each verb, too, with the words after it."""
        self._check_verb(args)
        try:
            return super().parse_known_args(args, namespace)
        except argparse.ArgumentError as error:
            self._refuse(self._what(error, args))

    def error(self, message: str) -> NoReturn:
        """Before Python 3.14 argparse comes here where something that is required was not given."""
        self._refuse(f"{self._needs} is missing")

    def _check_verb(self, words: Sequence[str]) -> None:
        given = next((word for word in words if not word.startswith("-")), None)
        if self._verbs is None or given is None:
            return
        choices = list(self._verbs.choices or ())
        if given not in choices:
            self._refuse(f"There is no verb {short(given)!r}; {rather(given, choices)}")

    def _what(self, error: argparse.ArgumentError, words: Sequence[str]) -> str:
        name = error.argument_name
        if name is None:
            return f"{self._needs} is missing"
        if isinstance(error.__context__, argparse.ArgumentTypeError):  # one of ours
            return f"{name} {error.__context__}"
        if any(_takes_more(word, option) for word in words for option in name.split("/")):
            return f"{name} takes nothing after it"
        return f"Something is missing after {name}"

    def _refuse(self, what: str) -> NoReturn:
        end = "" if what[-1] in ".?" else "."
        raise CommandLineError(f"{what}{end} `{self.prog} --help` says what can be asked.")


Verbs: TypeAlias = "argparse._SubParsersAction[Parser]"
"""What a verb, or what can be done with it, is added to."""


def _takes_more(word: str, option: str) -> bool:
    """ "--probe=3" and "-hx": the value stands in the same word."""
    is_short = len(option) == 2
    return word.startswith(option if is_short else f"{option}=") and word != option


def cannot_be(given: str, rather: str) -> argparse.ArgumentTypeError:
    """Goes on from the name of the option. `rather`: what would be right."""
    return argparse.ArgumentTypeError(f"cannot be {short(given)!r}; {rather}")


def one_of(names: Sequence[str]) -> Callable[[str], str]:
    """A `type` for argparse."""

    def taken(given: str) -> str:
        if given not in names:
            raise cannot_be(given, rather(given, names))
        return given

    return taken


def short(given: str) -> str:
    return given if len(given) <= 40 else f"{given[:40]}…"


def whole(text: str) -> int:
    """A `type` for argparse."""
    if not (text.isascii() and text.isdigit() and len(text) <= 9):
        raise cannot_be(text, "it is a whole number from 0 to 999999999")
    return int(text)
