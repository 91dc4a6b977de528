"""Every page of the desk: where it is, and which form is sent to come to it in a state of its own."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from tests.desk.homes import ANSWER, PRACTICE, SHEET_CODE

WISH = {"kinds": "crossing", "starts": "20-89", "amounts": "3-9", "rows": "4", "columns": "3"}
PRACTISED = f"/pupils/rk-7/practices/{PRACTICE.id}/"

AFTERWARDS = "/pupils/rk-7/afterwards/?on=2031-05-12"
REVIEW = "/pupils/rk-7/report/review?on=2031-05-13"


@dataclass(frozen=True, slots=True)
class Page:
    path: str
    """From which a form is sent, or which is only looked at."""
    sends: Mapping[str, str] = field(default_factory=dict)
    """Names of fields to what is written into them."""
    presses: str = ""
    """The button's words; "" for a page that is only looked at."""

    @property
    def name(self) -> str:
        return f"{self.path} {self.presses}".strip()


AT_FIRST: Sequence[Page] = (
    Page("/"),
    Page("/pupils/"),
    Page("/pupils/new"),
    Page("/pupils/new", {"code": "not a code!"}, "Add the pupil"),
    Page("/everybody"),
    Page("/grids/"),
    Page("/grids/new"),
    Page("/grids/new", {"starts": "few", "rows": "0x"}, "Make it as wished below"),
    Page("/grids/new", {"starts": "20-22"}, "Make it as wished below"),
    Page("/grids/new", {}, "Make it as wished below"),
    Page("/grids/typed"),
    Page("/grids/typed", {"text": "add = [0]"}, "Save the grid"),
    Page("/grids/take-in"),
    Page("/grids/take-in", {}, "Take it in"),
    Page("/grids/ferry/"),
    Page("/grids/ferry/copy"),
    Page("/plans/"),
    Page("/plans/form"),
    Page("/plans/typed"),
    Page("/plans/typed", {"name": "w", "text": "do = 3"}, "Save the plan"),
    Page("/records"),
    Page("/records/take-in"),
    Page("/records/take-in", {}, "Look into it"),
    Page("/class"),
    Page("/class?on=oars"),
    Page("/help/"),
    Page("/help/technician"),
    Page("/help/data-protection"),
    Page("/nowhere"),
)
"""Those that there are in an empty home."""
OF_A_PUPIL: Sequence[Page] = (
    Page("/"),
    Page("/pupils/"),
    Page("/pupils/rk-7/"),
    Page("/pupils/rk-7/", {}, "Start rk-7"),
    Page("/pupils/rk-7/settings"),
    Page("/pupils/rk-7/settings", {"waits.said_back_ms": "soon", "speech.rate_wpm": "fast"}, "Save the settings"),
    Page("/pupils/rk-7/settings", {}, "See these colours and this size"),
    Page("/pupils/rk-7/target"),
    Page("/pupils/rk-7/target", {"right": "many"}, "Keep the target"),
    Page("/pupils/rk-7/keep"),
    Page("/pupils/rk-7/keep", {"until": "2020-01-01"}, "Keep this day"),
    Page("/pupils/rk-7/erase"),
    Page("/pupils/rk-7/erase", {"code": "mo"}, "Erase all of rk-7"),
    Page("/pupils/rk-7/own-words/"),
    Page("/pupils/rk-7/own-words/", {"by": "Mrs Porter"}, "Own words on"),
    Page("/pupils/rk-7/practices/"),
    Page(PRACTISED),
    Page(f"{PRACTISED}{ANSWER.id}"),
    Page(f"{PRACTISED}{ANSWER.id}", {"what": "note"}, "Keep this beside the answer"),
    Page("/grids/"),
    Page("/grids/harbour/"),
    Page("/grids/harbour/rename"),
    Page("/grids/harbour/rename", {"name": "ferry"}, "Rename it"),
    Page("/grids/typed?grid=harbour"),
    Page("/grids/new?for=rk-7"),
    Page("/grids/harbour/sheet?for=rk-7"),
    Page("/paper?for=rk-7"),
    Page("/paper?code=oars"),
    Page(f"/paper?code={SHEET_CODE}"),
    Page(f"/paper?code={SHEET_CODE}", {"cell-1": "oars"}, "Keep these answers"),
    Page("/plans/"),
    Page("/plans/week-20/"),
    Page("/plans/typed?plan=week-20"),
    Page("/plans/form?for=rk-7"),
    Page("/plans/form", {"sums": "oars"}, "Save the plan"),
    Page("/plans/form?plan=week-20"),
    Page("/pupils/rk-7/today"),
    Page("/pupils/rk-7/today?on=2031-05-12"),
    Page("/records"),
    Page(AFTERWARDS),
    Page(AFTERWARDS, {}, "Said so"),
    Page(AFTERWARDS, {"words": "x" * 501}, "Keep the words"),
    Page(AFTERWARDS, {}, "Keep this reason"),
    Page("/pupils/rk-7/afterwards/"),
    Page(REVIEW),
    Page(REVIEW, {}, "Change sentences"),
    Page(f"{REVIEW}?from=2032-01-01&to=2031-01-01"),
    Page("/pupils/rk-7/report/parent?on=2031-05-13"),
    Page("/pupils/rk-7/report/visit?on=2031-05-13"),
)
OF_THIRTY: Sequence[Page] = (Page("/"), Page("/class"), Page("/pupils/"), Page("/records"), Page(PRACTISED))
BROKEN: Sequence[Page] = (
    Page("/pupils/rk-7/"),
    Page("/pupils/rk-7/settings"),
    Page("/pupils/rk-7/settings", {"speech.pitch": "40"}, "Save the settings"),
    Page("/everybody"),
    Page("/grids/"),
    Page("/grids/torn/"),
)
PAGES: Mapping[str, Sequence[Page]] = {
    "empty": AT_FIRST,
    "one pupil": OF_A_PUPIL,
    "thirty pupils": OF_THIRTY,
    "broken by hand": BROKEN,
}
"""By the name of the home."""
