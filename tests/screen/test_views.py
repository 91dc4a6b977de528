import pytest

from saythesum.errors import CallerError
from saythesum.screen.views import LAST_STEP, Look, View


def test_one_key_goes_through_all_views_and_comes_back() -> None:
    look = Look()
    seen = []
    for _ in View:
        seen.append(look.view)
        look = look.next_view()
    assert seen == list(View)
    assert look == Look()


@pytest.mark.parametrize(("is_bigger", "end"), [(True, LAST_STEP), (False, 0)])
def test_sizes_end_at_both_ends(is_bigger: bool, end: int) -> None:
    look = Look()
    for _ in range(20):
        look = look.resized(is_bigger=is_bigger)
    assert look.step == end


def test_colours_that_are_not_there() -> None:
    with pytest.raises(CallerError, match="There are no colours 'pink'; there are black on white, white on black,"):
        Look(colours="pink")
