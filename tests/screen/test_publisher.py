"""What accesskit's thread calls: a failure there spoils its adapter for good, so none gets out, and nothing is pressed.

The adapter is replaced by one that keeps the handlers; the real one is tested in `tests/app/session/test_assistive.py`.
"""

from collections.abc import Callable
from types import SimpleNamespace
from typing import Any

import accesskit
import pytest

from saythesum.keyboard.keys import Focus
from saythesum.ports import Touched
from saythesum.screen.accessibility.publisher import Publisher
from tests.screen.scenes import Shown


class KeptHandlers:
    def __init__(self, activate: Callable[[], Any], act: Callable[[Any], None], deactivate: Callable[[], None]) -> None:
        self.activate, self.act, self.deactivate = activate, act, deactivate
        self.updates: list[Any] = []

    def update_if_active(self, factory: Callable[[], Any]) -> None:
        self.updates.append(factory())

    def update_window_focus_state(self, is_focused: bool) -> None:
        pass


@pytest.fixture
def handlers(monkeypatch: pytest.MonkeyPatch) -> list[KeptHandlers]:
    kept: list[KeptHandlers] = []

    def adapter(*handlers: Any) -> KeptHandlers:
        kept.append(KeptHandlers(*handlers))
        return kept[-1]

    monkeypatch.setattr(accesskit.unix, "Adapter", adapter)
    return kept


def publisher() -> Publisher:
    made = Publisher("Say the sum", lambda: 1234, lambda: None)
    made.show(Shown().scene, ())
    return made


class FailsWhenRead:
    @property
    def target(self) -> int:
        raise ValueError("no such request")


def request(publishing: Publisher, kept: KeptHandlers, label: str, action: accesskit.Action) -> SimpleNamespace:
    nodes = dict(kept.activate().nodes)
    return SimpleNamespace(target=next(id for id, node in nodes.items() if node.label == label), action=action)


def test_a_request_that_fails_in_its_handler_presses_nothing_and_the_next_one_is_taken(
    handlers: list[KeptHandlers],
) -> None:
    publishing = publisher()
    help_pressed = request(publishing, handlers[0], "Help", accesskit.Action.CLICK)
    handlers[0].act(FailsWhenRead())
    handlers[0].act(None)
    handlers[0].act(SimpleNamespace(target=999, action=accesskit.Action.CLICK))
    handlers[0].act(SimpleNamespace(target=help_pressed.target, action=accesskit.Action.SCROLL_DOWN))
    assert publishing.look() == []
    handlers[0].act(help_pressed)
    assert publishing.look() == [Touched(Focus.HELP, 1234)]


def test_an_activation_that_fails_publishes_nothing_until_one_succeeds(
    handlers: list[KeptHandlers], monkeypatch: pytest.MonkeyPatch
) -> None:
    publishing = publisher()
    with monkeypatch.context() as broken:
        broken.setattr("saythesum.screen.accessibility.nodes.Node", FailsWhenRead)
        assert handlers[0].activate() is None
    assert not publishing.is_read
    assert publishing.look() == []
    publishing.focus_changed(has_focus=True)
    assert handlers[0].updates == []
    assert handlers[0].activate() is not None
    assert publishing.is_read
