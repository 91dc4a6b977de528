"""Every state of the window in every colour set as PNG, for people to look at.

`python -m tests.tools.make_screens FOLDER` makes them all; `--set "yellow on navy"` and `--size 800x600` choose.
"""

import argparse
import os
from collections.abc import Iterator
from pathlib import Path

os.environ["SDL_VIDEODRIVER"] = "dummy"
os.environ["PYGAME_HIDE_SUPPORT_PROMPT"] = "1"

import pygame

from saythesum.scene.scene import Scene
from saythesum.screen.colours import COLOUR_SETS
from saythesum.screen.drawing import draw
from saythesum.screen.layout import lay_out
from saythesum.screen.lettering import Lettering
from saythesum.screen.look import LAST_STEP, VIEWS, Look
from saythesum.settings import Colours
from tests.screen.scenes import scenes

SIZES = ("200x150", "800x600", "1366x768", "3840x2160")


def looks(name: str, scene: Scene, colours: Colours) -> Iterator[tuple[str, Scene, Look]]:
    for view in VIEWS:
        yield f"{name}-{view.replace(' ', '-')}", scene, Look(view, colours=colours)
    for step in (0, LAST_STEP - 1, LAST_STEP):
        yield f"{name}-size-{step}", scene, Look(step=step, colours=colours)


def make(folder: Path, sizes: list[str], colour_sets: list[Colours]) -> int:
    pygame.font.init()
    lettering = Lettering()
    made = 0
    for size in sizes:
        width, height = map(int, size.split("x"))
        surface = pygame.Surface((width, height))
        for colours in colour_sets:
            into = folder / size / colours.replace(" ", "-")
            into.mkdir(parents=True, exist_ok=True)
            for state, scene in scenes().items():
                for name, shown, look in looks(state, scene, colours):
                    layout = lay_out(shown, width, height, look, lettering)
                    draw(surface, layout, COLOUR_SETS[colours], lettering)
                    pygame.image.save(surface, into / f"{name}.png")
                    made += 1
    return made


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("folder", type=Path)
    parser.add_argument("--set", action="append", choices=tuple(COLOUR_SETS), dest="sets", help="a colour set")
    parser.add_argument("--size", action="append", help="WIDTHxHEIGHT in pixels")
    options = parser.parse_args()
    made = make(options.folder, options.size or list(SIZES), options.sets or list(COLOUR_SETS))
    print(f"{made} pictures in {options.folder}")


if __name__ == "__main__":
    main()
