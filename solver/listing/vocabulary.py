"""Words of a list in English, German, French and Spanish: sides, units, numbers, counts."""

from __future__ import annotations


def _set(words: str) -> frozenset[str]:
    return frozenset(words.split())


def _means(**words: str) -> dict[str, str]:
    return {
        word.replace("_", " "): meaning.rstrip("_")
        for meaning, text in words.items()
        for word in text.split()
    }


LABELS = _means(
    width="width wide w breadth broad wd breit breite b largeur larg ancho anchura an",
    height="height high tall h ht hgt hoch höhe hauteur haut alto altura al",
    depth="depth deep d dp thick tief tiefe t profondeur prof p f fondo profundidad front_to_back",
    diameter="diameter diam dia ø ⌀ durchmesser durchm diamètre diámetro round_dia",
    across="across",
    length="length long l lg lang länge longueur largo",
    square="square sq",
    cube="cube cubes cubed würfel",
    sphere="sphere spheres",
)
"""What each word beside a size means."""
SHORT = _set("durchm w h d b t p l f an al ht wd dp dia diam haut larg prof hgt lg sq")
"""Labels that may have a full stop after them."""
DOTTED = {"an": "width", "al": "height", "f": "depth"}
"""Labels only with a full stop after them."""
FILLERS = _set("in im en de of von is ist the")
"""Words between a size and its label."""
LENGTH_UNITS = _means(
    **{"in": "in inch inches ins zoll pouce pouces pulgada pulgadas \" ''"},
    ft="ft feet foot '",
    mm="mm millimetre millimetres millimeter millimeters millimètres milímetros",
    cm="cm centimetre centimetres centimeter centimeters zentimeter centimètres centímetros",
    m="m metre metres meter meters mètre mètres metro metros",
)
MASS_UNITS = _means(
    lb="lb lbs pound pounds #",
    oz="oz ounce ounces",
    kg="kg kgs kilo kilos kilogram kilograms kilogramm",
    g="g gr gram grams gramme grammes gramm",
)
JOINTS = _set("x × ✕ * by mal par por")
"""Signs and words between the sizes of one thing."""
GUESSES = _set(
    "~ ≈ about approximately approx roughly circa ca c abt env environ etwa aprox ungefähr"
)
NUMBERS = {
    word: number
    for number, words in {
        1: "one",
        2: "two zwei deux dos",
        3: "three drei trois tres",
        4: "four vier quatre cuatro",
        5: "five fünf cinq cinco",
        6: "six sechs seis",
        7: "seven sieben sept siete",
        8: "eight acht huit ocho",
        9: "nine neun neuf nueve",
        10: "ten zehn dix diez",
        11: "eleven onze elf once",
        12: "twelve zwölf douze doce",
        13: "thirteen dreizehn treize trece",
        14: "fourteen vierzehn quatorze catorce",
        15: "fifteen fünfzehn quinze",
        16: "sixteen sechzehn seize dieciséis",
        17: "seventeen siebzehn diecisiete",
        18: "eighteen achtzehn dieciocho",
        19: "nineteen neunzehn diecinueve",
        20: "twenty zwanzig vingt veinte",
        30: "thirty dreißig dreissig trente treinta",
        40: "forty vierzig quarante cuarenta",
        50: "fifty fünfzig cinquante cincuenta",
        **{60: "sixty sechzig soixante", 70: "seventy siebzig", 80: "eighty", 90: "ninety"},
    }.items()
    for word in words.split()
}
NUMBERS |= {
    f"{'ein' if unit == 'eins' else unit}und{ten}": number + NUMBERS[ten]
    for ten in ("zwanzig", "dreißig", "vierzig", "fünfzig")
    for number, unit in enumerate(
        ["eins", "zwei", "drei", "vier", "fünf", "sechs", "sieben", "acht", "neun"], 1
    )
}
PARTS = {"half": 2, "third": 3, "quarter": 4, "eighth": 8, "sixteenth": 16}
"""Fractions in words, by what they divide by [-]."""
ARTICLES = _set("a an the my our ein eine einen une un una der die das le la les el los")
SETS = {
    **dict.fromkeys(
        ("pair", "pairs", "paar", "paire", "paires", "par", "pares", "couple", "pr"), 2
    ),
    **dict.fromkeys(("dozen", "doz", "dutzend", "douzaine", "docena"), 12),
    **dict.fromkeys(("trio", "threesome"), 3),
    **dict.fromkeys(("dizaine", "decena"), 10),
    **dict.fromkeys(("hundred", "hundert", "centaine"), 100),
    **{"quinzaine": 15, "vingtaine": 20, "quartet": 4, "score": 20, "gross": 144},
}
"""Words for several things [-]."""
COUNTERS = _set(
    "x × * off no nos nr ea each pcs pc piece pieces stück stücke st stk pièces pièce piezas"
)
"""Words and signs right after a count."""
BEFORE_COUNT = _set("qty quantity count pcs anzahl nombre cantidad quantité @ x ×")
VAGUE = _set(
    "few some several various many einige mehrere quelques plusieurs varios "
    "varias algunos algunas unos unas verschiedene diverse divers"
)
OF = _set("of von de d the these those my our them em")
NAMED_BY = _set(
    "no nr number model type mark mk lot size series style pattern figure fig vol volume part cat "
    "ref class grade chapter for with für pour para mit avec con of from von vom # plate typ "
    "modell modèle modelo época"
)
"""Words before a number that make it part of a name."""
NAME_UNITS = _set(
    "rpm day days hour hours pint pints quart quarts gallon gallons gal volt volts watt watts ml "
    "cl litre litres liter liters day-old year years minute minutes piece "
    "gauge bore legged s st nd rd th er ème d h k v w l jour jours stunden tage bit mp"
)
"""Words after a number that make it part of a name."""
EITHER = _set(
    "vol volume part panel disc reel book light drawer key branch draw door bottle tier arm wick"
)
"""Words after a number that make it a count or part of the name: `3 light candelabra`."""
LENSES = _set("binoculars glasses telescope spyglass monocular lens fernglas")
ONE_PAIR = _set(
    "glasses spectacles scissors tongs shears pliers tweezers compasses dividers binoculars"
)
"""Things that are one although they are called a pair."""
WORN_PAIRS = _set("calipers shoes boots gloves skates slippers clogs socks mittens earrings")
"""Things of which a pair may have been measured together."""
ROUND = _set("round runde rund ronde redondo")
BALLS = _set("ball balls sphere spheres kugel kugeln")
"""Words for things that are as wide as high and deep."""
LEADING = FILLERS | ARTICLES | GUESSES | ROUND
LEADING |= _set(
    "each je all size sizes measuring measures measure approx are none over under à at dimensions "
    "maße it they its and with über balls jeweils chaque cada only on fit x"
)
"""Words that lead to the sizes and end no name."""
REPEATING = LEADING | BALLS | OF | _set("lid lids on incl included handles base")
"""Words of a part before the sizes that says nothing of its own: `lids on`, `round balls`."""
OURS = _set("the my our these those die les los las unsere nos mis")
"""Articles before a count: `the three jugs`."""
PRONOUNS = _set("it they this that these those each all he she them")
"""Words for a thing that another line names."""
