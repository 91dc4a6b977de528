"""Names of keys as a teacher types them, and what may be asked of one."""

from collections.abc import Mapping
from dataclasses import dataclass

from saythesum.errors import CallerError

OWN: Mapping[str, str] = {
    **{"Enter": "enter", "pad enter": "enter", "Backspace": "backspace", "pad minus": "backspace"},
    **{"Space": "say_again", "pad star": "say_again", "Page Down": "help", "pad plus": "help"},
    **{"Page Up": "where_am_i", "pad dot": "where_am_i", "Tab": "tab", "Escape": "escape"},
    **{"Left": "left", "Right": "right", "Up": "up", "Down": "down", "Home": "home", "End": "end"},
    **{"F1": "keys_aloud", "F2": "view", "F3": "colours", "F9": "adult"},
}
"""What keys mean for everybody, by the setting that can give it one more key."""
FREE = (
    *(f"F{number}" for number in (5, 6, 7, 8, 4, *range(10, 25))),
    *("Delete", "pad slash", "pad equals", *(f"pad {digit}" for digit in range(10))),
)
"""A pad's digit that is given away types no digit any more; the row's still does."""
_NAMES = {name.lower(): name for name in (*OWN, *FREE)}
_OF_OTHERS = frozenset(
    {"insert", "caps", "lock", "num", "scroll", "ctrl", "control", "shift", "alt", "altgr"}
    | {"windows", "super", "command", "cmd", "option", "menu", "print", "pause"}
)
"""Screen readers and the computer itself need these."""
_RIGHT = 'the name of a key, such as "F5", "pad 0" or "Delete"'


@dataclass(frozen=True, slots=True)
class KeyName:
    """The limits of a setting that is one more key for something, or none."""

    def taken(self, value: object) -> str | None:
        if value is None:
            return None
        if not isinstance(value, str):
            raise CallerError(_RIGHT)
        name = " ".join(value.lower().split())
        if name in _NAMES:
            return _NAMES[name]
        if len(name) == 1:
            raise CallerError(f"{_RIGHT}, never a letter, a digit or a sign: they are typed as answers")
        if "+" in name:
            raise CallerError(f"{_RIGHT}, pressed alone")
        if _OF_OTHERS & set(name.replace("-", " ").split()):
            raise CallerError(f"{_RIGHT}, never one that screen readers or the computer itself need")
        raise CallerError(_RIGHT)


def given_twice(given: Mapping[str, object], before: Mapping[str, object]) -> Mapping[str, str]:
    """For each setting whose key is another's already, what is wrong with it.

    `given`: settings with their keys; `before`: all settings as they were without them.
    """
    owners = dict(OWN) | {str(name): setting for setting, name in before.items() if name and setting not in given}
    wrong = {}
    for setting, name in given.items():
        if isinstance(name, str) and owners.setdefault(name, setting) != setting:
            wrong[setting] = f'{setting} has "{name}", the key of {owners[name]} already; give another, such as '
    unused = next(name for name in FREE if name not in owners)
    return {setting: f'{told}"{unused}".' for setting, told in wrong.items()}
