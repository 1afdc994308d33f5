"""What is known of chocolate and of cocoa powder, as rules on grams in 100 g of them.

The make-up of fat-free cocoa solids: a span round USDA SR28 NDB 19078, 19165, 19166, 19902-19904 (starch: Ciqual 2020,
31074). Milk solids by their protein: NDB 01212, 01091. Cocoa butter, milk fat and their legal minima: Directive
2000/36/EC, 21 CFR 163.124 and 163.130. Every other span is our own judgement: each says so below.
"""

from math import inf

from pastrylab.ground.bounds import Rule, none, ratio, span

# g of each in a gram of fat-free cocoa solids: low, typical, high. The starch of a milk chocolate is less well known.
_COCOA = {"protein": (0.20, 0.227, 0.30), "fibre": (0.29, 0.345, 0.43), "starch": (0.09, 0.128, 0.26)}
_COCOA |= {"ash": (0.055, 0.071, 0.10), "other": (0.05, 0.181, 0.24)}


def chocolate_rules(kind, cocoa, contents):
    """Rules on the grams in 100 g of a chocolate. kind: "dark chocolate" ...; cocoa: (low, typical, high) or None; contents:
    of words. Water 0.1 to 1.6 g: SR28 has 0.97 to 1.5 in retail bars, and couverture is drier.

    >>> from pastrylab.trade.labels.words import read_contents
    >>> chocolate_rules("dark chocolate", (63.5, 64, 66), read_contents("cocoa mass, sugar"))[0].high
    1.6
    """
    dark = kind == "dark chocolate"
    milky = not dark or contents.may_hold("whole milk", "skim milk", "whey", "milk fat")
    said = [span("water", 0.1, 1.6, 0.7), *none("alcohol"), *_other_fat(contents), *_its_sugars(contents)]
    said += _cocoa(milky)
    if kind == "white chocolate":
        said.append(span("cocoa", 0, 0.6, 0, "white chocolate holds no cocoa but its butter"))
        said.append(span("fibre", 0, 3, 0.1))
    said += _milk_of_dark(contents) if dark else _milk(contents)
    if cocoa:
        low, typical, high = cocoa
        words = "cocoa butter and cocoa solids together are the cocoa percentage"
        said.append(Rule((("cocoa_butter", 1), ("cocoa", 1)), low, high, typical, words))
    return said


def cocoa_powder_rules():
    """Rules on the grams in 100 g of cocoa powder or cocoa mass.

    >>> cocoa_powder_rules()[0].high
    7
    """
    empty = ("milk_fat", "milk_protein", "lactose", "maltose", "glucose", "fructose", "polyols", "alcohol")
    return [
        span("water", 0.5, 7, 3),
        span("other_fat", 0, 0.5, 0),
        *none(*empty, "higher_saccharides", upto=0.1),
        *_cocoa(with_milk=False),
    ]


def _cocoa(with_milk):
    """The parts that come with cocoa solids; what milk brings besides stands in _milk."""
    said = []
    for part, spread in _COCOA.items():
        words = f"{part} goes with cocoa"
        if part == "protein":
            terms = (("protein", 1), ("milk_protein", -1))
            low, typical, high = spread
            said += [
                Rule((*terms, ("cocoa", -low)), 0, inf, None, words),
                Rule((*terms, ("cocoa", -high)), -inf, 0, None, words),
                Rule((*terms, ("cocoa", -typical)), -inf, inf, 0, words),
            ]
        elif part == "ash" and with_milk:
            said += _ash_with_milk(spread)
        else:
            extra = 0.4 if part in ("ash", "other") else 0.05
            said += ratio((part,), "cocoa", *spread, words, extra)
    return said


def _ash_with_milk(cocoa):
    """Milk's ash by its protein: 0.22 to 0.23 in SR28; whey brings more."""
    terms, words = (("ash", 1),), "ash goes with cocoa and milk"
    return [
        Rule((*terms, ("cocoa", -cocoa[0]), ("milk_protein", -0.17)), 0, inf, None, words),
        Rule((*terms, ("cocoa", -cocoa[2]), ("milk_protein", -0.28)), -inf, 1.0, None, words),
        Rule((*terms, ("cocoa", -cocoa[1]), ("milk_protein", -0.225)), -inf, inf, 0, words),
    ]


def _other_fat(contents):
    """Lecithin and vanilla to 0.9 g, typically 0.4: our own judgement. Other fats to the 5 % of 2000/36/EC, nuts more."""
    most = 40.0 if contents.holds("nut") else 6.0 if contents.may_hold("other fat") else 0.9
    return [span("other_fat", 0, most, 0.4, "next to no fat is in it but that of cocoa and milk")]


def _its_sugars(contents):
    """Sucrose, unless the list names another; traces of glucose and fructose come with cocoa."""
    said = [span("higher_saccharides", 0, 60 if contents.holds("dextrin", "glucose syrup") else 0, 0)]
    said += none(*(() if contents.holds("polyol") else ("polyols",)))
    for name, words in _NAMED.items():
        most = 60 if contents.holds(*words) else 1.0 if name != "maltose" else 0.3
        said.append(span(name, 0, most, 0 if most <= 1 else None, f"it holds no {name} but what its list names"))
    return said


_NAMED = {
    "glucose": ("glucose syrup", "fructose", "honey", "fruit", "molasses"),
    "fructose": ("fructose", "honey", "fruit", "molasses"),
    "maltose": ("glucose syrup", "honey", "dextrin"),
}


def _milk_of_dark(contents):
    """Dark: none without a word of it. Retail bars hold 0.4 to 3 g of milk fat (SR28's fatty acids): 4 leaves room."""
    powder = 1.5 if contents.may_hold("whole milk", "skim milk", "whey") else 0.0
    fat = 4.0 if contents.may_hold("milk fat", "whole milk") else 0.0
    typical = 1.5 if contents.holds("milk fat", "whole milk") else 0
    lactose = ratio(("lactose",), "milk_protein", 0, 1.45, 1.7, "lactose goes with milk protein", 1.7 * bool(powder))
    return [
        span("milk_protein", 0, powder, 0, "there is no milk in it"),
        span("milk_fat", 0, fat, typical, "there is no milk fat in it"),
        *lactose,
    ]


def _milk(contents):
    """Milk solids by their protein. Lactose 1.3 to 1.65 of it, and up to 6 g more with whey (our own judgement); milk fat
    1.015 of it in whole powder, none in skim, more with butter oil; at least 3.3 g by the laws named above."""
    whey, fatter = contents.may_hold("whey"), contents.may_hold("milk fat")
    leaner = contents.may_hold("skim milk", "whey")
    low, high = (0.0 if leaner else 0.85), (2.6 if fatter else 1.2)
    typical = 1.2 if fatter and not leaner else 0.75 if leaner and not fatter else 1.015
    return [
        span("milk_fat", 3.3, 60, None, "there is as much milk fat as the law asks of milk and white chocolate"),
        *ratio(("milk_fat",), "milk_protein", low, typical, high, "milk fat goes with milk protein"),
        *ratio(("lactose",), "milk_protein", 1.3, 1.45, 1.65, "lactose goes with milk protein", 6.0 if whey else 0.3),
    ]
