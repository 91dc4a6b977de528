"""Where the command begins: Ctrl and C stops it quietly, also while it is still loading."""

import sys


def main() -> int:
    try:
        from saythesum.app.cli.main import main as asked

        return asked()
    except KeyboardInterrupt:
        return 0


if __name__ == "__main__":
    sys.exit(main())
