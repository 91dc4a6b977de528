from saythesum.core.meanings import Number
from saythesum.hearing.embedded.moonshine import embedded_model
from saythesum.hearing.embedded.trie import Node, grown

PIECES = embedded_model().pieces


def reached(root: Node, text: str) -> Node | None:
    node: Node | None = root
    for number in PIECES.ids(text):
        node = node.below.get(number) if node else None
    return node


def test_each_spelling_is_there_with_and_without_capital_and_full_stop() -> None:
    root = grown([("forty-six", Number(46))], PIECES)
    for text in ("forty-six", "Forty-six", "forty-six.", "Forty-six."):
        node = reached(root, text)
        assert node is not None and node.spells and node.meaning == Number(46)


def test_a_beginning_is_no_spelling() -> None:
    node = reached(grown([("forty-six", Number(46))], PIECES), "forty-")
    assert node is None or not node.spells


def test_a_rival_spells_and_means_nothing() -> None:
    node = reached(grown([("sixth", None)], PIECES), "Sixth.")
    assert node is not None and node.spells and node.meaning is None


def test_of_two_meanings_the_first_stands() -> None:
    node = reached(grown([("for", Number(4)), ("for", None)], PIECES), "For")
    assert node is not None and node.meaning == Number(4)


def test_next_ids_stand_in_the_order_of_the_nodes_below() -> None:
    root = grown([("six", Number(6)), ("two", Number(2))], PIECES)
    assert root.next_ids.tolist() == list(root.below)
