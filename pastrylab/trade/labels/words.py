"""The list of ingredients of a pack: which of them say something about what is inside, and which about allergens."""

import re
from dataclasses import dataclass

from pastrylab.ground.names import plain_name

# What each word stands for. Longer phrases are looked for first: "cocoa butter" is no butter.
_WORDS = {
    "cocoa": "cocoa mass;cocoa liquor;cocoa paste;cocoa beans;cocoa bean;cocoa solids;cocoa powder;cocoa nibs;cocoa;cacao;"
    "cacao mass;cacao beans;cacao nibs;chocolate liquor;chocolate;unsweetened chocolate;couverture",
    "cocoa butter": "cocoa butter;cacao butter",
    "whole milk": "whole milk powder;whole milk;full cream milk powder;milk powder;dried milk;milk;yogurt;yoghurt",
    "skim milk": "skimmed milk powder;skimmed milk;skim milk powder;skim milk;nonfat milk;nonfat dry milk;non-fat milk;"
    "fat-free milk;fat free milk;buttermilk;buttermilk powder;milk solids;nonfat milk solids;milk protein;milk proteins;"
    "casein;caseinate;sodium caseinate",
    "whey": "whey;whey powder;lactose;milk sugar;whey permeate;milk permeate",
    "milk fat": "milk fat;milkfat;butterfat;butter fat;anhydrous milk fat;butter oil;butteroil;clarified butter;butter;"
    "cream;creme fraiche;cream powder;pasteurized cream;pasteurised cream;ghee",
    "other fat": "palm oil;palm fat;palm kernel oil;palm;vegetable oil;vegetable oils;vegetable fat;vegetable fats;shea;"
    "shea butter;coconut oil;coconut fat;sunflower oil;rapeseed oil;canola oil;soybean oil;olive oil;cottonseed oil;oil;"
    "oils;fat;illipe;sal",
    "nut": "hazelnut;hazelnuts;almond;almonds;pistachio;pistachios;walnut;walnuts;pecan;pecans;cashew;cashews;macadamia;"
    "macadamias;brazil nut;brazil nuts;nuts;nut;praline;gianduja;marzipan;peanut;peanuts;peanut butter;sesame;tahini;"
    "coconut;coconut milk;pine nuts",
    "sugar": "sugar;cane sugar;raw cane sugar;brown sugar;sucrose;saccharose;icing sugar;powdered sugar;coconut sugar;"
    "cane juice;evaporated cane juice;panela;muscovado;demerara;caramelised sugar;caramelized sugar;caramel",
    "maple": "maple syrup;maple sugar",
    "glucose syrup": "glucose syrup;dried glucose syrup;corn syrup;corn syrup solids;glucose;dextrose;maltose;"
    "malt extract;malt syrup;barley malt;rice syrup;tapioca syrup;wheat syrup",
    "fructose": "glucose-fructose syrup;glucose fructose syrup;fructose-glucose syrup;fructose glucose syrup;isoglucose;"
    "high fructose corn syrup;high-fructose corn syrup;fructose;agave;agave syrup;agave nectar;invert sugar;inverted sugar;"
    "invert sugar syrup;invert syrup;golden syrup;date syrup;refiners syrup",
    "honey": "honey",
    "molasses": "molasses;treacle",
    "dextrin": "maltodextrin;dextrin;polydextrose",
    "fibre": "inulin;fibre;fiber;dietary fibre;chicory root;oligofructose;pectin;gum arabic;acacia",
    "polyol": "maltitol;maltitol syrup;sorbitol;sorbitol syrup;erythritol;isomalt;xylitol;mannitol;lactitol;glycerol;"
    "glycerin;glycerine;polyols",
    "starch": "starch;modified starch;corn starch;cornstarch;flour;wheat flour;rice flour;wheat;oats;rice;biscuit;cookie;"
    "cereal;cocoa biscuit;soy flour",
    "fruit": "fruit;fruits;puree;juice;juice concentrate;concentrate;raspberry;raspberries;strawberry;strawberries;mango;"
    "passion fruit;passionfruit;apricot;apricots;banana;bananas;lemon;lime;orange;cherry;cherries;blackcurrant;"
    "blackcurrants;blueberry;blueberries;pear;apple;apples;pineapple;peach;fig;figs;dates;raisins;yuzu;guava;lychee",
    "egg": "egg;eggs;egg yolk;egg white;egg yolks;egg whites",
    "alcohol": "alcohol;rum;spirit;kirsch;brandy;whisky;whiskey;liqueur;wine;cognac",
    "water": "water",
    "little": "lecithin;emulsifier;emulsifiers;vanilla;vanillin;vanilla extract;flavour;flavouring;flavor;flavoring;"
    "flavours;flavourings;flavors;natural flavor;natural flavors;salt;sea salt;citric acid;tartaric acid;lactic acid;acid;"
    "acidity regulator;stabiliser;stabilizer;stabilisers;carrageenan;guar gum;locust bean gum;xanthan gum;gellan gum;"
    "thickener;preservative;potassium sorbate;sorbic acid;ascorbic acid;sodium bicarbonate;potassium carbonate;"
    "mono and diglycerides;mono- and diglycerides;polysorbate 80;pgpr;polyglycerol polyricinoleate;colour;color;"
    "annatto;steviol glycosides;stevia;sucralose;sweetener;gelatin;gelatine;cultures;lactic cultures;bacterial cultures;"
    "enzymes;rennet;sulphur dioxide;sulfur dioxide;sulphites;sulfites;metabisulphite;gelling agent;raising agent;baking soda;"
    "baking powder;leavening;humectant;coffee;tea;spice;spices;cinnamon;cardamom;mint;e322;e476;antioxidant;tocopherols;rosemary extract;soy;"
    "soya;sunflower;sodium citrate;sodium phosphate;calcium chloride;yeast;vitamin d;vitamin a;vitamin d3;vitamin a palmitate",
}
_GROUP = {plain_name(word): group for group, words in _WORDS.items() for word in words.split(";")}
_PHRASES = re.compile(
    r"(?<![a-z0-9])(" + "|".join(re.escape(word) for word in sorted(_GROUP, key=len, reverse=True)) + r")s?(?![a-z0-9])"
)
_MAY = re.compile(r"\b(may (also )?contain|traces?|produced in|made in a|manufactured in|packed in)\b.*", re.I | re.S)
_CONTAINS = re.compile(r"(?<=[.;\n\])])\s*contains:?\s+(?!less|\d|one|two)[^.]*\.?", re.I)
_SPLIT = re.compile(r"[,;()\[\]{}:.\n]|\band\b|&")
_HEAD = re.compile(r"^\s*(ingredients?|contains|contains less than|less than)\s*[:\-]?\s*", re.I)
# Words of a list and the allergen each names, by (word, in the US list, in the EU list).
_ALLERGENS = (
    (r"milk|cream|butter(?!nut)|milkfat|butterfat|butteroil|whey|lactose|casein\w*|yogh?urt|ghee", "milk", "milk"),
    (r"soy|soya|soybeans?", "soybeans", "soybeans"),
    (r"eggs?", "egg", "eggs"),
    (r"peanuts?", "peanuts", "peanuts"),
    (r"sesame|tahini", "sesame", "sesame"),
    (r"wheat", "wheat", "cereals containing gluten (wheat)"),
    (r"barley", "", "cereals containing gluten (barley)"),
    (r"oats?", "", "cereals containing gluten (oats)"),
    *(
        (f"{kind}s?", f"tree nuts ({kind}s)", f"nuts ({kind}s)")
        for kind in ("hazelnut", "almond", "pistachio", "walnut", "pecan", "cashew", "macadamia", "brazil nut")
    ),
)
_NO_MILK = re.compile(r"\b(cocoa|cacao|shea|peanut|almond|hazelnut|nut|coconut|mango) (butter|milk|cream)\b")


@dataclass(frozen=True)
class Contents:
    """A list of ingredients as it was understood: the groups of what it names, and the entries nobody here knows.

    given: whether there is a list at all. `holds(group)`: it is named. `may_hold(group)`: it is, or the list leaves it open.

    >>> read_contents("sugar, cocoa butter, whole milk powder, zorks").may_hold("whey")
    True
    """

    groups: frozenset
    unknown: tuple[str, ...]
    given: bool
    allergens_us: tuple[str, ...]
    allergens_eu: tuple[str, ...]

    def holds(self, *groups):
        return any(group in self.groups for group in groups)

    def may_hold(self, *groups):
        return not self.given or bool(self.unknown) or self.holds(*groups)


def read_contents(text):
    """The Contents of a pack's list of ingredients, in English; what it "may contain" is left out. "" is no list.

    >>> found = read_contents("Ingredients: sugar, cocoa mass (48%), butter oil, soya lecithin. May contain nuts.")
    >>> sorted(found.groups), found.allergens_eu
    (['cocoa', 'little', 'milk fat', 'sugar'], ('milk', 'soybeans'))
    """
    groups, unknown = set(), []
    listed = _MAY.sub("", text)
    for entry in _SPLIT.split(listed):
        words = plain_name(_HEAD.sub("", re.sub(r"[\d.,]+\s*%|[\d*†]+(?![a-z0-9])", " ", entry)))
        found = [_GROUP[phrase] for phrase in _PHRASES.findall(words)]
        groups.update(found)
        if not found and re.search(r"[a-z]{3}", words):
            unknown.append(words[:40])
    us, eu = _allergens(plain_name(listed))
    return Contents(frozenset(groups), tuple(unknown), bool(groups or unknown), us, eu)


def parted(text):
    """(the list itself, what it may contain) of a pack's list of ingredients, both without their headings; a line of
    allergens at its end ("Contains: milk.") is no part of the list.

    >>> parted("Ingredients: sugar, cocoa mass. May contain nuts.")
    ('sugar, cocoa mass', 'nuts')
    """
    may = _MAY.search(text)
    said = re.sub(r"^(may (also )?contain|traces?( of)?)\s*[:\-]?\s*", "", may[0], flags=re.I) if may else ""
    listed = re.sub(r"^\s*ingredients?\s*[:\-]?\s*", "", _CONTAINS.sub("", _MAY.sub("", text)), flags=re.I)
    return listed.strip(" .;,\n"), " ".join(said.split()).strip(" .;,")


def _allergens(listed):
    bare = _NO_MILK.sub(lambda found: found[1], listed)
    found = [(us, eu) for pattern, us, eu in _ALLERGENS if re.search(rf"\b({pattern})\b", bare)]
    return tuple(tuple(dict.fromkeys(name for name in names if name)) for names in zip(*found, strict=True)) or ((), ())
