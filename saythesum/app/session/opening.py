"""Opening the records for a practice: what is damaged is mended and what was rescued is taken in; both are said."""

from contextlib import ExitStack
from dataclasses import dataclass, replace
from pathlib import Path

from saythesum.app.session.runner import Notes
from saythesum.app.setup.folders import Places
from saythesum.app.setup.planning import Wanted, gone_on, is_done_today, new_practice, plan_of
from saythesum.app.terminal.console import tell
from saythesum.dialogue.tutor.plan import Plan
from saythesum.office.erasing import finish_erasing
from saythesum.ports import Clock, StoredPractice
from saythesum.settings import Settings
from saythesum.store.mending import mend
from saythesum.store.records import SqliteStore
from saythesum.store.rescue import RecordsBack, RecordsLost, take_in_rescued
from saythesum.store.sqlite_errors import DamagedError
from saythesum.wording.speak.said_records import RECORDS_BACK, RECORDS_LOST


@dataclass(frozen=True, slots=True)
class Opened:
    store: SqliteStore
    stored: StoredPractice
    plan: Plan


def opened_records(places: Places, pupil: str, wanted: Wanted, settings: Settings, clock: Clock) -> Opened:
    """With the practice that goes on or begins. Raises StoreError."""
    try:
        return _opened(places, pupil, wanted, settings, clock)
    except DamagedError as damage:
        tell(mended(places.records_file, damage))
        return _opened(places, pupil, wanted, settings, clock)


def mended(records: Path, damage: DamagedError) -> str:
    """A sentence of what has been done. Raises StoreError where nothing can be."""
    done = mend(records)
    if done.practices:
        practices = "1 practice" if done.practices == 1 else f"{done.practices} practices"
        came_of_it = f"{done.rows} rows of {practices} could be read and are in a new file in its place"
    else:
        came_of_it = "nothing in it could be read, and new records begin"
    return f"{damage} The damaged file is kept as {done.kept_as}; {came_of_it}."


def _opened(places: Places, pupil: str, wanted: Wanted, settings: Settings, clock: Clock) -> Opened:
    with ExitStack() as unless_opened:
        store = SqliteStore(places.records_file)
        unless_opened.callback(store.close)
        finish_erasing(places, store, clock.now())
        for file, trouble in take_in_rescued(store, places.for_rescue):
            tell(_rescued(file, trouble))
        stored = gone_on(store, pupil, wanted)
        if stored is None and wanted.planned and is_done_today(store, pupil, wanted.planned, clock.now()):
            tell(f"What was planned for {pupil} today is done; what comes now is beside the plan.")
            wanted = replace(wanted, planned=())
            stored = gone_on(store, pupil, wanted)
        if stored is None:
            stored = new_practice(store, pupil, wanted, settings, clock.now())
            store.begin(stored)
        plan = plan_of(stored, store, places.snapshots(pupil))
        unless_opened.pop_all()
    return Opened(store, stored, plan)


def _rescued(file: Path, trouble: Exception | None) -> str:
    if trouble:
        return f"The answers in {file}, kept there when the records were lost, were not taken in. {trouble}"
    return f"The answers in {file}, kept there when the records were lost, are in the records now."


def tell_of_records(news: RecordsLost | RecordsBack, outlets: Notes) -> None:
    match news:
        case RecordsLost(why=why, rescue=rescue):
            outlets.note(RECORDS_LOST, cuts=False)
            tell(f"{why} From here on this practice is kept in {rescue}; it is taken in when the records are back.")
        case RecordsBack():
            outlets.note(RECORDS_BACK, cuts=False)
