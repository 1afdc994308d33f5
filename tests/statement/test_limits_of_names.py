"""Every limit of every reserved name: at it the name is met, a hundredth beyond it is not, and across it nobody knows."""

import pytest

from pastrylab.trade.statement import reserved
from pastrylab.trade.statement.reserved import reserved_names

US, EU, CODEX = "21 CFR 163", "Directive 2000/36/EC", "Codex"
NAMED = {"dark": "dark couverture 64 %", "milk": "milk couverture 38 %", "white": "white couverture 32 %"}
# Well within every limit, and no water, so that dry matter is the whole.
GENEROUS = {
    "dark": {"cocoa solids": 70, "cocoa butter": 40, "fat-free cocoa": 30, "liquor": 66, "milk solids": 0},
    "milk": {"cocoa solids": 45, "fat-free cocoa": 10, "liquor": 22, "milk solids": 25, "milk fat": 7, "total fat": 40},
    "white": {"cocoa solids": 30, "cocoa butter": 30, "milk solids": 25, "milk fat": 7, "sugar": 45},
}
# kind, name, law, part, limit, whether it is a least ("+"), a most ("-") or "less than" ("<"); the texts as in reserved
LIMITS = [
    ("dark", "sweet chocolate", US, "liquor", 15, "+"),
    ("dark", "sweet chocolate", US, "milk solids", 12, "<"),
    ("dark", "semisweet or bittersweet chocolate", US, "liquor", 35, "+"),
    ("dark", "semisweet or bittersweet chocolate", US, "milk solids", 12, "<"),
    ("milk", "milk chocolate", US, "liquor", 10, "+"),
    ("milk", "milk chocolate", US, "milk fat", 3.39, "+"),
    ("milk", "milk chocolate", US, "milk solids", 12, "+"),
    ("white", "white chocolate", US, "cocoa butter", 20, "+"),
    ("white", "white chocolate", US, "milk fat", 3.5, "+"),
    ("white", "white chocolate", US, "milk solids", 14, "+"),
    ("white", "white chocolate", US, "sugar", 55, "-"),
    ("dark", "chocolate", EU, "cocoa solids", 35, "+"),
    ("dark", "chocolate", EU, "cocoa butter", 18, "+"),
    ("dark", "chocolate", EU, "fat-free cocoa", 14, "+"),
    ("dark", "couverture chocolate", EU, "cocoa solids", 35, "+"),
    ("dark", "couverture chocolate", EU, "cocoa butter", 31, "+"),
    ("dark", "couverture chocolate", EU, "fat-free cocoa", 2.5, "+"),
    ("milk", "milk chocolate", EU, "cocoa solids", 25, "+"),
    ("milk", "milk chocolate", EU, "fat-free cocoa", 2.5, "+"),
    ("milk", "milk chocolate", EU, "milk solids", 14, "+"),
    ("milk", "milk chocolate", EU, "milk fat", 3.5, "+"),
    ("milk", "milk chocolate", EU, "total fat", 25, "+"),
    ("milk", "family milk chocolate", EU, "cocoa solids", 20, "+"),
    ("milk", "family milk chocolate", EU, "fat-free cocoa", 2.5, "+"),
    ("milk", "family milk chocolate", EU, "milk solids", 20, "+"),
    ("milk", "family milk chocolate", EU, "milk fat", 5, "+"),
    ("milk", "family milk chocolate", EU, "total fat", 25, "+"),
    ("white", "white chocolate", EU, "cocoa butter", 20, "+"),
    ("white", "white chocolate", EU, "milk solids", 14, "+"),
    ("white", "white chocolate", EU, "milk fat", 3.5, "+"),
    ("dark", "chocolate", CODEX, "cocoa solids", 35, "+"),
    ("dark", "chocolate", CODEX, "cocoa butter", 18, "+"),
    ("dark", "chocolate", CODEX, "fat-free cocoa", 14, "+"),
    ("white", "white chocolate", CODEX, "cocoa butter", 20, "+"),
    ("white", "white chocolate", CODEX, "milk solids", 14, "+"),
]


@pytest.fixture
def judged(monkeypatch):
    """The verdict on a chocolate of which all is plenty but what is given: {part: grams or (low, high)}."""

    def verdict(kind, name, law, **given):
        parts = {part: (float(grams), float(grams)) for part, grams in GENEROUS[kind].items()} | {"water": (0.0, 0.0)}
        for part, ends in given.items():
            parts[part.replace("_", " ").replace("fat free", "fat-free")] = (
                ends if isinstance(ends, tuple) else (ends, ends)
            )
        monkeypatch.setattr(reserved, "inside", lambda _name: parts)
        (found,) = [one for one in reserved_names(NAMED[kind]) if one.name == name and one.law.startswith(law)]
        return found.met

    return verdict


@pytest.mark.parametrize(("kind", "name", "law", "part", "limit", "sort"), LIMITS)
def test_at_its_limit_and_a_hundredth_beyond(judged, outside, kind, name, law, part, limit, sort):
    beyond = -0.01 if sort == "+" else 0.01
    key = part.replace(" ", "_").replace("-", "_")
    at, past, across = (
        judged(kind, name, law, **{key: ends}) for ends in (limit, limit + beyond, (limit - 0.01, limit + 0.01))
    )
    outside(
        quantity=f"{name}, {law}: {part} {limit} %",
        expected=(sort != "<", False, None),
        got=(at, past, across),
        tolerance="exact",
        source=f"{law}, as read: see reserved",
    )
    if sort == "<":
        assert judged(kind, name, law, **{key: limit - 0.01}) is True


def test_the_table_above_knows_every_name():
    known = {(name, law) for _, name, law, *_ in LIMITS}
    there = {(one.name, one.law) for name in NAMED.values() for one in reserved_names(name)}
    there.remove(("milk chocolate", "Codex standard 87-1981"))  # from memory: decides nothing
    assert all(any(law.startswith(start) and name == called for called, start in known) for name, law in there)
    assert len(there) == len(known)


@pytest.mark.parametrize(("fat", "expected"), [(3.5, True), (3.49, None), (2.5, None), (2.49, False)])
def test_codex_lets_an_authority_choose_the_milk_fat_of_white_chocolate(judged, fat, expected):
    assert judged("white", "white chocolate", CODEX, milk_fat=fat) is expected


def test_codex_counts_on_dry_matter(judged):
    """34.9 g in 100 g are 35.6 % of what 2 g of water leave, and 35.25 % of what 1 g leaves; the US counts on the whole."""
    assert judged("dark", "chocolate", CODEX, cocoa_solids=34.9, water=(1.0, 2.0)) is True
    assert judged("dark", "chocolate", EU, cocoa_solids=34.9, water=(1.0, 2.0)) is False
    assert judged("dark", "chocolate", CODEX, cocoa_solids=34.6, water=(1.0, 2.0)) is None  # 34.95 to 35.31
    assert judged("dark", "chocolate", CODEX, cocoa_solids=34.2, water=(1.0, 2.0)) is False  # at most 34.9


def test_one_limit_that_is_missed_decides_and_one_that_is_open_leaves_it_open(judged):
    assert judged("milk", "milk chocolate", US, liquor=(9.0, 11.0), milk_fat=3.0) is False
    assert judged("milk", "milk chocolate", US, liquor=(9.0, 11.0)) is None


@pytest.mark.parametrize("solids", [0.0, 25.0, 45.0])
def test_what_is_from_memory_decides_nothing(judged, solids):
    assert judged("milk", "milk chocolate", CODEX, cocoa_solids=solids) is None
