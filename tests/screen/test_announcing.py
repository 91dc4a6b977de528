"""What a screen reader makes of the trees it is sent: each text is said once, however late it reads."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from hypothesis import given
from hypothesis import strategies as st

from saythesum.scene.accessible import ROOT, SPOKEN, Accessible, AccessibleTree, Role
from saythesum.scene.spoken import Spoken
from saythesum.screen.accessibility.announcing import Announcer

PLACES = ("answer", "help", "cell")
KEYS = "Page Down"
"""The help button's own description."""


def tree(focus: str, text: str) -> AccessibleTree:
    nodes = (
        Accessible("answer", Role.FIELD, "Answer"),
        Accessible("help", Role.BUTTON, "Help", description=KEYS),
        Accessible("cell", Role.CELL, "thirty-eight add five, not done"),
        Accessible(SPOKEN, Role.LIVE_TEXT, text),
    )
    return AccessibleTree(Accessible(ROOT, Role.WINDOW, "Say the sum", children=nodes), focus)


def node(shown: AccessibleTree, id: str) -> Accessible:
    return next(each for each in shown.root.all() if each.id == id)


@dataclass
class OlderReader:
    """As Orca 43: a changed description of the focused node is said as it was sent; where the focus comes to, a
    description is said as it is by the time the reader gets there.
    """

    focus: str = ROOT
    said: list[str] = field(default_factory=list)
    _before: AccessibleTree | None = None

    def gets(self, sent: Sequence[AccessibleTree], reads_at: int) -> None:
        read = sent[min(reads_at, len(sent) - 1)]
        for at, shown in enumerate(sent):
            if self._before:
                self._says_changed(shown, self._before)
            if shown.focus != self.focus:
                self.focus = shown.focus
                late = read if reads_at >= at else shown
                self.said.append(node(late, shown.focus).description)
            self._before = shown

    def _says_changed(self, shown: AccessibleTree, before: AccessibleTree) -> None:
        now, then = (node(each, self.focus).description for each in (shown, before))
        if now != then:
            self.said.append(now)


@dataclass
class NewerReader:
    """Says live text that has changed to something."""

    said: list[str] = field(default_factory=list)
    _text: str = ""

    def gets(self, sent: Sequence[AccessibleTree]) -> None:
        for shown in sent:
            text = node(shown, SPOKEN).name
            if text not in (self._text, ""):
                self.said.append(text)
            self._text = text


steps = st.lists(st.tuples(st.sampled_from(PLACES), st.sampled_from(["", "Add five.", "Add eight."])), max_size=12)


@given(steps=steps, late=st.booleans())
def test_an_older_reader_says_each_text_once_and_no_button_s_keys_out_of_turn(
    steps: list[tuple[str, str]], late: bool
) -> None:
    announcer, reader, expected, shown, spoken = Announcer(lambda: False), OlderReader(), [], ROOT, Spoken("", 0)
    reader.gets(announcer.updates(tree(ROOT, ""), is_heard=True), 0)
    for turn, (focus, text) in enumerate(steps, start=1):
        if text:
            spoken = Spoken(text, turn)
            announcer.takes(spoken)
        expected += [KEYS] if focus == "help" and shown != "help" else []
        expected += [text] if text else []
        shown = focus
        sent = announcer.updates(tree(focus, spoken.text), is_heard=True)
        reader.gets(sent, len(sent) if late else 0)
    heard = [line for line in reader.said if line]
    assert [line for line in heard if line != KEYS] == [line for line in expected if line != KEYS]
    assert heard.count(KEYS) <= expected.count(KEYS)


@given(steps=steps)
def test_a_newer_reader_says_each_text_once_and_descriptions_keep_still(steps: list[tuple[str, str]]) -> None:
    announcer, newer, spoken = Announcer(lambda: True), NewerReader(), Spoken("", 0)
    for turn, (focus, text) in enumerate(steps, start=1):
        if text:
            spoken = Spoken(text, turn)
            announcer.takes(spoken)
        sent = announcer.updates(tree(focus, spoken.text), is_heard=True)
        newer.gets(sent)
        assert {node(each, "help").description for each in sent} == {KEYS}
    assert newer.said == [text for _, text in steps if text]


def test_as_long_as_the_window_has_not_the_keyboard_a_text_waits() -> None:
    announcer, reader = Announcer(lambda: False), OlderReader()
    reader.gets(announcer.updates(tree("answer", ""), is_heard=False), 0)
    announcer.takes(Spoken("Add five.", 1))
    reader.gets(announcer.updates(tree("answer", "Add five."), is_heard=False), 0)
    assert "Add five." not in reader.said
    reader.gets(announcer.updates(tree("answer", "Add five."), is_heard=True), 0)
    assert [line for line in reader.said if line] == ["Add five."]


def test_who_has_come_and_hears_changes_is_told_the_last_text_once() -> None:
    announcer, reader = Announcer(lambda: False), OlderReader()
    announcer.takes(Spoken("Add five.", 1))
    announcer.updates(tree("answer", "Add five."), is_heard=True)  # said to an earlier one
    reader.gets([tree("answer", "Add five.")], 0)
    announcer.say_again()
    for _ in range(2):
        reader.gets(announcer.updates(tree("answer", "Add five."), is_heard=True), 0)
    assert [line for line in reader.said if line] == ["Add five."]


def test_who_comes_later_finds_the_last_text_at_the_focus_and_hears_it_once() -> None:
    announcer, reader = Announcer(lambda: False), OlderReader()
    announcer.takes(Spoken("Add five.", 1))
    reader.gets([announcer.for_newcomer(tree("answer", "Add five."))], 0)
    reader.gets(announcer.updates(tree("answer", "Add five."), is_heard=True), 0)
    assert [line for line in reader.said if line] == ["Add five."]
