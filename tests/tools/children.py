"""How much of what children say is understood: `python -m tests.tools.children [FILE]`.

A file has a sentence and its meaning a line, with a tab between; lines with a # are notes. Prints what is
misunderstood, typed and spoken, and whatever is taken for a number that is none, whatever was awaited.
"""

import sys
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from saythesum.core.meanings import Awaiting, Choice, Command, Given, Meaning, Number, Unclear
from saythesum.wording.understand.understood import understood

KNOWN = Path(__file__).parents[1] / "wording" / "understand" / "children.tsv"
_COMMANDS = {
    **{"again": Command.SAY_AGAIN, "too-hard": Command.HELP, "back": Command.GO_BACK, "where": Command.WHERE_AM_I},
    **{"not-said": Command.NOT_WHAT_I_SAID, "how-many-left": Command.HOW_MANY_MORE},
}
"""Where a file's word for it is not the command's own."""
NO_WISH = ("other", "filler")


@dataclass(frozen=True, slots=True)
class Said:
    text: str
    means: str

    @property
    def number(self) -> int | None:
        """The answer given; of a count, where it ends."""
        kind, _, value = self.means.partition(":")
        return int(value) if kind in ("number", "count") else None

    @property
    def awaiting(self) -> Awaiting:
        """Yes and no mean something where they were asked for."""
        return Awaiting.CHOICE if self.means in ("yes", "no") else Awaiting.NUMBER

    def is_met_by(self, meant: Meaning) -> bool:
        if self.number is not None:
            return isinstance(meant, Number) and meant.value == self.number
        if self.means in NO_WISH:
            return isinstance(meant, Unclear)
        if self.means in ("yes", "no"):
            return meant == Choice(self.means == "yes")
        command = _COMMANDS.get(self.means) or Command(self.means)
        return isinstance(meant, Given) and meant.command is command


def sentences(file: Path) -> Iterator[Said]:
    for line in file.read_text(encoding="utf-8").splitlines():
        if line.strip() and not line.startswith("#"):
            text, means = line.split("\t")
            yield Said(text, means)


def misunderstood(said: list[Said], *, typed: bool) -> list[tuple[Said, Meaning]]:
    meant = [(each, understood(each.text, each.awaiting, typed=typed)) for each in said]
    return [(each, meaning) for each, meaning in meant if not each.is_met_by(meaning)]


def taken_for_numbers(said: list[Said]) -> list[tuple[Said, Awaiting]]:
    """What is no number and was taken for one."""
    return [
        (each, awaiting)
        for each in said
        if each.number is None
        for awaiting in Awaiting
        for typed in (False, True)
        if isinstance(understood(each.text, awaiting, typed=typed), Number)
    ]


def main() -> None:
    said = list(sentences(Path(sys.argv[1]) if len(sys.argv) > 1 else KNOWN))
    for typed in (True, False):
        missed = misunderstood(said, typed=typed)
        print(f"{'typed' if typed else 'spoken'}: {len(said) - len(missed)} of {len(said)} do what they mean")
        for each, meant in missed:
            print(f"  {each.means:14} {each.text!r} was {_in_short(meant)}")
    numbers = taken_for_numbers(said)
    print(f"taken for a number that is none: {len(numbers)}")
    for each, awaiting in numbers:
        print(f"  {each.text!r}, awaiting {awaiting}")


def _in_short(meant: Meaning) -> str:
    match meant:
        case Number(value=value):
            return f"the number {value}"
        case Choice(yes=yes):
            return "yes" if yes else "no"
        case Given(command=command):
            return command.value
        case Unclear(why=why):
            return f"not understood ({why.value})"


if __name__ == "__main__":
    main()
