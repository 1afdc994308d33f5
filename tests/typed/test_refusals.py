"""What no formula may hold is refused in a sentence that helps, and nothing typed is run on the way."""

import ast
import random
import re
from pathlib import Path

import pytest
from depth import depth
from typed_kitchen import KITCHEN

from pastrylab.ground.units import StudentError
from pastrylab.school import typed
from pastrylab.school.typed.functions import FUNCTIONS
from pastrylab.school.typed.reckon import reckoned
from pastrylab.school.typed.written import in_numbers

HOSTILE = {
    # Python
    "__import__('os').system('true')": "' has no meaning",
    "couverture.__class__.__mro__": r"'\.' has no meaning",
    "lambda: 1": "': *' has no meaning|':' has no meaning",
    "[x for x in (1)]": "round brackets",
    'f"{couverture}"': "has no meaning",
    "{couverture}": "without its braces",
    "couverture if pieces else cream": "a sign is missing between 'couverture' and 'if'",
    "exec(pieces)": "'exec' is no function known here",
    "eval (pieces)": "'eval' is no function known here",
    "print(1)": "no function known here",
    "couverture == cream": "a formula alone",
    "pieces := 3": "for a division write ÷",
    "not pieces": "a sign is missing",
    "pieces // 2": "'/' fits nothing",
    "pieces % 2": "a sign is missing between 'pieces' and '%'",
    "True": "which is no given of this exercise",
    "__builtins__": "which is no given of this exercise",
    "couverture[0]": "round brackets",
    "a\nb": "a sign is missing",
    "#NAME?": "without = in front",
    "couverture * (1 ? share)": "- for minus",
    # too much
    "9**9**9": "a whole number from 1 to 6",
    "9^9^2": "a whole number from 1 to 6",
    "((9^6)^6)^6": "beyond all kitchens",
    "pieces^99": "a whole number from 1 to 6",
    "pieces^0.5": "a whole number from 1 to 6",
    "pieces^-1": "a whole number from 1 to 6",
    "pieces^2^2": "a power of a power",
    "1e400": "no unit known here",
    "9" * 30: "a very large number",
    "(" * 200 + "1" + ")" * 200: "at most 300",
    "(" * 40 + "1" + ")" * 40: "nested too deep",
    "-" * 40 + "1": "nested too deep",
    "+".join("1" * 140): "at most 120",
    "1+" * 200 + "1": "at most 300",
    # look-alikes, and names that are none
    "сream / 2": "another alphabet",  # noqa: RUF001
    "сouverture × 2": "another alphabet",  # noqa: RUF001
    "creme / 2": "'creme', which is no given of this exercise",
    "answer / 2": "which is no given of this exercise",
    "min": "what it works on in brackets",
    # two ways
    "1,250 × 2": "1250 or 1.250",
    "1.250 g": "1250 g or 1.25 g",
    "min(3,5)": "can be read two ways",
    "-side^2": "can be read two ways",
    "hot − 20 °C": "20 Δ°C for a step down",
    "2 boxes": "2 × boxes",
    "1 1/2 × cream": "two numbers side by side",
    # broken
    "(couverture": "left open",
    "couverture)": "never opened",
    "couverture +": "breaks off",
    "× couverture": "fits nothing",
    "2 couverture": "× for times",
    "2 (couverture)": "× for times",
    "pieces x 2": "× for times",
    "10 000 g": "10000",
    "": "a formula",
    "()": "fits nothing",
    "min(pieces)": "two amounts or more",
    "min()": "two amounts or more",
    "round up(couverture)": "with no step to go to",
    "round up(couverture; 0 g)": "a step above 0",
    "dew point()": "a room's temperature and its humidity",
    "sin(pieces)": "one of min, max, round up",
    # kinds that do not go together
    "couverture + 5": "a mass .* a plain number",
    "couverture + 5 mL": "a mass .* a volume",
    "couverture + wait": "a mass .* a time",
    "pieces + wait": "a plain number .* a time",
    "price + 2": "money .* a plain number",
    "price + 2 g": "money .* a mass",
    "price − 25 %": "what the share is a share of",
    "price + €5": "one currency",
    "price × price": "money × money",
    "price²": "a power of money",
    "price / pack": "4.50 per kg",
    "price / pack + $2": "money per kg",
    "price / pack × wait": "money per kg × a time",
    "couverture − 25 %": "what the share is a share of|a mass .* a share",
    "hot × 2": "a difference of two readings",
    "hot + hot × 1": "a difference of two readings",
    "hot + cold": "a difference of two readings",
    "−hot": "a difference of two readings",
    "hot²": "a difference of two readings",
    "couverture / hot": "a difference of two readings",
    "min(couverture; wait)": "a mass beside a time",
    "min(hot; fall)": "beside",
    "max(price; 5)": "beside",
    "5 cm²": "no unit known",
    "couverture / 0": "division by nothing",
    "1 / (pieces − 40)": "division by nothing",
    "price / (pieces − 40)": "division by nothing",
    "$": "no number follows",
    "5 potatoes": "no unit known here",
    "seed mass(2 kg; 20 °C; 45 °C; 32 °C)": "the seed coldest",
    "purchase(360 g; 0 %)": "above 0|yield",
    "dew point(couverture; 55 %)": "temperature",
    "price for(couverture; 30 %)": "with a mass in its brackets",
    "price for($2; hot)": "with a temperature in its brackets",
    "purchase(price; 72 %)": "with money in its brackets",
    "purchase(price / pack; 72 %)": "with money per kg in its brackets",
    "break even($100; $4; $6)": "break even",
}


def test_nothing_typed_could_be_run():
    """The modules that read a formula name nothing that runs text."""
    room = Path(typed.__file__).parent
    names = {
        node.id
        for path in room.glob("*.py")
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Name)
    }
    assert "StudentError" in names and not names & {"eval", "exec", "compile", "__import__"}


@pytest.mark.parametrize("text", HOSTILE, ids=range(len(HOSTILE)))
def test_what_no_formula_may_hold_is_refused_in_a_sentence(text):
    with pytest.raises(StudentError, match=HOSTILE[text]) as refused:
        reckoned(text, KITCHEN)
    said = str(refused.value)
    assert said.startswith("You gave ") and "Needed: " in said and len(said) < 500
    assert "Quantity(" not in said and "delta_" not in said and "Traceback" not in said


TYPED = ["2", "15 g", "3 °C", "90 °F", "5 Δ°C", "25 %", "$2", "1.6 kJ/(kg K)", "3 cm", "2 h", "0", "1 L", "30 pieces"]


def well_formed(dice, depth):
    """A formula that can be read, of kinds that mostly do not go together."""
    if depth == 0:
        return dice.choice([*vars(KITCHEN), *TYPED])
    way = dice.random()
    if way < 0.75:
        return f"({well_formed(dice, depth - 1)} {dice.choice('+-*/')} {well_formed(dice, depth - 1)})"
    name = dice.choice(list(FUNCTIONS))
    many = dice.randint(FUNCTIONS[name].fewest, min(FUNCTIONS[name].most, 5))
    return f"{name}({'; '.join(well_formed(dice, depth - 1) for _ in range(many))})"


def test_whatever_is_typed_comes_out_or_is_refused_in_a_cooks_words():
    for seed in range(depth(600, 20_000)):
        dice = random.Random(seed)
        text = well_formed(dice, dice.randint(1, 3))
        try:
            reckoned(text, KITCHEN)
            in_numbers(text, KITCHEN)
        except StudentError as refused:
            said = str(refused)
            assert not re.search(r"Quantity\(|Money\(|Rate\(|delta_|degree_| \*\* |dimensionless", said), (text, said)
