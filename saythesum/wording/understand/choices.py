"""Yes and no as children say them, where they were asked for one of the two. Read before hesitations are left out:
"uh huh" is a yes.
"""

import re

from saythesum.core.meanings import Choice
from saythesum.wording.understand.patterns import compiled

_SETS = {
    "yes": "yes yeah yep yup aye yah ye yea okay ok sure alright right course definitely correct mhm",
    "yes_too": "yes yeah yep please then that thats what i said do did it is was right miss sir maam thanks thank you "
    "of course okay ok fine sure correct go on good it would id like to want",
    "no": "no nope nah naw nae nay",
    "no_too": "no nope nah naw i dont didnt want it isnt wasnt that thats not wrong thank thanks you really way "
    "miss sir maam please this said say like to never do did think so",
}
_YES = compiled(
    (
        "^ <yes> <yes_too>* $",
        "^ uh/mm/mhm huh/hmm/hm $",
        "^ of course <yes_too>* $",
        "^ i do/did <yes_too>* $",
        "^ go on then $",
        "^ thats it/right $",
        "^ that is right $",
        "^ i would $",
        "^ please $",
        "^ it is/was $",
    ),
    _SETS,
)
_NO = compiled(
    (
        "^ <no> <no_too>* $",
        "^ uh/nuh/nah uh/ah $",
        "^ not really/that/it $",
        "^ i dont/didnt <no_too>* $",
        "^ it isnt/wasnt <no_too>* $",
        "^ no way $",
    ),
    _SETS,
)
_WORD = re.compile(r"[a-z0-9]+")


def choice(text: str) -> Choice | None:
    words = "".join(f"{word} " for word in _WORD.findall(re.sub(r"['’]", "", text.lower())))
    if _YES.search(words):
        return Choice(True)
    return Choice(False) if _NO.search(words) else None
