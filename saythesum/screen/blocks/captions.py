"""Sentences in lines: as large as they fit, never cut in the middle of a line."""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from saythesum.screen.shapes import Ruler, Words, sizes_down, words

LINE_PITCH = 2.2
"""Line to line, in heights of a digit: 1.5 times the nominal size. Source: WCAG 2.2, success criterion 1.4.12."""
_MORE = "…"


@dataclass(frozen=True, slots=True)
class Paragraph:
    lines: tuple[str, ...]
    digit_px: int
    height_px: int
    is_whole: bool = True

    def width_px(self, ruler: Ruler) -> int:
        return max((ruler.width_px(line, self.digit_px) for line in self.lines), default=0)

    def set_at(self, x: int, y: int, ruler: Ruler) -> tuple[Words, ...]:
        pitch = pitch_px(self.digit_px, ruler)
        return tuple(
            words(ruler, line, self.digit_px, at=(x, y + place * pitch)) for place, line in enumerate(self.lines)
        )


def words_of(text: str) -> list[str]:
    """A sum in digits is one word: its spaces do not break."""
    return [word for word in re.split(r"[^\S\N{NO-BREAK SPACE}]+", text) if word.strip()]


def pitch_px(digit_px: int, ruler: Ruler) -> int:
    return max(ruler.line_px(digit_px), round(LINE_PITCH * digit_px))


NOTHING = Paragraph((), 0, 0)


def paragraph(text: str, size: tuple[int, int], digits_px: tuple[int, int], ruler: Ruler) -> Paragraph:
    """In a width and height; `digits_px` are the wished for and the least size.

    What is too long even in the least size ends in "…" after the last line that fits.
    """
    width, height = size
    for digit_px in sizes_down(*digits_px):
        set_in = _in_lines(text, width, digit_px, ruler)
        if set_in.height_px <= height and _are_within(words_of(text), width, digit_px, ruler):
            return set_in
    if set_in.height_px <= height and _are_within(set_in.lines, width, set_in.digit_px, ruler):
        return set_in  # with a word broken in two
    return _cut(set_in, width, height, ruler)


def _are_within(texts: Iterable[str], width: int, digit_px: int, ruler: Ruler) -> bool:
    return all(ruler.width_px(text, digit_px) <= width for text in texts)


def _in_lines(text: str, width: int, digit_px: int, ruler: Ruler) -> Paragraph:
    lines = tuple(_wrapped(text, width, digit_px, ruler))
    return Paragraph(lines, digit_px, _height(len(lines), digit_px, ruler))


def _height(lines: int, digit_px: int, ruler: Ruler) -> int:
    return (lines - 1) * pitch_px(digit_px, ruler) + ruler.line_px(digit_px) if lines else 0


def _cut(paragraph: Paragraph, width: int, height: int, ruler: Ruler) -> Paragraph:
    lines = list(paragraph.lines) if _are_within(paragraph.lines, width, paragraph.digit_px, ruler) else []
    while lines and _height(len(lines), paragraph.digit_px, ruler) > height:
        lines.pop()
    if lines:
        last = lines[-1]
        while last and ruler.width_px(last + _MORE, paragraph.digit_px) > width:
            last = last[:-1].rstrip()
        lines[-1] = last + _MORE if last else ""
    kept = tuple(line for line in lines if line)
    return Paragraph(kept, paragraph.digit_px, _height(len(kept), paragraph.digit_px, ruler), is_whole=False)


def _wrapped(text: str, width: int, digit_px: int, ruler: Ruler) -> Iterator[str]:
    """Between words; a word wider than the line is broken."""
    line = ""
    for word in words_of(text):
        longer = f"{line} {word}".lstrip()
        if ruler.width_px(longer, digit_px) <= width:
            line = longer
            continue
        if line:
            yield line
        *broken, line = _broken(word, width, digit_px, ruler)
        yield from broken
    if line:
        yield line


def _broken(word: str, width: int, digit_px: int, ruler: Ruler) -> list[str]:
    pieces = [""]
    for letter in word:
        if pieces[-1] and ruler.width_px(pieces[-1] + letter, digit_px) > width:
            pieces.append("")
        pieces[-1] += letter
    return pieces
