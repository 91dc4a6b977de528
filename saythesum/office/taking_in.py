"""Records taken in, from this or another computer: in any order, any number of times, without loss or doubles."""

import sqlite3
from collections.abc import Iterator, Mapping, Set
from contextlib import closing, contextmanager
from dataclasses import dataclass, replace
from pathlib import Path

from saythesum.errors import CallerError
from saythesum.office.given_file import GivenFile, read_given
from saythesum.office.places import Places
from saythesum.office.upkeep.erased import erased_before
from saythesum.office.upkeep.snapshots import drop_snapshots
from saythesum.settings.changing import replace_file, without_own_words
from saythesum.settings.text_files import text_in
from saythesum.store.beside.entries import Entry
from saythesum.store.beside.merging import Added, Contents, Family, add_contents
from saythesum.store.beside.moves import Move
from saythesum.store.pupils import pupil_code
from saythesum.store.records import SqliteStore
from saythesum.store.sqlite_errors import store_errors
from saythesum.wording.for_adults.counted import counted


class ErasedBeforeError(CallerError):
    """The file holds pupils whose records were erased here."""

    def __init__(self, file: Path, codes: Set[str]) -> None:
        names = ", ".join(sorted(codes))
        super().__init__(f"{file} holds records of {names}, which were erased here: say so if they are to come back.")
        self.codes = frozenset(codes)


@dataclass(frozen=True, slots=True)
class TakenIn:
    """What came in, and what disagreed."""

    pupils: tuple[str, ...]
    known_here: tuple[str, ...]
    """Of these pupils, those who were here before: theirs were joined. Two children of one code are kept apart by
    taking one in under another code."""
    added: Added
    settings: tuple[str, ...]
    """Pupils whose settings came in."""
    other_settings: tuple[str, ...]
    """Pupils who have other settings here; these stay."""
    grids: tuple[str, ...]
    other_grids: tuple[str, ...]
    """Names of grids that are different here; these stay."""
    unreadable: tuple[str, ...]
    erased_here: tuple[str, ...]
    """Pupils whose records were erased here before: they come in only where that is said."""


def look_in(places: Places, file: Path, renamed: Mapping[str, str] = {}, *, even_edited: bool = False) -> TakenIn:
    """What `take_in` would do; nothing is changed. Raises CallerError and StoreError."""
    given = _renamed(read_given(file, even_edited=even_edited), renamed)
    with _store(places) as store, _transaction(store.connection, keeps=False):
        return _account(places, given, store)


def take_in(
    places: Places,
    file: Path,
    renamed: Mapping[str, str] = {},
    *,
    even_edited: bool = False,
    even_erased: Set[str] = frozenset(),
) -> TakenIn:
    """`renamed`: codes in the file to the codes that they get here. `even_erased`: codes that may come back.

    All of the rows or none; settings and grids follow, and come with the next time where this was broken off.
    Raises CallerError and StoreError.
    """
    given = _renamed(read_given(file, even_edited=even_edited), renamed)
    with _store(places) as store:
        back = erased_before(store.connection, given.pupils) - even_erased
        if back:
            raise ErasedBeforeError(file, back)
        for code in given.pupils:
            drop_snapshots(places, code)
        with _transaction(store.connection, keeps=True):
            account = _account(places, given, store)
        _write_files(places, given, account)
    return account


@contextmanager
def _store(places: Places) -> Iterator[SqliteStore]:
    with closing(SqliteStore(places.records_file)) as store:
        yield store


@contextmanager
def _transaction(connection: sqlite3.Connection, *, keeps: bool) -> Iterator[None]:
    connection.execute("BEGIN IMMEDIATE")
    try:
        yield
        connection.execute("COMMIT" if keeps else "ROLLBACK")
    except BaseException:
        if connection.in_transaction:
            connection.execute("ROLLBACK")
        raise


def _account(places: Places, given: GivenFile, store: SqliteStore) -> TakenIn:
    known = set(store.pupils())
    erased = erased_before(store.connection, given.pupils)
    with store_errors(places.records_file):
        added = add_contents(store.connection, given.contents)
    settings = {code: _other(places.pupil_file(code), text) for code, text in given.settings.items()}
    grids = {name: _other(_grid_file(places, name), text) for name, text in given.grids.items()}
    return TakenIn(
        pupils=given.pupils,
        known_here=tuple(code for code in given.pupils if code in known or places.pupil_file(code).exists()),
        added=added,
        settings=tuple(code for code, other in settings.items() if other is None),
        other_settings=tuple(code for code, other in settings.items() if other),
        grids=tuple(name for name, other in grids.items() if other is None),
        other_grids=tuple(name for name, other in grids.items() if other),
        unreadable=given.unreadable,
        erased_here=tuple(sorted(erased)),
    )


def _other(file: Path, text: str) -> bool | None:
    """Whether there is another text here, consent left aside; None where there is none at all."""
    try:
        return without_own_words(text_in(file, "")) != text
    except FileNotFoundError:
        return None
    except CallerError:
        return True


def _grid_file(places: Places, name: str) -> Path:
    return places.grids / f"{name}.toml"


def _write_files(places: Places, given: GivenFile, account: TakenIn) -> None:
    files = [(places.pupil_file(code), given.settings[code]) for code in account.settings]
    files += [(_grid_file(places, name), given.grids[name]) for name in account.grids]
    for file, text in files:
        try:
            replace_file(file, text)
        except OSError as error:
            raise CallerError(
                f"The answers were taken in, but {file} cannot be written ({error.strerror}): "
                "make room and the folder writable, and take the file in again."
            ) from error


def _renamed(given: GivenFile, names: Mapping[str, str]) -> GivenFile:
    """Raises CallerError for a code that the file does not hold."""
    to = {pupil_code(old): pupil_code(new) for old, new in names.items()}
    for code in to:
        if code not in given.pupils:
            raise CallerError(f"The file holds no pupil {code}; it holds {', '.join(given.pupils)}.")
    if not to:
        return given
    contents = given.contents
    return replace(
        given,
        contents=Contents(
            tuple(_family_of(family, to) for family in contents.families),
            {table: [_entry_of(one, to) for one in some] for table, some in contents.entries.items()},
            tuple(_move_of(move, to) for move in contents.moves),
        ),
        settings={to.get(code, code): text for code, text in given.settings.items()},
        pupils=tuple(to.get(code, code) for code in given.pupils),
    )


def _family_of(family: Family, to: Mapping[str, str]) -> Family:
    return replace(family, head=replace(family.head, pupil=to.get(family.head.pupil, family.head.pupil)))


def _entry_of(entry: Entry, to: Mapping[str, str]) -> Entry:
    return replace(entry, pupil=to.get(entry.pupil, entry.pupil))


def _move_of(move: Move, to: Mapping[str, str]) -> Move:
    return replace(move, pupil=to.get(move.pupil, move.pupil))


def account_of_taking_in(came: TakenIn, *, would: bool) -> Iterator[str]:
    """`would`: nothing has come in yet."""
    added = came.added
    begins = "Would come in" if would else "Came in"
    yield (
        f"{begins}: {counted(added.practices, 'practice')}, {counted(added.rows, 'row')}, "
        f"{counted(added.moves, 'move')}, {counted(added.entries, 'target or change', 'targets and changes')}."
    )
    if came.known_here:
        yield f"Here before, and joined: {', '.join(came.known_here)}."
    if would and came.erased_here:
        yield f"Erased here before: {', '.join(came.erased_here)}. Say so if they are to come back."
    for id in added.forked:
        yield f"The practice {id} went on differently on two computers: the later way is kept as a practice of its own."
    for id in added.refused:
        yield f"The practice {id} is another one here, or damaged: nothing of it came in."
    for id, code in added.other_pupil:
        yield f"The practice {id} is of {code} here, and stays so."
    if came.other_settings:
        yield f"Other settings here, which stay: {', '.join(came.other_settings)}."
    if came.other_grids:
        yield f"Other grids of these names here, which stay: {', '.join(came.other_grids)}."
    yield from came.unreadable
