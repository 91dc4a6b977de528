"""A sentence without what only makes it polite or hesitating: "um, Miss, can I please stop" is "can i stop".

Contractions and dialect come to one form each, so that a way of saying something is written down once.
"""

from itertools import groupby

from saythesum.wording.understand.tokens import Line, without_pauses


def _words(text: str) -> frozenset[str]:
    return frozenset(text.split())


_ALIKE = {
    **{"gonna": "going to", "wanna": "want to", "gotta": "have to", "gimme": "give me", "lemme": "let me"},
    **{"dinnae": "dont", "dinna": "dont", "dunno": "dont know", "dono": "dont know", "idk": "dont know"},
    **{"cannae": "cant", "canna": "cant", "cannot": "cant", "didnae": "didnt", "wasnae": "wasnt", "isnae": "isnt"},
    **{"ken": "know", "aint": "isnt", "math": "maths", "til": "till"},
    **{"until": "till", "anymore": "any more", "ive": "i have", "id": "i would", "im": "i am", "hes": "he is"},
    **{"shes": "she is", "theyre": "they are", "youre": "you are", "thats": "that is", "its": "it is"},
    **{"whats": "what is", "wheres": "where is", "hows": "how is", "theres": "there is", "lets": "let us"},
    **{"ill": "i will", "youve": "you have", "weve": "we have", "em": "them", "tellt": "told", "summat": "something"},
    **{"mins": "minute", "min": "minute", "sec": "second", "secs": "second", "seconds": "second", "mo": "second"},
    **{"minutes": "minute", "moment": "second", "tick": "second", "jiffy": "second", "ya": "you", "yous": "you"},
    **{"sums": "sum", "questions": "sum", "question": "sum", "hafta": "have to", "tummys": "tummy is"},
    **{
        "screens": "screen is",
        "brains": "brain is",
        "heads": "head is",
        "wasn": "wasnt",
        "displays": "display is",
        "noses": "nose is",
        "headphone": "headphones",
        "nobodys": "nobody is",
        "sounds": "sound is",
    },
}
_JOINED: dict[tuple[str, ...], str] = {
    **{("do", "not"): "dont", ("can", "not"): "cant", ("did", "not"): "didnt", ("is", "not"): "isnt"},
    **{("does", "not"): "doesnt", ("was", "not"): "wasnt", ("have", "not"): "havent", ("will", "not"): "wont"},
    **{("could", "not"): "couldnt", ("has", "not"): "hasnt", ("got", "to"): "have to", ("have", "got"): "have"},
    **{
        ("thank", "you"): "",
        ("you", "know"): "",
        ("a", "wee"): "a little",
        ("wee", "bit"): "bit",
        ("may", "i"): "can i",
    },
    **{("could", "i"): "can i", ("could", "we"): "can we", ("could", "you"): "can you", ("would", "you"): "can you"},
    **{("will", "you"): "can you", ("shall", "we"): "can we", ("isnt", "working"): "not working"},
    **{("doesnt", "work"): "not working", ("i", "was", "not"): "i wasnt"},
}
_A_WEE = ("a", "wee")
"""Little, in Scots; but at the end of "I need a wee" something else."""
_LEFT_OUT = _words(
    "please pls plz sir maam mam madam teacher kindly sorry just really actually thanks ta cheers basically "
    "honestly oh aw ow ooh hey like so ok okay innit now then pretty totally literally proper bit pure em ehm pal "
    "oi quite super very deffo definitely"
)
_MISS_IS_A_VERB_BEFORE = _words("this that it one these my him her them out the a")
_MISS_IS_SOMEBODY_BEFORE = _words("said says is was told has wants needs will asked can")
_SOMEBODY_AFTER = _words("the my a get call ask tell fetch find need want to")


def plain(line: Line) -> Line:
    """Words said twice in a row are one, but for "no no" and the like that mean the same anyway."""
    words = [word for word, _ in groupby(without_pauses(line))]
    words = _joined(" ".join(_ALIKE.get(word, word) for word in words).split())
    kept = [word for at, word in enumerate(words) if not _is_left_out(words, at)]
    return tuple(word for word, _ in groupby(_without_repeats(kept)))


def _joined(words: list[str]) -> list[str]:
    found: list[str] = []
    at = 0
    while at < len(words):
        pair = tuple(words[at : at + 2])
        if pair == _A_WEE and at + 2 == len(words):
            pair = ()
        if pair in _JOINED:
            found += _JOINED[pair].split()
            at += 2
        else:
            found.append(words[at])
            at += 1
    return found


def _is_left_out(words: list[str], at: int) -> bool:
    word, after = words[at], (*words, "", "")[at + 1]
    if word == "like":
        return at == 0 or words[at - 1] not in ("would", "dont", "i", "you")
    before = words[at - 1] if at else ""
    if word in ("miss", "teacher", "sir", "maam") and before in _SOMEBODY_AFTER:
        return False
    if word == "miss":
        return after not in _MISS_IS_A_VERB_BEFORE | _MISS_IS_SOMEBODY_BEFORE
    return word in _LEFT_OUT


def _without_repeats(words: list[str]) -> list[str]:
    """ "hang on hang on" is "hang on"."""
    found: list[str] = []
    for word in words:
        found.append(word)
        for length in (2, 3):
            if len(found) >= 2 * length and found[-length:] == found[-2 * length : -length]:
                del found[-length:]
    return found
