"""The verb `plan`: what is to be done on which day of the week."""

import argparse
from collections.abc import Mapping
from datetime import date
from pathlib import Path
from typing import Any

from saythesum.app.cli.plain_parser import Verbs, cannot_be, one_of
from saythesum.app.cli.practise_verb import practise
from saythesum.app.setup.clock import RealClock
from saythesum.app.setup.folders import own_places
from saythesum.app.terminal.console import show
from saythesum.errors import CallerError
from saythesum.office.plans.cover_sheet import cover_sheet
from saythesum.office.plans.today import REASONS, for_today, not_done
from saythesum.office.plans.week import Day, DayPlan, Ways, WeekPlan, day_plan_said
from saythesum.office.plans.weeks import PlanCard, list_plans, put_plan_away, save_plan, show_plan
from saythesum.office.pupils import known_code
from saythesum.settings.changing import replace_file
from saythesum.settings.toml_text import shown

FIELDS = ("by", "wording", "sums", "minutes", "title", "note", "from", "until")


def add_verb(verbs: Verbs) -> None:
    verb = verbs.add_parser(
        "plan",
        help="plan the week, and start what is planned",
        description="A plan says what is done on which day, how it is answered and when to stop.",
        epilog="Example: saythesum plan start rk-7",
    )
    kinds = verb.add_subparsers(title="what to do", metavar="WHAT", required=True)
    _add_make(kinds)
    listed = _kind(kinds, "show", "show the plans, one plan, or what a pupil has today", "show --for rk-7")
    listed.add_argument("name", metavar="NAME", nargs="?", help="a plan; without it all of them")
    listed.add_argument("--for", metavar="CODE", dest="code", help="what this pupil has today")
    listed.set_defaults(run=_show)
    printed = _kind(kinds, "print", "print half a page for whoever sits beside the pupil", "print rk-7", "CODE")
    printed.add_argument("code", metavar="CODE", help="whose day it is")
    printed.add_argument("--on", metavar="DATE", type=_date, help="a day such as 2031-05-12; without it today")
    printed.add_argument(
        "--into", metavar="FILE", type=Path, help="a new file: .pdf, .html, or text; without it the text is shown here"
    )
    printed.set_defaults(run=_print)
    started = _kind(kinds, "start", "begin what is planned for a pupil today", "start rk-7", "CODE")
    started.add_argument("pupil", metavar="CODE", help="whose practice it is")
    started.add_argument("--by", metavar="WAY", type=one_of(("voice", "keys", "text")), help="another way than planned")
    started.set_defaults(run=_start, **_AS_PRACTISE)
    away = _kind(kinds, "put-away", "take a plan out of the list; nothing is lost", "put-away harbour", "NAME")
    away.add_argument("name", metavar="NAME", help="as plan show says it")
    away.set_defaults(run=_put_away)
    undone = _kind(kinds, "not-done", "keep why what was planned was not done", 'not-done rk-7 "unwell"', "CODE")
    undone.add_argument("code", metavar="CODE", help="the pupil")
    undone.add_argument("reason", metavar="REASON", help=f"such as {', '.join(REASONS)}")
    undone.add_argument("--on", metavar="DATE", type=_date, help="a day before today")
    undone.set_defaults(run=_not_done)


_AS_PRACTISE: Mapping[str, Any] = {
    "grid": None,
    "ear": None,
    "seed": None,
    "log": None,
    "probe": False,
    "find_out": False,
    "facts": None,
    "why": False,
    "found": False,
}


def _kind(kinds: Any, name: str, about: str, example: str, needs: str = "WHAT") -> Any:
    described = f"{about[0].upper()}{about[1:]}."
    epilog = f"Example: saythesum plan {example}"
    return kinds.add_parser(name, needs=needs, help=about, description=described, epilog=epilog)


def _add_make(kinds: Any) -> None:
    example = "make harbour --for rk-7 --on monday=ferry,probe --on thursday=choice --by keys --sums 12"
    verb = _kind(kinds, "make", "make a plan, or change one", example, "NAME")
    verb.add_argument("name", metavar="NAME", help="what the plan is called")
    verb.add_argument(
        "--for", metavar="CODE", dest="codes", action="append", default=[], help="a pupil; again for more"
    )
    verb.add_argument(
        "--on",
        metavar="DAY=WHAT",
        dest="days",
        type=_day_and_what,
        action="append",
        default=[],
        help="what is done that day, in order: grids by name, choice, probe, find-out; nothing after = takes it out",
    )
    for name, about in (
        ("by", "how to answer: voice or keys"),
        ("wording", "brief, short or full"),
        ("sums", "stop after so many sums"),
        ("minutes", "stop after so many minutes, when the sum is done"),
        ("title", "what the week is about"),
        ("note", "one line for whoever sits beside the pupil"),
        ("from", "its first day, such as 2031-05-12"),
        ("until", "its last day"),
    ):
        verb.add_argument(f"--{name}", metavar=name.upper(), help=about)
    verb.set_defaults(run=_make)


def _make(options: argparse.Namespace) -> None:
    own, now = own_places(), RealClock().now()
    known = {card.name: card.week for card in list_plans(own)}
    before = known.get(options.name)
    week = _week(options, before or WeekPlan())
    card = save_plan(own, options.name, week, now, over=before is not None)
    show(f"The plan {card.name} is {'changed' if before else 'made'}: {card.file}")
    _show_plan(card)


def _week(options: argparse.Namespace, before: WeekPlan) -> WeekPlan:
    """What was given, over what the plan had. The file's own reading says what is wrong."""
    days = {day: ",".join(plan.do) for day, plan in before.days.items()}
    days |= dict(options.days)
    ways, values = before.ways, {name: getattr(options, name) for name in FIELDS}
    return WeekPlan(
        pupils=tuple(dict.fromkeys([*before.pupils, *options.codes])),
        days={
            day: DayPlan(tuple(part.strip() for part in what.split(",")), _ways_of(before, day))
            for day, what in days.items()
            if what.strip()
        },
        title=_given(values["title"], before.title),
        note=_given(values["note"], before.note),
        ways=Ways(
            by=_given(values["by"], ways.by),
            wording=_given(values["wording"], ways.wording),
            sums=_number(values["sums"], ways.sums),
            minutes=_number(values["minutes"], ways.minutes),
        ),
        first=_date(values["from"]) if values["from"] else before.first,
        last=_date(values["until"]) if values["until"] else before.last,
    )


def _day_and_what(text: str) -> tuple[Day, str]:
    day, equals, what = text.partition("=")
    if not equals:
        raise cannot_be(text, "it is a day and what is done, such as monday=ferry,probe")
    return Day(one_of(tuple(Day))(day.strip().lower())), what


def _ways_of(before: WeekPlan, day: Day) -> Ways:
    return before.days[day].ways if day in before.days else Ways()


def _given(value: Any, before: Any) -> Any:
    return before if value is None else value


def _number(value: str | None, before: int | None) -> int | None:
    if value is None:
        return before
    if not (value.isascii() and value.isdigit() and len(value) < 9):
        raise CallerError(f"{shown(value)} is no number of sums or minutes; right would be for example 12.")
    return int(value)


def _show(options: argparse.Namespace) -> None:
    own = own_places()
    if options.code:
        _show_today(known_code(own, options.code))
        return
    cards = [show_plan(own, options.name)] if options.name else list_plans(own)
    for card in cards:
        _show_plan(card)
    if not cards:
        show("There is no plan yet. Make one: saythesum plan make harbour --for rk-7 --on monday=ferry,probe")


def _show_plan(card: PlanCard) -> None:
    week = card.week
    pupils = ", ".join(week.pupils) or "nobody"
    show(f"{card.name}{f' ({week.title})' * bool(week.title)}, for {pupils}{_span(week)}.")
    for day in Day:
        if day in week.days:
            show(f"{day.capitalize()}: {day_plan_said(week.days[day], week.ways)}.")
    if week.note:
        show(f"Note: {week.note}")
    for problem in card.problems:
        show(problem)


def _span(week: WeekPlan) -> str:
    ends = [f"from {week.first}" if week.first else "", f"until {week.last}" if week.last else ""]
    return "".join(f", {end}" for end in ends if end) or ", every week"


def _show_today(code: str) -> None:
    planned = for_today(own_places(), code, RealClock().now().astimezone().date())
    for sentence in planned.troubles if planned else ():
        show(sentence)
    if planned is None or not planned.activities:
        show(f"Nothing is planned for {code} today: the practice goes on where it was left.")
    else:
        show(
            f"{code} today, by the plan {planned.plan}: {day_plan_said(DayPlan(planned.names, planned.ways), Ways())}."
        )


def _print(options: argparse.Namespace) -> None:
    from saythesum.publishing.reports.cover import cover_as, cover_text  # jinja2 would slow down every start

    sheet = cover_sheet(own_places(), options.code, options.on or RealClock().now().astimezone().date())
    if options.into is None:
        show(cover_text(sheet).rstrip("\n"))
        return
    if options.into.suffix.lower() not in ("", ".txt", ".html", ".pdf"):
        raise CallerError(
            f"{options.into} is no name for the page; right would be one that ends in .pdf, .html or .txt."
        )
    try:
        if options.into.is_dir():
            raise CallerError(
                f"{options.into} is a folder: name a file in it, such as {options.into / options.code}.pdf."
            )
        if options.into.exists():
            raise CallerError(f"There is a file {options.into} already: name another, or move it away first.")
        replace_file(options.into, cover_as(options.into.suffix, sheet))
    except OSError as error:
        raise CallerError(f"{options.into} cannot be written ({error.strerror}): name another place.") from error
    show(f"The page is in {options.into}.")


def _start(options: argparse.Namespace) -> None:
    own = own_places()
    options.pupil = known_code(own, options.pupil)
    planned = for_today(own, options.pupil, RealClock().now().astimezone().date())
    if planned is None or not planned.activities:
        for sentence in planned.troubles if planned else ():
            show(sentence)
        raise CallerError(
            f"Nothing is planned for {options.pupil} today. Start without a plan: saythesum --pupil {options.pupil}"
        )
    practise(options)


def _put_away(options: argparse.Namespace) -> None:
    show(f"The plan {options.name} is put away: {put_plan_away(own_places(), options.name, RealClock().now())}")


def _not_done(options: argparse.Namespace) -> None:
    now = RealClock().now()
    kept = not_done(own_places(), options.code, options.on or now.astimezone().date(), options.reason, now)
    show(f"Kept for {kept.day}: not done, {kept.reason}.")


def _date(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError as error:
        raise cannot_be(text, "it is a day such as 2031-05-12") from error
