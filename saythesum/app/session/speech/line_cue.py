"""The number line as a sound cue: it goes by a name that says its notes, as every cue goes by a name."""

from saythesum.scene.line_heard import LineNote, line_heard
from saythesum.scene.number_line import LineShown

NAME = "number-line"


def line_cue(line: LineShown) -> str:
    """Each note by its semitones, with `t` for a ten and `s` for a stop."""
    return " ".join([NAME, *map(_said, line_heard(line))])


def _said(note: LineNote) -> str:
    return f"{note.semitones:.2f}{'t' if note.is_ten else ''}{'s' if note.is_stop else ''}"
