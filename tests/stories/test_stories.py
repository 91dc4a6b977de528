"""Every story, played and compared whole: an extra sentence fails as surely as a missing one."""

from pathlib import Path

import pytest

from tests.stories.player import BY_HAND, played

STORIES = sorted(Path(__file__).parent.glob("*.txt"))
LONGEST = 40


@pytest.mark.parametrize("story", STORIES, ids=lambda story: story.stem)
def test_a_story_goes_as_written(story: Path, request: pytest.FixtureRequest) -> None:
    text = story.read_text(encoding="utf-8")
    now = played(text)
    if request.config.getoption("--rewrite-stories", default=False) and BY_HAND not in text.splitlines():
        story.write_text(now, encoding="utf-8")
        text = now
    assert now == text


def test_there_are_enough_stories_and_enough_written_by_hand() -> None:
    texts = [story.read_text(encoding="utf-8") for story in STORIES]
    by_hand = [text for text in texts if BY_HAND in text.splitlines()]
    assert len(texts) >= 25
    assert len(by_hand) >= 12
    assert all(len(text.splitlines()) <= LONGEST for text in texts)


def test_a_changed_line_makes_a_story_fail() -> None:
    story = "grid 38 by 5\n\nbegin\n    say     Thirty-eight add six.\n"
    assert "Thirty-eight add five." in played(story)
    assert played(story) != story
