"""What a topic may look at when it answers."""

from dataclasses import dataclass

from saythesum.core.exercises.exercise import Exercise
from saythesum.core.grids.grid import Cell
from saythesum.core.meanings import HowHeard
from saythesum.core.records.rows import Answer, Ask, By, HeardId, RowId
from saythesum.dialogue.messages import Message
from saythesum.dialogue.tutor.plan import Activity, Plan
from saythesum.dialogue.tutor.progress import Progress, cell_of


@dataclass(frozen=True, slots=True)
class TalkMemory:
    """What the talk remembers during this run. It is never saved."""

    are_keys_offered: bool = False
    alternatives: tuple[tuple[HeardId | None, tuple[int, ...]], ...] = ()
    """What each kept hearing may have been instead."""
    began_ms: int = 0


@dataclass(frozen=True, slots=True)
class LastVerdict:
    """What was said of the last whole answer. It lasts until another number is heard, or until it is taken back."""

    answer: RowId
    messages: tuple[Message, ...]


@dataclass(frozen=True, slots=True)
class TurnContext:
    plan: Plan
    progress: Progress
    memory: TalkMemory
    how: HowHeard
    is_open_ear: bool
    """The ear opens by itself, so a refused sound may come from anybody."""
    is_enough_help: bool
    is_time_up: bool
    """So many minutes as the sitting was to last are over."""
    is_paused: bool
    """The pupil asked to wait, and the wait has not ended."""

    @property
    def is_spoken(self) -> bool:
        """Spoken answers are said back, typed ones are not."""
        return self.how.by is By.VOICE

    @property
    def ask(self) -> Ask:
        """The question that stands, in a talk or in a grid."""
        ask = self.progress.standing
        assert ask is not None, "a practice begins with a question"
        return ask

    @property
    def is_in_talk(self) -> bool:
        """About a pattern: what is asked stands in no cell."""
        return self.progress.is_talking

    @property
    def cell(self) -> Cell:
        return cell_of(self.ask)

    @property
    def activity(self) -> Activity:
        return self.plan.activity_on(self.ask)

    @property
    def asked(self) -> Exercise:
        return self.plan.exercise_of(self.ask)

    def next_id(self) -> RowId:
        return self.plan.next_id(self.progress.kept)

    def may_have_been(self, answer: Answer, value: int) -> bool:
        """Whether that answer's hearing may have been this number instead."""
        return any(id == answer.heard and value in values for id, values in self.memory.alternatives)
