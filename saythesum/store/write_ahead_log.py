"""Whether SQLite will read all of a write-ahead log: it silently ignores everything after a damaged frame.

Source: "Database File Format", section 4, https://www.sqlite.org/fileformat2.html#the_write_ahead_log
"""

from struct import unpack, unpack_from
from typing import Literal, TypeAlias

_HEADER, _FRAME_HEADER = 32, 24
_MAGIC = (0x377F0682, 0x377F0683)
_BITS_32 = 0xFFFFFFFF
_MOST_RESTARTS = 1_000_000
"""Each restart of the log increments the first salt, so that of an older frame is lower, but hardly by more."""

Sums: TypeAlias = tuple[int, int]


def is_log_whole(log: bytes) -> bool:
    """False if the log holds a committed change that SQLite will not read, or has been cut off.

    An incomplete last transaction (after a kill) is not damage, nor are older frames left over from before the log
    was restarted. SQLite writes a frame's header and its page one after the other, so a log that ends anywhere else
    was cut off.
    """
    if len(log) <= _HEADER:
        return len(log) in (0, _HEADER)
    magic, _, page_size, _, salt_1, salt_2, *sums = unpack_from(">8I", log)
    order: Literal["<", ">"] = ">" if magic & 1 else "<"
    running = _summed(log[:24], (0, 0), order)
    if magic not in _MAGIC or page_size not in (2**power for power in range(9, 17)) or running != tuple(sums):
        return False
    is_read = True
    for at in range(_HEADER, len(log) - _FRAME_HEADER - page_size + 1, _FRAME_HEADER + page_size):
        _, size_after_commit, *salts, sum_1, sum_2 = unpack_from(">6I", log, at)
        if salts != [salt_1, salt_2]:
            if not _is_older(salts, [salt_1, salt_2]):
                return False
            is_read = False
            continue
        if is_read:
            page = log[at + _FRAME_HEADER : at + _FRAME_HEADER + page_size]
            running = _summed(page, _summed(log[at : at + 8], running, order), order)
            is_read = running == (sum_1, sum_2)
        if not is_read and size_after_commit:
            return False
    rest = (len(log) - _HEADER) % (_FRAME_HEADER + page_size)
    return rest in (0, _FRAME_HEADER) or not is_read


def _is_older(salts: list[int], now: list[int]) -> bool:
    """Each restart increments the first salt and draws a new second one; if only one differs, it is damaged."""
    return 0 < (now[0] - salts[0]) & _BITS_32 < _MOST_RESTARTS and salts[1] != now[1]


def _summed(data: bytes, sums: Sums, order: Literal["<", ">"]) -> Sums:
    first, second = sums
    words = iter(unpack(f"{order}{len(data) // 4}I", data))
    for even, odd in zip(words, words, strict=True):
        first = (first + even + second) & _BITS_32
        second = (second + odd + first) & _BITS_32
    return first, second
