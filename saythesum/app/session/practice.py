"""Opening a practice: the settings, the records, and the grid that goes on or begins."""

from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass, replace
from pathlib import Path

from saythesum.app.session.log import Log, LogFile
from saythesum.app.session.opening import Opened, opened_records, tell_of_records
from saythesum.app.session.runner import NotingOutlets, Runner
from saythesum.app.session.summary_for_adult import told_to_the_adult
from saythesum.app.setup.clock import RealClock
from saythesum.app.setup.folders import Places, own_places
from saythesum.app.setup.grid_files import grid_in
from saythesum.app.setup.planning import Wanted
from saythesum.app.setup.pupil_settings import settings_of
from saythesum.app.terminal.console import show, tell
from saythesum.core.aims import Aim
from saythesum.core.grids.facts import facts_named
from saythesum.core.grids.grid import Grid
from saythesum.dialogue.step import opened
from saythesum.dialogue.turns.effects import Ear, OpenWhen
from saythesum.dialogue.tutor.plan import Plan
from saythesum.dialogue.tutor.progress import folded
from saythesum.office.plans.today import ForToday
from saythesum.ports import Clock
from saythesum.settings import Settings
from saythesum.store.pupils import pupil_code
from saythesum.store.rescue import PracticeKeeper
from saythesum.wording.speak.said_start import how_to_answer

TOLD_HOW_IN = 3
"""Practices."""


@dataclass(frozen=True, slots=True)
class Wish:
    """What was asked for on the command line."""

    pupil: str
    grid_file: Path | None = None
    seed: int | None = None
    log_file: Path | None = None
    aim: Aim = Aim.PRACTISE
    tells_why: bool = False
    """To the adult, when it is over: why each sum was chosen."""
    today: ForToday | None = None
    """What the plan of the week has for the pupil."""
    facts: str | None = None
    """The name of a short activity of facts."""

    @property
    def grid(self) -> Grid | None:
        """Raises GridError."""
        facts = facts_named(self.facts) if self.facts else None
        if facts:
            return facts.grid
        return grid_in(self.grid_file) if self.grid_file else None


@dataclass(frozen=True, slots=True)
class Setup:
    """What every way of practising stands on."""

    places: Places
    settings: Settings
    clock: Clock


def setup_for(pupil: str, today: ForToday | None = None) -> Setup:
    """`pupil`: a code as it was given; `today`: the plan, whose ways come before the pupil's settings.

    Raises CallerError where it is no code.
    """
    own = own_places()
    settings = settings_of(pupil_code(pupil), own)
    return Setup(own, today.ways.applied_to(settings) if today else settings, RealClock())


@contextmanager
def practice(
    wish: Wish, setup: Setup, ear: Ear, outlets: NotingOutlets, *, open_when: OpenWhen = OpenWhen.AFTER_SPEECH
) -> Iterator[Runner]:
    """A practice ready to begin or to go on; its records are closed whatever happens."""
    pupil = pupil_code(wish.pupil)
    clock = setup.clock
    with ExitStack() as stack:
        log_file = LogFile(wish.log_file) if wish.log_file else None
        if log_file:
            stack.callback(log_file.close)
        wanted = Wanted(wish.aim, wish.grid, wish.seed, wish.today.activities if wish.today else ())
        records = opened_records(setup.places, pupil, wanted, setup.settings, clock)
        keeper = PracticeKeeper(
            records.store, records.stored.id, setup.places.for_rescue, lambda news: tell_of_records(news, outlets)
        )
        stack.callback(keeper.close)
        plan = _at_these_keys(records.plan, setup.settings, ear)
        log = Log(log_file.write, plan.practice, clock=clock) if log_file else None
        state = opened(plan, folded(records.stored.rows), ear, open_when=open_when)
        runner = Runner(state, store=keeper, clock=clock, outlets=outlets, log=log)
        if _is_told_how(records, pupil) and (how := how_to_answer(ear, setup.settings.switch)):
            outlets.note(how, cuts=False)
        yield runner
        for line in told_to_the_adult(runner, log, tells_why=wish.tells_why):
            show(line)
        if log_file and log_file.trouble:
            tell(log_file.trouble)


def _is_told_how(records: Opened, pupil: str) -> bool:
    """How to answer is told once a practice, as long as the pupil is new to it."""
    return not records.stored.rows and len(records.store.practices(pupil)) <= TOLD_HOW_IN


def _at_these_keys(plan: Plan, settings: Settings, ear: Ear) -> Plan:
    """Keys, switch, window and when to stop are those that there are now, also where the grid was begun at others."""
    start = plan.settings.start
    if ear is Ear.SWITCH or start.by == "switch":
        start = replace(start, by="switch" if ear is Ear.SWITCH else "keys")
    here = replace(plan.settings, keys=settings.keys, window=settings.window, switch=settings.switch, start=start)
    now = replace(here, sitting=settings.sitting)
    return replace(plan, settings=now)
