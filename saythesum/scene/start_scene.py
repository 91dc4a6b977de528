"""What a window shows before a practice: the question of the first start, and how it is answered so far."""

from saythesum.scene.scene import NOW_WORDS, ButtonShown, GridShown, Now, Scene

_NO_GRID = GridShown(("10",), ("+1",), (("",),), None, most_digits=2)
_NO_BUTTONS: tuple[ButtonShown, ...] = ()


def start_scene(caption: str, choice: str = "", *, is_print_tried: bool = False) -> Scene:
    """`choice`: what Enter would answer. A sum that nobody is asked shows a size of print as it will be."""
    return Scene(
        now=Now.STARTING,
        now_words=NOW_WORDS[Now.STARTING],
        caption=f"{caption} {choice}" if is_print_tried else caption,
        verdict=None,
        sum="10 + 1" if is_print_tried else "",
        part="",
        is_whole=True,
        answer="11" if is_print_tried else "",
        grid=_NO_GRID,
        line=None,
        buttons=_NO_BUTTONS,
        shows_grid=False,
        choice=choice,
    )
