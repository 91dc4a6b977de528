"""Which keys stand as buttons beside a sum, and whether there is room for them."""

from saythesum.scene.number_pad import PAD_ROWS, PadRows
from saythesum.scene.scene import Scene
from saythesum.screen.look import LAST_STEP, Look
from saythesum.screen.page import Layout


def pad_rows(scene: Scene, look: Look) -> PadRows:
    """One cell has no room for anything else."""
    if look.view == "one cell" or look.step == LAST_STEP:
        return ()
    if len(scene.keys) > 1:
        return [(key,) for key in scene.keys]
    return PAD_ROWS if look.has_pad and scene.buttons and not scene.offered else ()


def says_as_much(beside_pad: Layout, without: Layout, large_px: int) -> bool:
    """The pad takes room of the sum's size and of pictures; never of what is said, of its large print, of a button."""
    has_buttons = {button.presses for button in without.buttons} <= {button.presses for button in beside_pad.buttons}
    is_readable = beside_pad.caption_px >= min(without.caption_px, large_px) and beside_pad.sum_px >= large_px
    return has_buttons and is_readable and beside_pad.is_caption_whole
