"""The verb `pupils`: who practises here, with which settings."""

from collections.abc import Sequence

from saythesum.app.cli.plain_parser import Verbs
from saythesum.app.setup.clock import RealClock
from saythesum.app.setup.folders import own_places
from saythesum.app.terminal.console import show
from saythesum.errors import CallerError
from saythesum.office.own_words import own_words_of, own_words_said
from saythesum.office.pupils import PupilCard, add_pupil, change_pupil, changes, list_pupils, put_away, show_pupil
from saythesum.wording.for_adults.counted import counted


def add_verb(verbs: Verbs) -> None:
    verb = verbs.add_parser(
        "pupils",
        help="list, add, change or put away pupils",
        description="Pupils are known by a code, never by a name: what is kept about them then names no child.",
        epilog="Example: saythesum pupils add rk-7 speech.rate_wpm=120",
    )
    kinds = verb.add_subparsers(title="what to do", metavar="WHAT", required=True)
    listed = kinds.add_parser(
        "list",
        help="all pupils",
        description="List the pupils, or say what was changed for one of them.",
        epilog="Example: saythesum pupils list rk-7",
    )
    listed.add_argument("code", metavar="CODE", nargs="?", help="one pupil, with every change of the settings")
    listed.add_argument("--put-away", action="store_true", help="those who were put away, too")
    listed.set_defaults(run=lambda options: _list(options.code, options.put_away))
    for name, about in (("add", "add a pupil"), ("change", "change a pupil's settings")):
        kind = kinds.add_parser(
            name,
            needs="CODE",
            help=about,
            description=f"{about.capitalize()}; an empty value takes a setting out.",
            epilog=f"Example: saythesum pupils {name} rk-7 speech.rate_wpm=120",
        )
        kind.add_argument("code", metavar="CODE", help="a code such as rk-7")
        kind.add_argument("values", metavar="SETTING=VALUE", nargs="*", help="such as speech.rate_wpm=120")
        kind.set_defaults(run=lambda options, name=name: _set(name, options.code, options.values))
    away = kinds.add_parser(
        "put-away",
        needs="CODE",
        help="take a pupil out of the list",
        description="Take a pupil out of the list; nothing is lost.",
        epilog="Example: saythesum pupils put-away rk-7",
    )
    away.add_argument("code", metavar="CODE", help="as pupils list says it")
    away.add_argument("--back", action="store_true", help="bring the pupil back")
    away.set_defaults(run=lambda options: _put_away(options.code, options.back))


def _list(code: str | None, is_all: bool) -> None:
    if code:
        card = show_pupil(own_places(), code)
        show(_line(card))
        for change in changes(own_places(), card.code):
            show(f"{change.at[:10]}: {change.setting} was {change.before}, is {change.after} ({change.by}).")
        return
    cards = list_pupils(own_places(), put_away=is_all)
    for card in cards:
        show(_line(card))
    if not cards:
        show("There is no pupil yet. Add one: saythesum pupils add rk-7")


def _set(name: str, code: str, given: Sequence[str]) -> None:
    values = dict(_pair(one) for one in given)
    if "own_words.pupil_said_no" in values:
        raise CallerError("The pupil's no is taken back on the desk alone: ask the pupil again, then note it there.")
    now = RealClock().now()
    act = add_pupil if name == "add" else change_pupil
    card = act(own_places(), code, now=now, values=values)
    show(_line(card))
    if any(setting.startswith("own_words.") for setting in values):
        for sentence in own_words_said(own_words_of(own_places(), card.code), now.astimezone().date()):
            show(sentence)


def _put_away(code: str, is_back: bool) -> None:
    card = put_away(own_places(), code, RealClock().now(), back=is_back)
    show(f"{card.code} is {'in the list again' if is_back else 'put away; nothing is lost'}.")


def _pair(given: str) -> tuple[str, str]:
    setting, equals, value = given.partition("=")
    if not equals:
        raise CallerError(f"{given!r} is not a setting with a value; right would be speech.rate_wpm=120.")
    return setting, value


def _line(card: PupilCard) -> str:
    practised = "new"
    if card.last_practised:
        practised = f"{counted(card.practices, 'practice')}, the last on {card.last_practised[:10]}"
    away = ", put away" if card.is_put_away else ""
    target = f" Target: {card.target.sentence}" if card.target else ""
    return "\n".join([f"{card.code}: {practised}{away}.{target}", *card.problems])
