"""Text files that a person has typed: grids and settings. A few lines, whatever was named by mistake."""

from pathlib import Path

from saythesum.errors import CallerError

MOST_BYTES = 100_000
"""With room for a page of remarks; it also ends the reading of something endless, such as a device."""
LONGEST_LINE = 500
"""Comments may be longer. A dotted name of many thousand parts would take minutes and gigabytes to read."""


def text_in(file: Path, example: str) -> str:
    """Raises FileNotFoundError, and CallerError with a text that continues the name of the file.

    `example`: a line as it should look.
    """
    right = f"right would be a text file of a few lines, such as {example}"
    content = _bytes_in(file, right)
    if len(content) > MOST_BYTES:
        raise CallerError(f"is too long; {right}.")
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise CallerError("is not plain text in UTF-8; save it as that.") from error
    for number, line in enumerate(text.split("\n"), 1):
        if len(line) > LONGEST_LINE and not line.lstrip().startswith("#"):
            raise CallerError(f"has a line that is too long, line {number}; {right}.")
    return text


def _bytes_in(file: Path, right: str) -> bytes:
    """At most one byte more than is allowed."""
    try:
        if file.exists() and not file.is_file():  # opening a pipe that nobody writes to would block
            raise CallerError(f"is a {'folder' if file.is_dir() else 'pipe or a device'}; {right}.")
        with file.open("rb") as typed:
            return typed.read(MOST_BYTES + 1)
    except FileNotFoundError:
        raise
    except OSError as error:
        raise CallerError(f"cannot be read ({error.strerror}); make it readable.") from error
