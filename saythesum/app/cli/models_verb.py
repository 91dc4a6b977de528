"""The verb `models`: what it can be asked, and what it says."""

from pathlib import Path

from saythesum.app.cli.plain_parser import Verbs
from saythesum.app.models.install import add_model, list_models, remove_model
from saythesum.app.models.trial import try_model
from saythesum.app.models.unpack import check_kind
from saythesum.app.setup.clock import RealClock
from saythesum.app.setup.folders import own_places
from saythesum.app.terminal.console import show
from saythesum.core.records.times import utc_text


def add_verb(verbs: Verbs) -> None:
    verb = verbs.add_parser(
        "models",
        help="list, add or remove speech models",
        description="Speech models for the listening engine vosk. The engine neural, which listens unless another is "
        "chosen, needs none.",
        epilog="Example: saythesum models list",
    )
    kinds = verb.add_subparsers(title="what to do", metavar="WHAT", required=True)
    listed = kinds.add_parser(
        "list",
        help="the models that were added",
        description="List the models that were added, the one in use last.",
        epilog="Example: saythesum models list",
    )
    listed.set_defaults(run=lambda _: _list())
    added = kinds.add_parser(
        "add",
        needs="FILE",
        help="add a model",
        description="Add a model that you have on this machine; it is tried on a known sound first.",
        epilog="Example: saythesum models add ferry-english.zip",
    )
    added.add_argument_group("which").add_argument(
        "source", metavar="FILE", type=Path, help="a folder, a .zip or a .tar.gz"
    )
    added.set_defaults(run=lambda options: _add(options.source))
    removed = kinds.add_parser(
        "remove",
        needs="NAME",
        help="remove a model that was added",
        description="Remove a model that was added, and nothing else.",
        epilog="Example: saythesum models remove ferry-english",
    )
    removed.add_argument_group("which").add_argument("name", metavar="NAME", help="as models list says it")
    removed.set_defaults(run=lambda options: _remove(options.name))


def _list() -> None:
    for line in list_models(own_places().models):
        show(line)


def _add(source: Path) -> None:
    check_kind(source)
    show("Unpacking the model and trying it on a known sound; this can take a minute.")
    model, notices = add_model(source, own_places().models, check=try_model, at=utc_text(RealClock().now()))
    show(f'Added {model.name}. To listen with it, write under [listening] in the settings file: engine = "vosk"')
    for notice in notices:
        show(notice)


def _remove(name: str) -> None:
    remove_model(name, own_places().models)
    show(f"Removed {name}.")
