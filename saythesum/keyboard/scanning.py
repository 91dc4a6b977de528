"""One switch or two: things are offered one after the other, and a press chooses the one that is offered.

Nothing here knows the time: waits are asked for by `WaitFor` and come back to `wait_over`. Nothing is chosen but by a
press, where things come by themselves; by a press and then a rest, where each press moves on; by the second switch,
where there are two.
"""

from dataclasses import dataclass, replace
from typing import TypeAlias

from saythesum.keyboard.keys import Key, Pressed
from saythesum.keyboard.offers import Offer, Offers
from saythesum.settings import Switch

OF_THE_LAST_MS = 100
"""A press so soon after a change was meant for what was offered before it: nobody reacts to a sound as quickly.
Source: World Athletics, Competition and Technical Rules, 16.6, a start less than 0.100 s after the gun is a false one.
"""
BOTH_MS = 80
"""With two switches a hand that lands on both presses them within this time (ours), and then neither counts."""


@dataclass(frozen=True, slots=True)
class Scan:
    """What is offered to the switch."""

    offers: Offers = ()
    """In order; () where there is nothing to choose."""
    at: int | None = None
    """Which of them is offered just now; None: none is, until a press."""
    since_ms: int = 0
    """When it came to be offered."""
    is_said: bool = False
    """It has been said whole. Until then its time is not over, however slow the voice is."""
    is_due: bool = False
    """Its time is over."""
    silent_rounds: int = 0
    """Without a press until now."""
    has_fallen_silent: bool = False
    """After the last of them."""
    wait: int = 0
    """Grows with each wait; an older one means nothing any more."""
    deaf_until_ms: int = 0
    is_down: bool = False
    """The switch is still being pressed."""
    is_choosing: bool = False
    """The second switch was pressed: it chooses unless the first one is pressed with it."""
    count: int = 0
    """How many things have been offered."""

    @property
    def offered(self) -> Offer | None:
        return None if self.at is None else self.offers[self.at]


# ---- what the session has to do


@dataclass(frozen=True, slots=True)
class SayOffer:
    """Say and show it, in place of the one before; `offer_said` when it has been said."""

    offer: Offer


@dataclass(frozen=True, slots=True)
class WaitFor:
    """`wait_over` with this id after so long."""

    id: int
    ms: int


@dataclass(frozen=True, slots=True)
class Choose:
    """The pupil has chosen this."""

    offer: Offer


@dataclass(frozen=True, slots=True)
class FallSilent:
    """Say once that a press begins again."""


@dataclass(frozen=True, slots=True)
class Acknowledge:
    """The press chose something: the sound for it."""


@dataclass(frozen=True, slots=True)
class Interrupt:
    """There was nothing to choose; what is being said gives way to the press."""


ScanAction: TypeAlias = SayOffer | WaitFor | Choose | FallSilent | Acknowledge | Interrupt
Scanned: TypeAlias = tuple[Scan, tuple[ScanAction, ...]]

# ---- what happens


def offering(scan: Scan, offers: Offers, switch: Switch, at_ms: int, *, by_itself: bool) -> Scanned:
    """From the beginning. `by_itself`: without a press, where the pupil has chosen that and there is one switch."""
    scan = Scan(offers, wait=scan.wait + 1, deaf_until_ms=scan.deaf_until_ms, is_down=scan.is_down, count=scan.count)
    if offers and by_itself and _is_timed(switch):
        return _offer(scan, 0, switch, at_ms)
    return scan, ()


def switch_pressed(scan: Scan, press: Pressed, switch: Switch) -> Scanned:
    """Each press, each bounce after it and its end make the switch deaf for a while."""
    at_ms = press.at_ms
    is_bounce = at_ms < scan.deaf_until_ms
    scan = replace(scan, is_down=not press.is_let_go)
    if press.is_repeat or press.is_let_go or is_bounce:
        deaf = replace(scan, deaf_until_ms=max(scan.deaf_until_ms, at_ms + switch.debounce_ms))
        return _still(deaf, press, switch)
    scan = replace(scan, deaf_until_ms=at_ms + switch.debounce_ms, silent_rounds=0, has_fallen_silent=False)
    if not scan.offers:
        return scan, (Interrupt(),)
    if switch.has_two:
        return _by_two(scan, press, switch)
    if scan.at is None:
        return _offer(scan, 0, switch, at_ms)
    if switch.scanning == "by pressing":
        return _offer(scan, _next(scan), switch, at_ms)
    return _chosen(scan, _meant(scan, at_ms))


def offer_said(scan: Scan, switch: Switch, at_ms: int) -> Scanned:
    return _gone_on(replace(scan, is_said=True), switch, at_ms)


def wait_over(scan: Scan, id: int, switch: Switch, at_ms: int) -> Scanned:
    if id != scan.wait or scan.at is None:
        return scan, ()
    if scan.is_choosing:
        return _chosen(scan, scan.offers[scan.at])
    return _gone_on(replace(scan, is_due=True), switch, at_ms)


# ---- what comes of it


def _is_timed(switch: Switch) -> bool:
    return not switch.has_two and switch.scanning == "by itself"


def _still(scan: Scan, press: Pressed, switch: Switch) -> Scanned:
    """Contact that is no press of its own. No rest goes on through it, and both switches at once choose nothing."""
    if scan.is_choosing and press.key is Key.SWITCH and not press.is_let_go:
        return replace(scan, is_choosing=False, wait=scan.wait + 1), ()
    if scan.at is None or switch.has_two or switch.scanning == "by itself":
        return scan, ()
    scan = replace(scan, is_due=False, wait=scan.wait + 1)
    return scan, (WaitFor(scan.wait, switch.pace_ms),)


def _by_two(scan: Scan, press: Pressed, switch: Switch) -> Scanned:
    if press.key is Key.SWITCH:
        return _offer(scan, 0 if scan.at is None else _next(scan), switch, press.at_ms)
    if scan.at is None:
        return scan, ()
    scan = replace(scan, is_choosing=True, wait=scan.wait + 1)
    return scan, (WaitFor(scan.wait, BOTH_MS),)


def _next(scan: Scan) -> int:
    assert scan.at is not None, "only what is offered has a next"
    return (scan.at + 1) % len(scan.offers)


def _meant(scan: Scan, at_ms: int) -> Offer:
    """What was offered before, where the press came too early to be for this one."""
    assert scan.at is not None, "only what is offered can be chosen"
    is_of_the_last = scan.at > 0 and at_ms - scan.since_ms < OF_THE_LAST_MS
    return scan.offers[scan.at - 1 if is_of_the_last else scan.at]


def _chosen(scan: Scan, offer: Offer) -> Scanned:
    """Nothing is offered until the session says what comes next."""
    return replace(scan, offers=(), at=None, is_choosing=False, wait=scan.wait + 1), (Acknowledge(), Choose(offer))


def _offer(scan: Scan, at: int, switch: Switch, at_ms: int) -> Scanned:
    scan = replace(
        scan,
        at=at,
        since_ms=at_ms,
        is_said=False,
        is_due=False,
        wait=scan.wait + 1,
        is_choosing=False,
        count=scan.count + 1,
    )
    actions: tuple[ScanAction, ...] = (SayOffer(scan.offers[at]),)
    return scan, actions if switch.has_two else (*actions, WaitFor(scan.wait, switch.pace_ms))


def _gone_on(scan: Scan, switch: Switch, at_ms: int) -> Scanned:
    """Once it has been said and its time is over: the next one comes, or the rest has chosen this one."""
    if scan.at is None or not (scan.is_said and scan.is_due):
        return scan, ()
    if switch.scanning == "by pressing" and scan.is_down:
        return scan, ()
    if switch.scanning == "by pressing":
        return _chosen(scan, scan.offers[scan.at])
    is_round_over = _next(scan) == 0
    scan = replace(scan, silent_rounds=scan.silent_rounds + is_round_over)
    if scan.silent_rounds >= switch.silent_rounds:
        return replace(scan, at=None, wait=scan.wait + 1, has_fallen_silent=True), (FallSilent(),)
    return _offer(scan, _next(scan), switch, at_ms)
