"""Number words in other accents: a synthesiser of another language reads them as its speakers say English.

Indian languages read them in their own script, as they are written there; the others in a spelling of our own, by
their rules of reading. Written from memory, listened to nowhere: what counts is only that mouths differ.
"""

from random import Random

from saythesum.wording.numbers import TENS, UNDER_TWENTY
from tests.tools.second_opinion.sayings import Saying, listed, number_meaning, number_words
from tests.tools.second_opinion.vocabulary import NO, OTHER, OTHER_WORD, YES

_READ = (*UNDER_TWENTY, *TENS.values(), "hundred", "and", "a", YES, NO)


def _table(line: str) -> dict[str, str]:
    return dict(zip(_READ, line.split(), strict=True))


DEVANAGARI = _table(
    "ज़ीरो वन टू थ्री फोर फाइव सिक्स सेवन एट नाइन टेन इलेवन ट्वेल्व थर्टीन फोर्टीन फिफ्टीन सिक्सटीन "
    "सेवेनटीन एटीन नाइनटीन ट्वेंटी थर्टी फोर्टी फिफ्टी सिक्सटी सेवेंटी एटी नाइंटी हंड्रेड एंड ए यस नो"
)
OTHERS_IN_DEVANAGARI = listed(
    "मंडे ट्यूज़डे वेडनेसडे थर्सडे फ्राइडे सैटरडे संडे जनवरी फरवरी मार्च अप्रैल मे जून जुलाई फर्स्ट सेकंड "
    "थर्ड फोर्थ फिफ्थ सिक्स्थ फिक्स शू स्वान डिग्री डोर फ्लोर कंप्यूटर स्कूल टीचर टेबल पेन टिकट हेलो "
    "थैंक्यू प्लीज़ बी सी डी ई एफ जी एच के एल एम नमस्ते पानी घर किताब अच्छा ठीक नहीं हाँ क्या कौन दोस्त "
    "हेवन ओवन लाइफ नाइट लाइन फाइन हेट गेट ट्री टी टाई टाइम वाटर"
)
SCRIPTS = {"hi": 0, "mr": 0, "ne": 0, "pa": 0x100, "gu": 0x180, "te": 0x300, "kn": 0x380, "ml": 0x400}
"""How far each script's block lies above Devanagari's. Source: the Unicode Standard lays out the blocks of India's
scripts in parallel, after ISCII (chapter "South and Central Asia")."""
_DEVANAGARI_BLOCK = range(0x900, 0x964)
_CONSONANTS = range(0x915, 0x93A)
_NUKTA, _VIRAMA = "\u093c", "\u094d"
_ENDS_WITHOUT_A_VOWEL = {"te", "kn", "ml"}
"""Where a consonant at the end of a word has to be told to have no vowel."""
RESPELT = {
    "es": _table(
        "sirou uan tu zri for faif siks seven eit nain ten ileven tuelf zertin fortin fiftin sikstin seventin "
        "eitin naintin tuenti zerti forti fifti siksti seventi eiti nainti jandred and ei ies nou"
    ),
    "de": _table(
        "siro wann tu sri for feif siks sewen eht nein tenn ilewen twelf sörtin fortin fiftin sikstin "
        "sewentin ehtin neintin twenti sörti forti fifti siksti sewenti ehti neinti handred änd ej jess noo"
    ),
    "it": _table(
        "ziro uan tu tri for faiv sics seven eit nain ten ileven tuelv tertin fortin fiftin sicstin seventin "
        "eitin naintin tuenti terti forti fifti sicsti seventi eiti nainti andred end ei ies nou"
    ),
    "pl": _table(
        "ziro łan tu fri for fajw siks sewen ejt najn ten ilewen tłelw fertin fortin fiftin sikstin sewentin "
        "ejtin najntin tłenti ferti forti fifti siksti sewenti ejti najnti handred end ej jes noł"
    ),
    "tr": _table(
        "ziro van tu tri for fayv siks sevın eyt nayn ten ilevın tvelv törtin fortin fiftin sikstin sevıntin "
        "eytin nayntin tventi törti forti fifti siksti sevınti eyti naynti handrıd end ey yes no"
    ),
    "fr-fr": _table(
        "ziro ouane tou sri for faïve sixe sévène éïte naïne tène ilévène touelve seurtine fortine fiftine "
        "sixtine sévènetine éïtine naïnetine touènti seurti forti fifti sixti sévènti éïti naïneti eundrède "
        "ende eï yèsse nô"
    ),
    "nl": _table(
        "ziero wan toe frie for faif siks sevven eet nain ten ielevven twelf furtien fortien fiftien sikstien "
        "seventien eetien naintien twentie furtie fortie fiftie sikstie seventie eetie naintie hundred end ee "
        "jes noo"
    ),
    "sv": _table(
        "siro wann to tri får fajv siks seven ejt najn ten ileven tvelv törtin fårtin fiftin sikstin seventin "
        "ejtin najntin tventi törti fårti fifti siksti seventi ejti najnti handred änd ej jess nåo"
    ),
    "pt-br": _table(
        "ziro uan tu tri for faiv siks seven eit nain ten ileven tuelv tãrtin fortin fiftin sikstin seventin "
        "eitin naintin tuenti tãrti forti fifti siksti seventi eiti nainti randred end ei iés nou"
    ),
}
_LANGUAGES = (*SCRIPTS, *SCRIPTS, *["hi"] * 4, *RESPELT)


def accented(dice: Random, lexicon: list[str]) -> tuple[str, Saying]:
    """The language that reads it, and the saying."""
    language = dice.choice(_LANGUAGES)
    at = dice.random()
    if at < 0.30:
        return language, _something_else(language, dice, lexicon)
    if at < 0.66:
        value = dice.randrange(20)
    elif at < 0.76:
        value = dice.choice(list(TENS))
    elif at < 0.89:
        value = dice.choice([number for number in range(21, 100) if number % 10])
    elif at < 0.95:
        value = dice.randrange(100, 200)
    else:
        meaning = dice.choice((YES, NO))
        return language, Saying(_read(meaning, language), (meaning,), meaning)
    said = dice.choice(number_words(value))
    return language, Saying(" ".join(_read(word, language) for word in said), tuple(said), number_meaning(value))


def _something_else(language: str, dice: Random, lexicon: list[str]) -> Saying:
    if language not in SCRIPTS:
        return Saying(dice.choice(lexicon), (OTHER_WORD,), OTHER)
    count = 1 if dice.random() < 0.8 else 2
    read = [_in_script(dice.choice(OTHERS_IN_DEVANAGARI), language) for _ in range(count)]
    return Saying(" ".join(read), (OTHER_WORD,) * count, OTHER)


def _read(word: str, language: str) -> str:
    return _in_script(DEVANAGARI[word], language) if language in SCRIPTS else RESPELT[language][word]


def _in_script(text: str, language: str) -> str:
    offset = SCRIPTS[language]
    if not offset and language == "hi":
        return text
    text = text.replace("\u095b", "\u091c").replace(_NUKTA, "")
    if language in _ENDS_WITHOUT_A_VOWEL and ord(text[-1]) in _CONSONANTS:
        text += _VIRAMA
    return "".join(chr(ord(letter) + offset) if ord(letter) in _DEVANAGARI_BLOCK else letter for letter in text)
