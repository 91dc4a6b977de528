"""The sounds of the words in the table of phrases, and how far two strings of sounds are apart.

British English from memory, in ARPAbet's symbols with OH (lot), EA (square), IA (near) and AX (the weak vowel) added,
as ARPAbet, made for American English, lacks them. A diphthong or an affricate is one sound. Source of the symbols:
the phone set of the CMU Pronouncing Dictionary. test_phrases holds every word of them against espeak-ng's.
"""

from functools import cache

_WORDS = """
I AY | I'm AY M | I've AY V | a AX | again AX G EH N | already AO L R EH D IY | am AE M | and AX N D
stuck S T AH K | carry K AE R IY | be B IY | quiet K W AY AX T
answer AA N S AX | are AA | back B AE K | before B IH F AO | but B AH T | can K AE N | column K OH L AX M
could K UH D | did D IH D | didn't D IH D AX N T | do D UW | don't D OW N T | down D AW N | eight EY T
eighteen EY T IY N | eighty EY T IY | eleven IH L EH V AX N | fifteen F IH F T IY N | fifty F IH F T IY
first F ER S T | five F AY V | forty F AO T IY | four F AO | fourteen F AO T IY N | give G IH V | go G OW
have HH AE V | help HH EH L P | hint HH IH N T | how HH AW | hundred HH AH N D R AX D | hush HH AH SH
idea AY D IA | is IH Z | isn't IH Z AX N T | it IH T | it's IH T S | know N OW | leave L IY V | like L AY K
look L UH K | for F AO | patterns P AE T AX N Z | pattern P AE T AX N
many M EH N IY | me M IY | minute M IH N IH T | miss M IH S | moment M OW M AX N T | more M AO | need N IY D
nine N AY N | nineteen N AY N T IY N | ninety N AY N T IY | no N OW | not N OH T | nought N AO T | now N AW
on OH N | one W AH N | out AW T | please P L IY Z | question K W EH S CH AX N | read R IY D | repeat R IH P IY T
row R OW | said S EH D | say S EY | second S EH K AX N D | seven S EH V AX N | seventeen S EH V AX N T IY N
seventy S EH V AX N T IY | six S IH K S | sixteen S IH K S T IY N | sixty S IH K S T IY | skip S K IH P
slow S L OW | slower S L OW AX | some S AH M | stop S T OH P | sure SH AO | ten T EH N | that DH AE T
that's DH AE T S | the DH AX | there DH EA | thirteen TH ER T IY N | thirty TH ER T IY | this DH IH S
thousand TH AW Z AX N D | three TH R IY | time T AY M | to T UW | twelve T W EH L V | twenty T W EH N T IY
two T UW | wait W EY T | want W OH N T | was W OH Z | wasn't W OH Z AX N T | we W IY | what W OH T | where W EA
would W UH D | you Y UW | zero Z IA R OW
"""
SOUNDS = {
    entry.split()[0]: tuple(entry.split()[1:]) for line in _WORDS.strip().splitlines() for entry in line.split("|")
}


@cache
def sounds(text: str) -> tuple[str, ...]:
    return tuple(sound for word in text.replace("-", " ").split() for sound in SOUNDS[word])


def distance(one: tuple[str, ...], other: tuple[str, ...]) -> int:
    """Sounds put in, left out or changed to get from one to the other. Source: Levenshtein 1966."""
    row = list(range(len(other) + 1))
    for at, sound in enumerate(one, 1):
        before, row[0] = row[0], at
        for place, matched in enumerate(other, 1):
            before, row[place] = (
                row[place],
                min(row[place] + 1, row[place - 1] + 1, before + (sound != matched)),
            )
    return row[-1]
