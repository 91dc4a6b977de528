"""The verb `rehearse`: a whole practice with a made-up pupil."""

import argparse
from pathlib import Path

from saythesum.app.cli.plain_parser import Verbs, one_of, whole
from saythesum.app.rehearsal.kinds import KINDS, NO_MISTAKE, RIGHT, PupilKind


def add_verb(verbs: Verbs) -> None:
    kinds = "\n".join(f"{kind.name}: {kind.about}" for kind in NO_MISTAKE)
    mistakes = "\n".join(name for name, kind in KINDS.items() if kind not in NO_MISTAKE)
    verb = verbs.add_parser(
        "rehearse",
        help="hear a whole practice with a made-up pupil",
        description="A practice with a made-up pupil whose spoken answers go through the real listening engine.\n"
        "Needs no microphone, loudspeaker or screen. A made-up pupil is no evidence about children.\n\n"
        f"Kinds of pupil:\n{kinds}\n\nOr the name of a mistake, made wherever it can show:\n{mistakes}",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        epilog="Example: saythesum rehearse --pupil-kind stopped-at-the-ten",
    )
    verb.add_argument(
        "--into",
        metavar="FOLDER",
        type=Path,
        default=Path("rehearsal"),
        help="where sound, log and transcript are written",
    )
    verb.add_argument("--pupil-kind", metavar="KIND", type=_pupil_kind, default=RIGHT, help="one of those above")
    verb.add_argument(
        "--grid", metavar="FILE", type=Path, help="a grid file or a starter grid's name; without it the ferry"
    )
    verb.add_argument(
        "--seed", metavar="N", type=whole, default=0, help="with the same number the same rehearsal comes again"
    )
    verb.add_argument("--engine", metavar="NAME", help="the listening engine: neural or vosk")
    verb.set_defaults(run=_rehearse)


def _pupil_kind(text: str) -> PupilKind:
    return KINDS[one_of(tuple(KINDS))(text)]


def _rehearse(options: argparse.Namespace) -> None:
    # The libraries of sound and listening are loaded by the verbs that need them.
    from saythesum.app.rehearsal.rehearse import RehearsalWish, rehearse

    wish = RehearsalWish(options.into, options.pupil_kind, options.grid, options.seed, options.engine)
    rehearse(wish)
