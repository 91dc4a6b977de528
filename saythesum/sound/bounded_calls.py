"""Calls that may never return, made so that nobody waits for them for longer than a moment.

A sound server that hangs, or that is killed at the wrong moment, leaves PortAudio waiting for ever. Such a call is left
behind in a thread of its own, and its device counts as gone.
"""

import threading
from collections.abc import Callable
from concurrent.futures import Future
from concurrent.futures import TimeoutError as NotDoneError
from queue import SimpleQueue
from typing import Any, TypeAlias, TypeVar

from saythesum.errors import DeviceError

Result = TypeVar("Result")
_Order: TypeAlias = tuple[Callable[[], Any], "Future[Any]"]


class BoundedCalls:
    """One call at a time, in a thread of its own. May be called from any thread."""

    def __init__(self, when_stuck: Callable[[], None], *, within_s: float) -> None:
        """`when_stuck` is called for each call that is left behind."""
        self._when_stuck, self._within_s = when_stuck, within_s
        self._orders: SimpleQueue[_Order | None] = SimpleQueue()
        self._unanswered: Future[Any] | None = None
        """The call that was left behind, until it returns after all."""
        threading.Thread(target=self._run, name="sound calls", daemon=True).start()

    @property
    def is_stuck(self) -> bool:
        return self._unanswered is not None and not self._unanswered.done()

    def call(self, what: Callable[[], Result]) -> Result:
        """Returns or raises what the call does; DeviceError if it, or an earlier one, does not return in time."""
        if self.is_stuck:
            raise DeviceError(_NO_ANSWER)
        answer: Future[Result] = Future()
        self._orders.put((what, answer))
        try:
            return answer.result(self._within_s)
        except NotDoneError:
            self._unanswered = answer
            self._when_stuck()
            raise DeviceError(_NO_ANSWER) from None

    def close(self) -> None:
        """No call follows. One that is stuck is left so."""
        self._orders.put(None)

    def _run(self) -> None:
        while order := self._orders.get():
            what, answer = order
            try:
                answer.set_result(what())
            except BaseException as error:
                answer.set_exception(error)


_NO_ANSWER = "The sound of this machine does not answer; start saythesum again, or the machine."
