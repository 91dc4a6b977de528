"""The window on SDL's dummy driver: events posted by hand, pixels read back."""

from collections.abc import Callable, Iterator, Sequence

import pygame
import pytest

from saythesum.errors import ScreenError
from saythesum.keyboard.keymap import EVERYBODYS, Keymap
from saythesum.keyboard.keys import Focus, Key, LookChange, Pressed, ViewShown
from saythesum.ports import Screen, ScreenNews, Touched
from saythesum.scene.number_pad import NUMBER_PAD, PadKeyShown
from saythesum.scene.scene import Scene
from saythesum.screen.accessibility.publisher import Publisher
from saythesum.screen.colours import COLOUR_SETS
from saythesum.screen.look import FIRST_STEP, Look
from saythesum.screen.shapes import Button
from saythesum.screen.window import Window
from saythesum.settings import Colours
from tests.screen.scenes import scenes

SCENES = scenes()
Opened = Callable[..., Window]
FOUR, SEVEN, PAD_FOUR, RETURN, F2, F5, LETTER_B = 33, 36, 92, 40, 59, 62, 5  # USB HID Usage Tables, page 0x07


@pytest.fixture
def opened(monkeypatch: pytest.MonkeyPatch) -> Iterator[Opened]:
    monkeypatch.setenv("SDL_VIDEODRIVER", "dummy")
    windows: list[Window] = []

    def at(
        size: tuple[int, int] = (800, 600),
        look: Look | None = None,
        *,
        keymap: Keymap = EVERYBODYS,
        has_pad_once_touched: bool = False,
    ) -> Window:
        windows.append(
            Window(look or Look(), lambda: 1234, size, keymap=keymap, has_pad_once_touched=has_pad_once_touched)
        )
        windows[-1].presses(1)
        return windows[-1]

    yield at
    for window in windows:
        window.close()


def happen(kind: int, **what: object) -> None:
    pygame.event.post(pygame.event.Event(kind, what))


def key_down(scan: int, text: str = "", mod: int = 0) -> None:
    happen(pygame.KEYDOWN, scancode=scan, unicode=text, mod=mod, key=0)


def key_up(scan: int) -> None:
    happen(pygame.KEYUP, scancode=scan, mod=0, key=0)


def digits_in(presses: Sequence[ScreenNews]) -> list[int | None]:
    return [press.digit for press in presses if isinstance(press, Pressed) and not press.is_repeat]


def ground(window: Window) -> tuple[int, ...]:
    surface = pygame.display.get_surface()
    assert surface is not None
    return tuple(surface.get_at((0, 0)))[:3]


class Failing(Publisher):
    """Fails at every call from the window."""

    def __init__(self) -> None:
        self.calls = 0

    def look(self) -> list[Pressed | Touched]:
        self.calls += 1
        raise RuntimeError("the bus is gone")

    def show(self, scene: Scene, places: Sequence[Button]) -> None:
        self.calls += 1
        raise RuntimeError("the bus is gone")


def test_a_failure_in_publishing_ends_the_publishing_and_not_the_window(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("SDL_VIDEODRIVER", "dummy")
    failing = Failing()
    window = Window(Look(), lambda: 1234, (800, 600), published_by=lambda *_: failing)
    window.show(next(iter(SCENES.values())))
    key_down(FOUR, "4")
    assert digits_in(window.presses(1)) == [4]
    assert failing.calls == 1
    window.close()


def test_a_window_is_a_screen(opened: Opened) -> None:
    screen: Screen = opened()
    assert list(screen.presses(1)) == []


@pytest.mark.parametrize("name", COLOUR_SETS)
def test_the_first_frame_is_in_the_pupils_colours(opened: Opened, name: Colours) -> None:
    window = opened(look=Look(colours=name))
    assert ground(window) == COLOUR_SETS[name].ground
    window.show(SCENES["asked"])
    assert ground(window) == COLOUR_SETS[name].ground


@pytest.mark.parametrize("size", [(200, 150), (60, 40), (1, 1)])
def test_a_tiny_window_is_no_trouble(opened: Opened, size: tuple[int, int]) -> None:
    window = opened(size)
    for shown in SCENES.values():
        window.show(shown)
    key_down(FOUR, "4")
    assert digits_in(window.presses(1)) == [4]


def test_keys_come_as_presses_whatever_num_lock(opened: Opened) -> None:
    window = opened()
    key_down(FOUR, "4")
    key_up(FOUR)
    key_down(PAD_FOUR, "")
    key_up(PAD_FOUR)
    key_down(LETTER_B, "b")
    key_up(LETTER_B)
    key_down(RETURN, "\r")
    assert window.presses(1) == [
        Pressed(Key.DIGIT, 1234, digit=4),
        Pressed(Key.DIGIT, 1234, digit=4),
        Pressed(Key.ENTER, 1234),
    ]


@pytest.mark.parametrize("is_key_told_again", [True, False])
def test_a_key_held_for_a_minute_is_one_press(opened: Opened, is_key_told_again: bool) -> None:
    """30 times a second its KEYDOWN and text again, or, as SDL 2 tells it to pygame, its text alone."""
    window = opened()
    key_down(SEVEN, "7")
    pressed = digits_in(window.presses(1))
    for _ in range(1800):
        if is_key_told_again:
            key_down(SEVEN, "7")
        happen(pygame.TEXTINPUT, text="7")
        pressed += digits_in(window.presses(1))
    key_up(SEVEN)
    key_down(SEVEN, "7")
    pressed += digits_in(window.presses(1))
    assert pressed == [7, 7]


def test_text_without_a_key_is_typed_and_the_text_of_a_key_is_not_typed_twice(opened: Opened) -> None:
    """A braille display and a switch send text alone; an input method sends a key's text after the key is let go."""
    window = opened()
    happen(pygame.TEXTINPUT, text="44")
    assert digits_in(window.presses(1)) == [4, 4]
    key_down(FOUR, "4")
    key_up(FOUR)
    happen(pygame.TEXTINPUT, text="4")
    happen(pygame.TEXTINPUT, text="4")
    assert digits_in(window.presses(1)) == [4, 4], "one of the key, one of its own"


def test_keys_let_go_elsewhere_are_not_held_for_ever(opened: Opened) -> None:
    window = opened()
    key_down(FOUR, "4")
    window.presses(1)
    happen(pygame.WINDOWFOCUSLOST)
    key_down(FOUR, "4")
    assert digits_in(window.presses(1)) == [4]


def test_a_button_acts_when_it_is_let_go_and_not_when_slid_off(opened: Opened) -> None:
    window = opened((1366, 768))
    window.show(SCENES["asked"])
    on_help, elsewhere = _middle_of("help", window), (790, 5)
    happen(pygame.MOUSEBUTTONDOWN, button=1, pos=on_help)
    assert list(window.presses(1)) == []
    happen(pygame.MOUSEBUTTONUP, button=1, pos=on_help)
    assert window.presses(1) == [Touched(Focus.HELP, 1234)]
    for down, up in ((on_help, elsewhere), (elsewhere, on_help), (on_help, _middle_of("stop", window))):
        happen(pygame.MOUSEBUTTONDOWN, button=1, pos=down)
        happen(pygame.MOUSEBUTTONUP, button=1, pos=up)
        assert list(window.presses(1)) == []
    happen(pygame.MOUSEBUTTONDOWN, button=3, pos=on_help)
    happen(pygame.MOUSEBUTTONUP, button=3, pos=on_help)
    assert list(window.presses(1)) == []


def test_the_number_pad_comes_once_somebody_has_touched_the_window_and_types(opened: Opened) -> None:
    window = opened((1366, 768), has_pad_once_touched=True)
    window.show(SCENES["asked"])
    four, enter, rub_out = (key for key in NUMBER_PAD if key.digit == 4 or key.key in (Key.ENTER, Key.BACKSPACE))
    assert four not in [button.presses for button in window.buttons]
    assert _touched(window, (1360, 5)) == [], "nothing is there to press"
    assert _touched(window, _centre(window, four)) == [Pressed(Key.DIGIT, 1234, digit=4)]
    assert _touched(window, _centre(window, rub_out)) == [Pressed(Key.BACKSPACE, 1234)]
    assert _touched(window, _centre(window, enter)) == [Touched(Focus.ANSWER, 1234)]


def test_where_any_key_goes_on_a_touch_anywhere_does_too(opened: Opened) -> None:
    window = opened()
    for name in ("press-a-key", "all-done"):
        window.show(SCENES[name])
        assert _touched(window, (700, 20)) == [Touched(Focus.ANSWER, 1234)]


def _touched(window: Window, at: tuple[int, int]) -> list[object]:
    """A finger, as SDL passes it on."""
    happen(pygame.MOUSEBUTTONDOWN, button=1, pos=at, touch=True)
    assert list(window.presses(1)) == []
    happen(pygame.MOUSEBUTTONUP, button=1, pos=at, touch=True)
    return list(window.presses(1))


def _centre(window: Window, key: PadKeyShown) -> tuple[int, int]:
    box = next(button.box for button in window.buttons if button.presses == key)
    return box.x + box.width // 2, box.y + box.height // 2


def _middle_of(name: str, window: Window) -> tuple[int, int]:
    box = next(button.box for button in window.buttons if button.presses == name)
    return box.x + box.width // 2, box.y + box.height // 2


def test_the_look_changes_at_once(opened: Opened) -> None:
    window = opened()
    window.show(SCENES["guided"])
    key_down(F2)
    assert window.presses(1) == [Pressed(Key.VIEW, 1234)], "what comes of it is for the dialogue to say"
    assert window.change(LookChange.NEXT_VIEW) == ViewShown("grid")
    window.change(LookChange.NEXT_COLOURS)
    assert ground(window) == COLOUR_SETS["white on black"].ground
    window.change(LookChange.BIGGER)
    assert window.look == Look("grid", FIRST_STEP + 1, "white on black")


def test_keys_of_the_pupils_own(opened: Opened) -> None:
    window = opened(keymap=Keymap({**EVERYBODYS.keys, "F5": Key.HELP}, has_braille_letters=True))
    key_down(F5)
    happen(pygame.TEXTINPUT, text="dd")
    four = Pressed(Key.DIGIT, 1234, digit=4, is_letter=True)
    assert window.presses(1) == [Pressed(Key.HELP, 1234)], "the text is the held key's own"
    key_up(F5)
    happen(pygame.TEXTINPUT, text="dd")
    assert window.presses(1) == [four, four]


def test_closing_the_window_is_a_press(opened: Opened) -> None:
    window = opened()
    happen(pygame.QUIT)
    assert window.presses(1) == [Pressed(Key.CLOSE, 1234)]


def test_something_else_can_end_the_wait(opened: Opened) -> None:
    window = opened()
    window.wake()
    assert list(window.presses(600_000)) == []


def test_no_display_is_one_sentence(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("SDL_VIDEODRIVER", "x11")
    monkeypatch.setenv("DISPLAY", ":9999")
    with pytest.raises(ScreenError, match=r"^No window can be opened \(.+\): practise by voice, or with .+\.$"):
        Window(Look(), lambda: 0, (200, 150))
