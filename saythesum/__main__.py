"""Where the command begins: what it makes is its user's alone, and Ctrl with C stops it with a line."""

import gc
import os
import sys

ONLY_ITS_OWNER = 0o077
"""No rights for anybody else on what is made from here on, by this process and by those that it starts. A folder or a
file that a person made keeps the rights it has."""

MADE_BETWEEN_CLEARINGS = 20_000
"""Objects. What a start loads stays; looked through after each 700, as Python does it, it took a tenth of the start."""


def main() -> int:
    os.umask(ONLY_ITS_OWNER)
    gc.set_threshold(MADE_BETWEEN_CLEARINGS)
    try:
        from saythesum.app.cli.main import main as run

        return run()
    except KeyboardInterrupt:  # nothing of ours need be loaded yet
        if sys.stderr is not None:
            after_what_the_terminal_wrote = "\n" if sys.stderr.isatty() else ""
            print(f"{after_what_the_terminal_wrote}Stopped.", file=sys.stderr)  # noqa: T201
        return 0


if __name__ == "__main__":
    sys.exit(main())
