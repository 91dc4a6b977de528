"""Buttons of a mouse or a joystick as switches. Joysticks are looked at only where one can be a switch."""

from collections.abc import Mapping, Sequence

import pygame

from saythesum.keyboard.keymap import Keymap
from saythesum.keyboard.keys import Pressed
from saythesum.ports import ScreenNews, SwitchFound, SwitchLost

_MOUSE: Mapping[int, str] = {1: "mouse left", 2: "mouse middle", 3: "mouse right"}


class SwitchButtons:
    """For the window's thread."""

    def __init__(self, keymap: Keymap) -> None:
        self._keymap = keymap
        self._joysticks: dict[int, pygame.joystick.JoystickType] = {}
        """By their ids: one whose object is gone sends nothing more."""
        self._has_joystick = any(name.startswith("joystick") for name in self._switches())
        self._was_told_lost = False
        if self._has_joystick or keymap.finds_switch:
            pygame.joystick.init()

    def missing(self, at_ms: int) -> Sequence[ScreenNews]:
        """Once, where the switch is a button of something that is not plugged in."""
        if not self._has_joystick or self._was_told_lost or self._joysticks or pygame.joystick.get_count():
            return []
        self._was_told_lost = True
        return [SwitchLost(at_ms)]

    def taken(self, event: pygame.event.Event, at_ms: int) -> Sequence[ScreenNews] | None:
        """What comes of an event; None where it is not about a switch."""
        match event.type:
            case pygame.MOUSEBUTTONDOWN | pygame.MOUSEBUTTONUP:
                return self._pressed(_MOUSE.get(event.button, ""), at_ms, let_go=event.type == pygame.MOUSEBUTTONUP)
            case pygame.JOYBUTTONDOWN | pygame.JOYBUTTONUP:
                name = f"joystick {event.button + 1}"
                return self._pressed(name, at_ms, let_go=event.type == pygame.JOYBUTTONUP) or []
            case pygame.JOYDEVICEADDED:
                return self._plugged_in(event.device_index, at_ms)
            case pygame.JOYDEVICEREMOVED:
                self._joysticks.pop(event.instance_id, None)
                return self.missing(at_ms)
            case _:
                return None

    def _plugged_in(self, index: int, at_ms: int) -> Sequence[ScreenNews]:
        joystick = pygame.joystick.Joystick(index)
        self._joysticks[joystick.get_instance_id()] = joystick
        was_told_lost, self._was_told_lost = self._was_told_lost, False
        return [SwitchFound(at_ms)] if was_told_lost else []

    def _pressed(self, name: str, at_ms: int, *, let_go: bool) -> Sequence[Pressed] | None:
        switch = self._keymap.switch_of(name)
        if switch is None:
            return None
        return [Pressed(switch[0], at_ms, is_let_go=let_go, name=switch[1])]

    def _switches(self) -> Sequence[str]:
        return [name for name in self._keymap.keys if self._keymap.switch_of(name)]
