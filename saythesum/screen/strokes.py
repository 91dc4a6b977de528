"""What pygame tells of the keyboard, as presses. A key that is held is one press, and text of its own is not lost."""

import pygame

from saythesum.dialogue.keyboard import Stroke, press_of, presses_of_text
from saythesum.dialogue.keymap import Keymap
from saythesum.dialogue.keys import Pressed


class Strokes:
    """Tells keys that are held from keys pressed again, and text that came without a key from text of a key.

    A held key repeats its text on some systems, and input methods send a key's text after it: neither is typed anew.
    """

    def __init__(self, keymap: Keymap) -> None:
        self._keymap = keymap
        self._held: set[int] = set()
        self._awaited = ""
        """What the last key typed, as long as its text has not come."""

    def key_down(self, event: pygame.event.Event, at_ms: int) -> list[Pressed]:
        is_repeat = event.scancode in self._held
        self._held.add(event.scancode)
        self._awaited = event.unicode
        stroke = Stroke(
            scan=event.scancode,
            text=event.unicode,
            at_ms=at_ms,
            is_repeat=is_repeat,
            is_shift=bool(event.mod & pygame.KMOD_SHIFT),
            is_ctrl=bool(event.mod & pygame.KMOD_CTRL),
            is_alt=bool(event.mod & pygame.KMOD_ALT),
        )
        press = press_of(stroke, self._keymap)
        return [press] if press else []

    def key_up(self, event: pygame.event.Event) -> None:
        self._held.discard(event.scancode)

    def text(self, event: pygame.event.Event, at_ms: int) -> list[Pressed]:
        is_of_a_key = bool(self._held) or (self._awaited != "" and event.text == self._awaited)
        self._awaited = ""
        return [] if is_of_a_key else list(presses_of_text(event.text, at_ms, self._keymap))

    def focus_lost(self) -> None:
        """Keys let go elsewhere are never told."""
        self._held.clear()
        self._awaited = ""
