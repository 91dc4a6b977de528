"""Plans of the practices whose sums come one by one."""

from datetime import UTC, datetime

from saythesum.core.aims import Aim
from saythesum.dialogue.tutor.plan import Plan, activity, planned
from saythesum.learner.assessment import finding_out
from saythesum.learner.assessment.probe import form
from saythesum.learner.pupil import Pupil
from saythesum.settings import Length, Settings, Wording
from tests.talk import PRACTICE

BEGAN_AT = datetime(2031, 5, 12, 9, 30, tzinfo=UTC)


def probe_plan(number: int = 0, *, length: Length = "short") -> Plan:
    probe = form(number)
    settings = Settings(wording=Wording(length=length))
    return planned(PRACTICE, [activity(probe.grid, 0, Aim.PROBE, probe.cells)], settings, began_at=BEGAN_AT)


def finding_plan(seed: int = 0, *, before: Pupil | None = None) -> Plan:
    cells = finding_out.cells_to_choose_from(seed)
    grid = finding_out.GRID
    return planned(PRACTICE, [activity(grid, seed, Aim.FIND_OUT, cells)], Settings(), began_at=BEGAN_AT, before=before)
