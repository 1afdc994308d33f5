"""What is known of each kind of ingredient, as rules on grams in 100 g: how a label's figures become a composition.

Milk solids by their protein: USDA SR28, NDB 01212, 01091, 01211. Honey: NDB 19296 and the 5 g of sucrose of Directive
2001/110/EC. Cocoa and chocolate: cocoa. Every other span is our own judgement round the rows of ingredients.csv,
wide on purpose.
"""

from math import inf

from pastrylab.ground.bounds import Rule, none, ratio, span
from pastrylab.ground.datasets import COMPONENTS
from pastrylab.trade.labels.cocoa import chocolate_rules, cocoa_powder_rules
from pastrylab.trade.labels.figures import US

SUGARS = ("sucrose", "glucose", "fructose", "lactose", "maltose")
# Besides the components: what fat and protein are made of, fat-free cocoa solids, all sugars, all carbohydrate but fibre.
AMOUNTS = (*COMPONENTS, "milk_fat", "cocoa_butter", "other_fat", "cocoa", "milk_protein", "sugars", "carbohydrate")
FAMILIES = {
    "dark chocolate": "chocolate",
    "milk chocolate": "chocolate",
    "white chocolate": "chocolate",
    "cocoa powder": "powder",
    "cream": "cream",
    "milk": "milk",
    "butter": "butter",
    "milk powder": "powder",
    "syrup": "syrup",
    "sugar": "sugar",
    "nut paste": "nut",
    "fruit": "fruit",
    "other": "other",
}
CHOCOLATE = ("dark chocolate", "milk chocolate", "white chocolate")
DAIRY = ("cream", "milk", "butter", "milk powder")


def rules_of(kind, label, figures, cocoa, contents):
    """All rules on the grams in 100 g of one label. figures: {name: Figure or None}; cocoa: (low, typical, high) or None.

    contents: of words. What each rule rests on stands above and beside it.

    >>> from pastrylab.trade.labels.words import read_contents
    >>> len(rules_of("sugar", "EU", {}, None, read_contents(""))) > 5
    True
    """
    said = _whole() + _as_printed(label, figures)
    if kind in CHOCOLATE:
        return said + chocolate_rules(kind, cocoa, contents)
    if kind == "cocoa powder":
        return said + cocoa_powder_rules()
    if kind in DAIRY:
        return said + _dairy(kind, contents)
    return said + _others(kind, contents, figures)


def _whole():
    """Whatever it is: its parts are the whole. Half a gram is what analyses of one food leave open (SR28)."""
    carbohydrate = (*SUGARS, "higher_saccharides", "polyols", "starch")
    rest = tuple((name, 1) for name in COMPONENTS if name not in carbohydrate)
    words = "all parts together are 100 g"
    return [
        _sum_of("sugars", SUGARS, "its sugars together are the sugars"),
        _sum_of(
            "carbohydrate", ("sugars", *carbohydrate[len(SUGARS) :]), "the carbohydrate is sugars, chains and starch"
        ),
        _sum_of("fat", ("milk_fat", "cocoa_butter", "other_fat"), "the fat is cocoa butter, milk fat and other fat"),
        Rule((*rest, ("carbohydrate", 1)), 99.5, 100.5, 100, words),
    ]


def _sum_of(whole, parts, says):
    return Rule(((whole, 1), *((part, -1) for part in parts)), 0, 0, 0, says)


def _as_printed(label, figures):
    """The figures themselves. Carbohydrate by law: in the US with fibre and all else that is left (21 CFR 101.9(c)(6));
    in the EU without fibre (1169/2011, Annex I), and makers who take what is left count acids and the like into it."""
    said = []

    def printed(name, *parts):
        if found := figures.get(name):
            says = f"{name.replace('_', ' ')} is as printed"
            said.append(Rule(tuple((part, 1) for part in parts), found.low, found.high, found.printed, says))

    for name in ("fat", "protein", "fibre", "polyols"):
        printed(name, name)
    printed("sugars", "sugars")
    if label == US:
        printed("carbohydrate", "carbohydrate", "fibre", "other")
    elif found := figures.get("carbohydrate"):
        terms, says = (("carbohydrate", 1),), "carbohydrate is as printed"
        said.append(Rule(terms, -inf, found.high, None, says))
        said.append(Rule((*terms, ("other", 1)), found.low, inf, None, says))
        said.append(Rule((*terms, ("other", 0.5)), -inf, inf, found.printed, says))
    if found := figures.get("added_sugars"):  # what is not added came with milk or fruit
        natural = (("lactose", 1), ("fructose", 1), ("glucose", 1))
        sugars = figures["sugars"]
        said.append(Rule(natural, sugars.low - found.high, inf, None, "sugars less added sugars"))
    if found := figures.get("salt"):
        said.append(span("ash", found.low, inf, None, "minerals: at least the salt"))
    if found := figures.get("saturates"):  # cocoa butter 0.60, milk fat 0.62 of the fat in SR28; 0.55 leaves room
        said.append(
            Rule((("cocoa_butter", 0.55), ("milk_fat", 0.55)), -inf, found.high, None, "saturates is as printed")
        )
    return said


def _dairy(kind, contents):
    """Cream, milk, butter, powders: fat is milk fat, sugars lactose unless sugar is listed. Lactose 0.9 to 1.75 of the
    protein (SR28: cream 1.03, milk 1.6), ash 0.13 to 0.28 of it and the salt added."""
    sweet = contents.holds("sugar", "glucose syrup", "fructose", "honey", "fruit")
    soft = contents.holds("starch", "fibre", "little", "dextrin")
    most = 3 if contents.holds("starch", "fibre", "dextrin", "fruit") else 0.4 if soft else 0.1  # a stabiliser: little
    said = none("cocoa_butter", "cocoa", "alcohol", "polyols")
    said += none("fibre", "starch", upto=most)
    said += none("higher_saccharides", upto=40 if contents.holds("glucose syrup", "dextrin") else most)
    said.append(span("other", 0, 1.2 if soft else 0.6, 0))
    said.append(span("other_fat", 0, 100 if contents.holds("other fat") else 0, 0, "the fat is milk fat"))
    said.append(Rule((("protein", 1), ("milk_protein", -1)), 0, 1 if soft else 0, 0, "the protein is milk's"))
    said += [
        Rule((("ash", 1), ("milk_protein", -0.1)), 0, inf, None, "ash goes with milk protein"),
        Rule((("ash", 1), ("milk_protein", -0.28)), -inf, 3.0 if kind == "butter" else 0.6, None, "ash and salt"),
        Rule((("ash", 1), ("milk_protein", -0.2)), -inf, inf, 0, "ash goes with milk protein"),
    ]
    if kind == "milk powder":  # Codex Standard 207-1999: at most 5 % (from memory)
        said.append(span("water", 0, 6, 3.5, "a milk powder is dry"))
    if not sweet:
        return said + none("sucrose", "glucose", "fructose", "maltose")
    said += ratio(("lactose",), "milk_protein", 0.9, 1.45, 1.75, "lactose goes with milk protein", 0.3)
    only = contents.holds("sugar") and not contents.holds("glucose syrup", "fructose", "honey", "fruit")
    return said + (none("glucose", "fructose", "maltose") if only else [])


def _others(kind, contents, figures):
    """Syrups, sugars, nuts, fruit and all else: the label's own figures, and which sugars the list allows."""
    asks = contents.may_hold if kind == "other" else contents.holds
    said = none("alcohol") if not contents.holds("alcohol") else []
    said += [] if contents.holds("polyol") or figures.get("polyols") else none("polyols")
    said += _its_milk(contents) if asks("whole milk", "skim milk", "whey", "milk fat") else none(*_OF_MILK)
    if asks("cocoa", "cocoa butter"):  # beside nuts and other fats most fat is theirs: our own judgement
        share = 0.2 if contents.holds("nut", "other fat") else 0.6
        said.append(Rule((("cocoa_butter", 1), ("fat", -share)), -inf, inf, 0, "cocoa butter is part of the fat"))
    else:
        said += none("cocoa_butter", "cocoa")
    most = max(6.0, 4.0 + figures["salt"].high) if figures.get("salt") else 6.0
    said += [span("ash", 0, most, None, "minerals are the salt and a little more")] if kind == "other" else []
    return said + _of_kind(kind, contents, figures) + _sugars_listed(kind, contents)


_OF_MILK = ("milk_fat", "milk_protein", "lactose")


def _its_milk(contents):
    """Milk in something else, by its protein as in cocoa; butter and cream bring fat without it."""
    whey, fatter = contents.may_hold("whey"), contents.may_hold("milk fat")
    said = [Rule((("milk_protein", 1), ("protein", -1)), -inf, 0, None, "milk protein is part of the protein")]
    said += ratio(("lactose",), "milk_protein", 0, 1.45, 1.75, "lactose goes with milk protein", 60 if whey else 0.5)
    if not fatter:
        said += ratio(("milk_fat",), "milk_protein", 0, 0.5, 1.2, "milk fat goes with milk protein")
    else:
        said.append(Rule((("milk_fat", 1), ("fat", -0.3)), -inf, inf, 0, "milk fat is part of the fat"))
    return said


# kind: {amount: (low, high, typical)}; our own judgement round the rows of ingredients.csv
_SPANS = {
    "syrup": {"starch": (0, 0.5, 0), "ash": (0, 1, 0.2), "other": (0, 1, 0), "fibre": (0, 3, 0), "fat": (0, 2, 0)},
    "sugar": {
        "starch": (0, 3.5, 0),
        "ash": (0, 2.5, 0),
        "other": (0, 1.5, 0),
        "fibre": (0, 2, 0),
        "water": (0, 10, 0.2),  # dextrose is sold with 9 g of it
    },
    "nut paste": {"ash": (0.3, 4.5, 2.5), "other": (0, 14, 3), "water": (0, 20, 3), "starch": (0, 14, 2)},
    "fruit": {"ash": (0.1, 1.6, 0.5), "other": (0, 8, 1.2), "starch": (0, 7, 0), "fibre": (0, 12, 1.5)},
    "other": {"other": (0, 10, 0), "fibre": (0, 12, 0)},
}


def _of_kind(kind, contents, figures):
    """The spans of a kind, wider where its list names what may bring more."""
    spans = dict(_SPANS[kind])
    if kind == "other" and figures.get("fibre"):
        del spans["fibre"]  # it is printed
    if kind in ("syrup", "sugar") and not contents.may_hold("fibre"):
        spans["fibre"] = (0, 0.5, 0)
    if kind == "syrup" and contents.may_hold("maple", "molasses"):
        # Acids; SR28, NDB 19353: 6.6 g of its carbohydrate are no sugars. Minerals: NDB 19304.
        spans |= {"ash": (0, 5 if contents.may_hold("molasses") else 1, 0.5), "other": (0, 9, 1)}
    said = [span(name, *ends) for name, ends in spans.items()]
    chains = kind in ("syrup", "other") or contents.holds("glucose syrup", "dextrin", "fructose")
    return said + ([] if chains else none("higher_saccharides", upto=0.3))


def _sugars_listed(kind, contents):
    """Which sugars, and how much of each, as far as the list tells. No list: any of them."""
    only = {word for word in ("honey", "maple", "molasses", "glucose syrup", "fructose", "sugar", "fruit", "nut")}
    named = only & contents.groups
    if not contents.given or contents.unknown:
        return [] if kind != "sugar" else none("lactose")
    if kind == "syrup" and not named:  # of rice or oats: what enzymes cut from starch is glucose and maltose
        return none("sucrose", "fructose") if contents.holds("starch") else []
    if kind == "syrup" and named == {"honey"}:
        return _shares(fructose=(0.42, 0.50, 0.58), glucose=(0.34, 0.43, 0.50), sucrose=(0, 0.01, 0.07))
    if kind == "syrup" and named == {"maple"}:
        return _shares(sucrose=(0.85, 0.97, 1.0), glucose=(0, 0.02, 0.12), fructose=(0, 0.01, 0.1))
    if kind == "syrup" and named == {"glucose syrup"}:
        return none("sucrose", "fructose")
    if kind == "syrup" and named == {"fructose"}:  # half inverted to fructose syrups: our own judgement
        return _shares(sucrose=(0, 0.1, 0.5), glucose=(0.05, 0.42, 0.6), fructose=(0.2, 0.47, 0.95))
    if not named & {"honey", "maple", "molasses", "glucose syrup", "fructose", "fruit"}:
        return none("glucose", "fructose", "maltose", upto=4 if "nut" in named or kind == "nut paste" else 0.3)
    return [] if named & {"sugar", "maple", "molasses", "fruit", "honey", "fructose", "nut"} else none("sucrose")


def _shares(**shares):
    """Each sugar as low, typical, high share of all of them."""
    return [
        rule for name, ends in shares.items() for rule in ratio((name,), "sugars", *ends, f"{name} is as in its kind")
    ]
