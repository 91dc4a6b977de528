"""Time and memory, as medians and worst of 20: `python -m tests.tools.bench`, on the rig as well with `--rig`.

Figures hold for the machine they are printed on; beside each stands what is aimed at.
"""

import sys

from tests.tools.bench import decoding, growing, knowing, on_assistive, on_screen, starting, working
from tests.tools.bench.lines import show

OFFLINE = (
    starting.first_words,
    working.listening,
    decoding.answers,
    decoding.holds,
    decoding.learning,
    decoding.engines,
    starting.model_loading,
    working.other_rates,
    working.phrases,
    working.steps,
    knowing.answers,
    growing.growth,
    working.rows,
    starting.memory,
    on_screen.key_to_pixels,
    on_assistive.while_published,
)


def main() -> None:
    for measured in OFFLINE:
        for figure in measured():
            show(figure)
    if "--rig" in sys.argv[1:]:
        from tests.tools.bench.on_rig import show_on_rig

        show_on_rig()


if __name__ == "__main__":
    main()
