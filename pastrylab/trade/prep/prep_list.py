"""A prep list as people write it, line by line: what is clear is read, what is not is a question; nothing is guessed.

"300 g dark couverture 64 %", "3/4 cup heavy cream", "butter; 25 g", columns of a spreadsheet, notes in brackets. A line
is read by line; here stands what the lines are together: a formula, a list in percent, a total that may not agree.
"""

import math
from dataclasses import dataclass, replace

from pastrylab.ground.units import StudentError
from pastrylab.trade.formula import Formula
from pastrylab.trade.prep.cells import cells_of, heads_of
from pastrylab.trade.prep.line import LEAVE_OUT, Reading
from pastrylab.trade.prep.names import Names
from pastrylab.trade.prep.weights import Line, Question, in_grams

__all__ = ["LEAVE_OUT", "Line", "PrepList", "Question", "read_formula", "read_list"]

MOST_LINES, LONGEST_LINE = 80, 200
_FATS = 10, 50  # percent of fat that a cream may be called by
_ROUNDED = 1.5  # percent: ten figures rounded to whole ones add up to 100 within that, nearly always


@dataclass(frozen=True)
class PrepList:
    """The lines of a list. unit_asked: whether numbers stand without a unit; total_asked: why the mass of the whole is
    needed, where the amounts are percentages, else "".

    >>> read_list("honey: 40 g").open
    0
    """

    lines: tuple[Line, ...]
    unit_asked: bool = False
    total_asked: str = ""

    @property
    def parts(self):
        """The lines that are ingredients."""
        return tuple(line for line in self.lines if line.kind == "part")

    @property
    def open(self):
        """How many questions are open."""
        return sum(line.asks is not None for line in self.lines) + bool(self.total_asked)

    @property
    def formula(self):
        """The Formula, or None while something is asked, or without a part that weighs anything.

        >>> read_list("2 oz butter\\nHoney, 40 g\\n10 g honey").formula
        Formula({'butter unsalted': '56.7 g', 'honey': '50 g'})
        """
        parts = self.parts
        if self.open or not any(line.grams for line in parts):
            return None
        grams = {}
        for line in parts:
            grams[line.ingredient] = grams.get(line.ingredient, 0.0) + line.grams
        return Formula.of_grams(grams)


def read_list(text, answers=None, unit="", total=None):
    """A PrepList of a text, a line an ingredient, in whatever order name and amount stand.

    answers: {(line as typed, "ingredient" or "amount"): text}, LEAVE_OUT among them; unit: what numbers without one are
    in, or ""; total: the mass of the whole in g, a plain float, for a list in percent. A household measure is weighed by
    its density, a count by the mass of a piece where one is known. Raises StudentError for a text that is too long.

    >>> for line in read_list("Ganache\\n300 g dark couverture 64 %\\nbutter; 25 g\\n200 ml cream").lines:
    ...     print(line.kind, line.ingredient, line.grams and round(line.grams))
    heading  None
    part dark couverture 64 % 300
    part butter unsalted 25
    part heavy cream 36 % 201
    """
    typed = [line for line in text.splitlines() if line.strip()]
    if len(typed) > MOST_LINES or any(len(line) > LONGEST_LINE for line in typed):
        needed = f"at most {MOST_LINES} lines of {LONGEST_LINE} letters: the ingredients without the method"
        raise StudentError("a very long list", needed, "heavy cream 36 %: 200 g")
    names, answers = Names.in_force(), answers or {}
    heads = next(filter(None, (heads_of(*cells_of(line)[1:]) for line in typed)), None)
    lines = [Reading(line, names, answers, unit, heads).line() for line in typed]
    asked = not unit and any(line.asks and line.asks.about == "unit" for line in lines)
    lines = [_ask_for_amount(line) if line.asks and line.asks.about == "unit" else line for line in lines]
    lines, total_asked = _by_percent(lines, total, lambda line: _doubtful_cream(line, names, answers))
    return PrepList(tuple(_with_total(lines)), asked, total_asked)


def read_formula(text):
    """The Formula of a prep list that leaves nothing open. Raises StudentError with the first thing it would have to ask.

    >>> read_formula("honey: 40 g\\n2 oz butter\\nhoney: 10 g").grams
    {'honey': 50.0, 'butter unsalted': 56.69...}
    """
    made = read_list(text)
    asked = next((line for line in made.lines if line.asks), None)
    if asked:
        needed = asked.asks.sentence.rstrip("?") + (
            f" ({', '.join(asked.asks.choices[:4])})?" if asked.asks.choices else "?"
        )
        raise StudentError(f"the line '{asked.typed[:60]}'", needed.rstrip("?"), "heavy cream 36 %: 200 g")
    if made.formula is None:
        given = "a list in percent" if made.total_asked else "a list without anything to weigh"
        raise StudentError(given, "an ingredient a line, with its mass", "heavy cream 36 %: 200 g")
    return made.formula


def _ask_for_amount(line):
    return replace(line, asks=replace(line.asks, about="amount"))


def _doubtful_cream(line, names, answers):
    """Whether the one percentage of a line may be the fat of a cream as well as its share of the whole."""
    cream = names.families.get(line.ingredient) == "cream" and line.asks and (line.typed, "ingredient") not in answers
    return bool(cream) and _FATS[0] <= line.percent <= _FATS[1]


def _by_percent(lines, total, doubtful):
    """A list whose amounts are percentages, weighed by its total; (lines, why the total is asked or "").

    doubtful: whether the percentage of a line may belong to its name.
    """
    parts = [line for line in lines if line.kind == "part"]
    if not parts or any(line.percent is None for line in parts):
        return [_share_asked(line) for line in lines], ""
    whole = math.fsum(line.percent for line in parts)
    full = abs(whole - 100) <= _ROUNDED or any(line.percent == 100 for line in parts)
    if not whole > 0 or not full and all(line.asks for line in parts):  # "cream 35 %" is a name
        return [_share_asked(line) for line in lines], ""
    mine = next((line.grams for line in lines if line.kind == "total" and line.grams), None)
    total = total or mine
    odd = "" if full else ", not to 100: each is taken as a share of that sum"
    said = f"The list is in percent and adds up to {whole:.4g} %{odd}. What is the whole to weigh?"
    names = Names.in_force()
    lines = [_of_a_share(line, doubtful(line), names) if line in parts else line for line in lines]
    if not total or any(line.asks for line in lines):
        return lines, "" if total or any(line.asks for line in lines) else said
    done = []
    for line in lines:
        if line.kind == "part":
            grams = total * line.percent / whole
            said = f"{line.percent:g} of {whole:.4g} parts of {in_grams(total)}"
            line = replace(line, grams=grams, said=said, asks=None)
        done.append(line)
    return done, ""


def _of_a_share(line, doubtful, names):
    """A line whose percentage is its amount, without a question for that; which cream it is may be one."""
    if line.asks and line.asks.about == "ingredient":
        return line
    if not doubtful:
        return replace(line, asks=None)
    sentence = f"In a list in percent the {line.percent:g} % of '{line.typed}' is its share. Which cream is it?"
    return replace(line, asks=Question("ingredient", sentence, tuple(names.like(line.typed))))


def _share_asked(line):
    """A percentage among masses: of what it is one, nobody knows."""
    if line.kind != "part" or line.percent is None or line.asks or line.grams is not None:
        return line
    sentence = f"'{line.typed}' is a percentage among masses: how much {line.ingredient} is it?"
    return replace(line, asks=Question("amount", sentence))


def _with_total(lines):
    """Total lines compared with what the lines above them add up to."""
    done, held = [], [line.grams for line in lines if line.kind == "part"]
    for line in lines:
        if line.kind == "total":
            said = "a total or a yield: not an ingredient"
            if line.grams and held and None not in held:
                sum_of = math.fsum(held)
                agrees = abs(sum_of - line.grams) <= max(1.0, 0.005 * sum_of)
                said = f"a total, as the lines add up ({in_grams(sum_of)})"
                said = (
                    said if agrees else f"a total, but the lines add up to {in_grams(sum_of)}: look for the difference"
                )
            line = replace(line, said=said)
        done.append(line)
    return done
