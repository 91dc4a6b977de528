"""What a report is made of, read from the records and from what adults decided. Nothing here is counted."""

from collections.abc import Iterator, Sequence
from contextlib import closing
from datetime import date, datetime
from uuid import UUID

from saythesum.core.records.rows import End, EndReason, Note
from saythesum.errors import CallerError, StoreError
from saythesum.office.places import Places
from saythesum.office.plans.today import for_today, offers_not_done
from saythesum.office.pupils import PUT_AWAY, changes, codes, known_code, targets
from saythesum.ports import StoredPractice
from saythesum.reports.review.class_page import PupilLine
from saythesum.reports.review.facts import Fate, facts_of
from saythesum.reports.review.source import OfferNotDone, Period, PracticeRead, SettingChange, Source, TargetSet
from saythesum.store.beside.entries import entries_in
from saythesum.store.beside.entry_tables import Table
from saythesum.store.reading import StoredRecords, kept_grid, open_to_read


def period(first: date | None, last: date | None, on: date) -> Period:
    """Without dates the last three months. Raises CallerError where they are the wrong way round."""
    until = last or on
    since = first or date.fromordinal(until.toordinal() - _DAYS)
    if since > until:
        raise CallerError(f"--from {since} is after --to {until}: right would be the earlier day first.")
    return Period(since, until, on)


_DAYS = 91


def source_of(places: Places, given: str) -> Source:
    """All that is kept of the pupil. Raises CallerError where there is no such pupil."""
    code = known_code(places, given)
    read: list[PracticeRead] = []
    troubles: list[str] = []
    try:
        reader = open_to_read(places.records_file)
    except StoreError:
        if places.records_file.exists():
            raise
    else:
        with closing(reader):
            for id in reader.practices(code):
                try:
                    stored, times = reader.practice_in_time(id)
                except StoreError as error:
                    troubles.append(str(error))
                    continue
                troubles += stored.left_aside
                read.append(_practice(stored, times, code))
    return Source(
        pupil=code,
        practices=tuple(read),
        targets=tuple(
            TargetSet(_time(at), one.sentence, one.sums, one.right, one.of, one.unaided, one.by)
            for at, one in targets(places, code)
        ),
        changes=tuple(
            SettingChange(_time(one.at).date(), one.setting, one.before, one.after) for one in changes(places, code)
        ),
        not_done=tuple(OfferNotDone(one.day, one.reason) for one in offers_not_done(places, code)),
        unreadable=tuple(troubles),
    )


def class_lines(places: Places, on: date) -> Iterator[PupilLine]:
    """Of each pupil the last practice only is read."""
    used = _codes_in_use(places)
    try:
        reader = open_to_read(places.records_file)
    except StoreError:
        if places.records_file.exists() and places.records_file.stat().st_size:
            raise
        yield from (PupilLine(code, None, _planned(places, code, on), 0) for code in used)
        return
    with closing(reader):
        last = reader.last_practices()
        for code in used:
            read = _last_read(reader, last.get(code), code)
            if read is None:
                yield PupilLine(code, None, _planned(places, code, on), 0)
                continue
            next = f"goes on with {read.title}" if _goes_on(read) else _planned(places, code, on)
            yield PupilLine(code, read.began, next, sum(one.fate is Fate.UNSURE for one in facts_of(read)))


def _codes_in_use(places: Places) -> tuple[str, ...]:
    """Without those who were put away."""
    away = {
        entry.pupil: bool(entry.fields["after"])
        for entry in entries_in(places.records_file, Table.CHANGES)
        if entry.fields["setting"] == PUT_AWAY
    }
    return tuple(code for code in codes(places) if not away.get(code))


def _planned(places: Places, code: str, on: date) -> str:
    planned = for_today(places, code, on)
    return planned.said if planned and planned.activities else "the tool's choice"


def _last_read(reader: StoredRecords, practice: UUID | None, code: str) -> PracticeRead | None:
    """None where there is none, or it cannot be read: `check` names it."""
    try:
        return _practice(*reader.practice_in_time(practice), code) if practice else None
    except StoreError:
        return None


def _goes_on(practice: PracticeRead) -> bool:
    newest = next((row for row in reversed(practice.rows) if not isinstance(row, Note)), None)
    return not (isinstance(newest, End) and newest.reason is EndReason.FINISHED)


def _practice(stored: StoredPractice, times: Sequence[datetime], code: str) -> PracticeRead:
    owners = stored.owners or (code,) * len(stored.rows)
    own = [(row, at) for row, at, owner in zip(stored.rows, times, owners, strict=True) if owner == code]
    return PracticeRead(
        id=stored.id,
        began=(own[0][1] if own else _time(stored.began_at)).date(),
        title=kept_grid(stored.grid_text).title,
        aims=tuple(one.aim for one in stored.activities),
        rows=tuple(row for row, _ in own),
        days=tuple(at.date() for _, at in own),
        print_size=stored.settings.window.size,
        rate_wpm=stored.settings.speech.rate_wpm,
    )


def _time(text: str) -> datetime:
    return datetime.fromisoformat(text)
