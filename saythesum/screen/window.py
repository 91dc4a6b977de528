"""The window: a scene in the pupil's colours, and what is pressed in it. Nothing in it moves or flashes."""

import os
import warnings
from collections.abc import Callable, Sequence
from dataclasses import replace
from threading import Event
from typing import TypeVar

import pygame
from pygame._sdl2.video import Window as SdlWindow

from saythesum.errors import ScreenError
from saythesum.keyboard.keymap import EVERYBODYS, Keymap
from saythesum.keyboard.keys import SWITCHES, Key, LookChange, LookMessage, Pressed
from saythesum.keyboard.scan_codes import Stroke, press_of, presses_of_text
from saythesum.ports import ScreenNews, Touched
from saythesum.scene.braille_line import braille_line
from saythesum.scene.scene import Scene
from saythesum.screen import x11
from saythesum.screen.accessibility.braille_display import BrailleDisplay
from saythesum.screen.accessibility.publisher import Publisher, publisher
from saythesum.screen.colours import COLOUR_SETS, Colour
from saythesum.screen.drawing import draw
from saythesum.screen.layout import lay_out
from saythesum.screen.lettering import Lettering
from saythesum.screen.look import Look
from saythesum.screen.page import Layout
from saythesum.screen.pressing import pressed_by
from saythesum.screen.shapes import Box, Button
from saythesum.screen.switch_buttons import SwitchButtons

TITLE = "Say the sum"
Result = TypeVar("Result")
_OF_THE_DESKTOP = 0.9
_LEFT_BUTTON = 1
_LOOKS_EVERY_MS = 10


class Window:
    """Everything of it is for one thread, `wake` excepted. Raises ScreenError where no window can be opened."""

    def __init__(
        self,
        look: Look,
        now_ms: Callable[[], int],
        size: tuple[int, int] | None = None,
        *,
        keymap: Keymap = EVERYBODYS,
        has_pad_once_touched: bool = False,
        braille: BrailleDisplay | None = None,
        is_braille_always: bool = False,
        published_by: Callable[[str, Callable[[], int], Callable[[], None]], Publisher | None] = publisher,
    ) -> None:
        self.look = look
        """Changed by key. The settings are kept elsewhere."""
        self._now_ms = now_ms
        self._has_pad_once_touched = has_pad_once_touched
        self._strokes = Strokes(keymap)
        self._scene: Scene | None = None
        self._layout: Layout | None = None
        self._touched: Button | None = None
        self._has_keyboard = False
        self._woken = Event()
        self._is_stale = True
        """The window has another size, or something that covered it has gone."""
        ground = COLOUR_SETS[look.colours].ground
        try:
            pygame.font.init()
            self._lettering = Lettering()
            self._surface, self._kept, self._link = x11.opened(lambda: _opened(size, ground))
        except pygame.error as error:
            raise ScreenError(
                f"No window can be opened ({error}): practise by voice, or with practise --by keys in a terminal."
            ) from error
        self._switch_buttons = SwitchButtons(keymap)
        self._braille, self._is_braille_always = braille, is_braille_always
        if braille:
            braille.wake = self.wake
        self._publisher = published_by(TITLE, now_ms, self.wake)
        self._is_publishing = self._publisher is not None

    @property
    def notice(self) -> str:
        """A sentence for the adult where a font had to be replaced; else ""."""
        return self._lettering.notice

    @property
    def buttons(self) -> tuple[Button, ...]:
        """Where they are just now."""
        return self._layout.buttons if self._layout else ()

    def show(self, scene: Scene) -> None:
        if scene != self._scene:
            self._scene = scene
            self._draw()

    def change(self, change: LookChange) -> LookMessage:
        look, message = self.look.changed(change)
        self._look_like(look)
        return message

    def resize_to(self, step: int) -> None:
        self._look_like(replace(self.look, step=step))

    def presses(self, timeout_ms: int) -> Sequence[ScreenNews]:
        presses: list[ScreenNews] = list(self._switch_buttons.missing(self._now_ms()))
        for event in self._events(timeout_ms):
            presses += self._taken(event)
        presses += self._publish(lambda publisher: publisher.look()) or ()
        presses += self._felt()
        if self._is_stale:
            self._draw()
        return presses

    def wake(self) -> None:
        self._woken.set()

    def close(self) -> None:
        if self._braille:
            self._braille.close()
        if not self._link.is_cut():
            pygame.display.quit()
            pygame.font.quit()

    # ---- what happens

    def _events(self, timeout_ms: int) -> Sequence[pygame.event.Event]:
        """Looks every 10 ms: three times cheaper than SDL's own waiting, which looks every millisecond."""
        for _ in range(max(1, timeout_ms // _LOOKS_EVERY_MS)):
            self._link.check()
            events = pygame.event.get()
            if events or self._woken.wait(_LOOKS_EVERY_MS / 1000):
                break
        self._woken.clear()
        return events

    def _taken(self, event: pygame.event.Event) -> Sequence[ScreenNews]:
        of_switch = self._switch_buttons.taken(event, self._now_ms())
        if of_switch is not None:
            return of_switch
        match event.type:
            case pygame.KEYDOWN:
                return self._strokes.key_down(event, self._now_ms())
            case pygame.KEYUP:
                return self._strokes.key_up(event, self._now_ms())
            case pygame.TEXTINPUT:
                return self._strokes.text(event, self._now_ms())
            case pygame.MOUSEBUTTONDOWN if event.button == _LEFT_BUTTON:
                self._touched = self._button_at(event.pos)
            case pygame.MOUSEBUTTONUP if event.button == _LEFT_BUTTON:
                return self._let_go(event.pos)
            case pygame.WINDOWFOCUSLOST:
                self._strokes.focus_lost()
                self._focus_changed(has_focus=False)
            case pygame.WINDOWFOCUSGAINED:
                self._focus_changed(has_focus=True)
            case pygame.WINDOWSIZECHANGED | pygame.WINDOWEXPOSED:
                self._is_stale = True
            case pygame.QUIT:
                return [Pressed(Key.CLOSE, self._now_ms())]
            case _:
                pass
        return []

    def _button_at(self, at: tuple[int, int]) -> Button | None:
        found = next((button for button in self.buttons if button.box.holds(*at)), None)
        keys = self._scene.keys if self._scene else ()
        if found is None and len(keys) == 1:
            return Button(keys[0], Box(0, 0, *self._surface.get_size()))  # any key is pressed anywhere
        return found

    def _let_go(self, at: tuple[int, int]) -> list[Pressed | Touched]:
        """A button acts when it is let go; somebody who slides off it has changed their mind."""
        touched, self._touched = self._touched, None
        let_go = self._button_at(at)
        self._show_pad_once_touched()
        if touched is None or let_go is None or touched.presses != let_go.presses:
            return []
        return pressed_by(let_go.presses, self._scene, self._now_ms())

    def _show_pad_once_touched(self) -> None:
        """After the press, so that no button moves away under a finger."""
        if self._has_pad_once_touched and not self.look.has_pad:
            self._look_like(replace(self.look, has_pad=True))

    def _focus_changed(self, *, has_focus: bool) -> None:
        self._has_keyboard = has_focus
        self._publish(lambda publisher: publisher.focus_changed(has_focus=has_focus))

    def _publish(self, call: Callable[[Publisher], Result]) -> Result | None:
        """A failure ends the publishing, never the practice. The publisher stays: its end could wait for its thread."""
        if self._publisher is None or not self._is_publishing:
            return None
        try:
            return call(self._publisher)
        except (KeyboardInterrupt, SystemExit):
            raise
        except BaseException:  # a panic of the library is no Exception
            self._is_publishing = False
            return None

    def _look_like(self, look: Look) -> None:
        self.look = look
        self._draw()

    # ---- what is seen

    def _draw(self) -> None:
        self._is_stale = False
        colours = COLOUR_SETS[self.look.colours]
        self._surface = pygame.display.get_surface() or self._surface
        if self._scene is None:
            self._surface.fill(colours.ground)
        else:
            self._layout = lay_out(self._scene, *self._surface.get_size(), self.look, self._lettering)
            draw(self._surface, self._layout, colours, self._lettering)
        self._link.check()
        pygame.display.flip()
        self._publish_scene()

    def _felt(self) -> Sequence[Pressed | Touched]:
        """What was pressed on a braille display, which is ours while the window has the keyboard."""
        if self._braille is None:
            return ()
        is_read = self._publisher is not None and self._is_publishing and self._publisher.is_read
        self._braille.want(is_wanted=self._has_keyboard and (self._is_braille_always or not is_read))
        presses: list[Pressed | Touched] = []
        for felt in self._braille.look():
            presses += [felt] if isinstance(felt, Pressed) else pressed_by(felt, self._scene, self._now_ms())
        return presses

    def _publish_scene(self) -> None:
        shown, buttons = self._scene, self.buttons
        if shown and self._braille:
            self._braille.show(braille_line(shown))
        if shown:
            self._publish(lambda publisher: publisher.show(shown, buttons))


def _opened(size: tuple[int, int] | None, ground: Colour) -> tuple[pygame.Surface, object, x11.Link]:
    """Hidden until it has its colour: pygame makes every new window black.

    The second is to be kept as long as events are read: pygame hands it out with them, and does not keep it itself.
    """
    pygame.display.init()
    if pygame.display.get_driver() == "x11":
        # Elsewhere there is no other way to draw; here it would go through the graphics card, or what stands in for it.
        os.environ.setdefault("SDL_FRAMEBUFFER_ACCELERATION", "0")
    pygame.display.set_caption(TITLE)
    surface = pygame.display.set_mode(size or _usual_size(), pygame.RESIZABLE | pygame.HIDDEN)
    surface.fill(ground)
    with warnings.catch_warnings(action="ignore", category=DeprecationWarning):
        # pygame-ce would like a window of another kind; pygame has no other way to show this one.
        shown = SdlWindow.from_display_module()
    shown.show()
    pygame.display.flip()
    pygame.display.set_allow_screensaver(True)
    return surface, shown, x11.Link()


def _usual_size() -> tuple[int, int]:
    width, height = pygame.display.get_desktop_sizes()[0]
    return round(width * _OF_THE_DESKTOP), round(height * _OF_THE_DESKTOP)


class Strokes:
    """Distinguishes keys that are held from keys pressed again, and text that came without a key from text of a key.

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

    def key_up(self, event: pygame.event.Event, at_ms: int) -> list[Pressed]:
        """Of a switch it is worth knowing, as what bounces after it is no press."""
        self._held.discard(event.scancode)
        press = press_of(Stroke(event.scancode, "", at_ms), self._keymap)
        return [replace(press, is_let_go=True)] if press and press.key in SWITCHES else []

    def text(self, event: pygame.event.Event, at_ms: int) -> list[Pressed]:
        is_of_a_key = bool(self._held) or (self._awaited != "" and event.text == self._awaited)
        self._awaited = ""
        return [] if is_of_a_key else list(presses_of_text(event.text, at_ms, self._keymap))

    def focus_lost(self) -> None:
        """No event comes for keys that are let go in another window."""
        self._held.clear()
        self._awaited = ""
