"""One line of a prep list: its amount by the kitchen grammar, its name by the pantry, or the question that is open."""

import re
from dataclasses import replace

from pastrylab.trade.prep_amounts import amounts_in, one_amount, range_in, without_range
from pastrylab.trade.prep_cells import cells_of
from pastrylab.trade.prep_names import VAGUE
from pastrylab.trade.prep_weights import LEAVES, STICKS, Line, Question, from_text, how_much, weighed

LEAVE_OUT = "leave this line out"
# "cream 35 250 g": thousands, or a figure of the name in front of the amount.
_GROUPED = re.compile(r"\d{1,3} (\d{3}\b.*)")
_TOTAL = re.compile(r"\s*(?:sub-?total|total|sum|together|altogether|yields?|makes|serves|batch)\b", re.I)
_HEADING = re.compile(r"(?:for the |step |method\b|ingredients?\b|prep list\b|recipe\b)", re.I)
_COLUMNS = re.compile(
    r"(?:ingredients?|item|name|amount|quantity|qty|weight|mass|grams?|g|unit|note|notes|%|percent)\b", re.I
)
_NOTE = "note:"  # a bracket that begins so holds no amount
_WHOLE = ("mass", "volume")


class Reading:
    """One line on its way from what was typed to a Line. names: a Names; answers, unit: as in `read_list`.

    >>> from pastrylab.trade.prep_names import Names
    >>> Reading("butter; 25 g", Names.in_force(), {}, "").line().grams
    25.0
    """

    def __init__(self, typed, names, answers, unit):
        self.typed, self.names, self.unit = typed, names, unit
        self.key = typed.strip()
        self.chosen = answers.get((self.key, "ingredient"), "").strip()
        self.given = answers.get((self.key, "amount"), "").strip()
        self.text, self.cells, self.brackets = cells_of(typed)
        self.found = [(cell, one) for cell in self.cells for one in amounts_in(cell)]
        self.beside = [one for text in self.brackets if not text.startswith(_NOTE) for one in amounts_in(text)]

    def line(self):
        if LEAVE_OUT in (self.chosen, self.given):
            return Line(self.key, "left out", said="left out, as you said")
        apart = self._no_part()
        if apart:
            return apart
        amount, asks = self._amount()
        name = self._name(amount)
        ingredient = self.names.find(self.chosen) if self.chosen else self._ingredient(name)
        line = Line(self.key, ingredient=ingredient, note=self._note(name, ingredient))
        if not ingredient:
            return replace(line, asks=self._which(self.chosen or name))
        if self.given:
            return from_text(line, self.given)
        return replace(line, asks=asks) if asks else self._weighed(line, amount)

    # --- lines that are no ingredient

    def _no_part(self):
        """A Line for a heading, a total or a step; None for an ingredient."""
        kinds = {one.kind for _, one in self.found} | {one.kind for one in self.beside}
        if _TOTAL.match(self.text) and not self.names.find(self._bare_text()):
            return Line(self.key, "total", grams=next((a.grams for _, a in self.found if a.kind == "mass"), None))
        if "%" not in self.text and len(self.cells) > 1 and not kinds and all(map(_COLUMNS.match, self.cells)):
            return Line(self.key, "heading", said="the heads of columns: nothing to weigh")
        if not kinds & {"mass", "volume", "count", "percent", "bare", "unclear"} and not range_in(self.text):
            if kinds and not self.names.find(self._bare_text()):
                return Line(self.key, "step", said="a step of the work: nothing to weigh")
            return (
                None
                if self._might_be_part()
                else Line(self.key, "heading", said="a heading or a step: nothing to weigh")
            )
        many = len(self.text.split()) > 8 and "other" in kinds and not kinds & set(_WHOLE)
        return Line(self.key, "step", said="a step of the work: nothing to weigh") if many else None

    def _might_be_part(self):
        """Whether a line without any number names something to weigh."""
        if not re.search(r"\w", self.text):
            return False
        if self.names.find(self._bare_text()) or VAGUE.search(self.text):
            return True
        if self.typed.rstrip().endswith(":") or _HEADING.match(self.text):
            return False
        return len(self.text.split()) <= 6 and bool(self.names.held_in(self.text)) and not self.text.isupper()

    def _bare_text(self):
        return VAGUE.sub(" ", self.text).strip(" ,;:")

    # --- how much

    def _amount(self):
        """(the amounts that say how much, a Question or None)."""
        ends = range_in(self.text)
        if ends:
            return [], self._how_much(f"'{self.key}' gives a range: how much do you weigh", ends)
        for kind in _WHOLE:
            here = [one for _, one in self.found if one.kind == kind]
            if here and (kind == "mass" or not self._in_brackets("mass")):
                return self._agreed(here, self._in_brackets(kind))
            if self._in_brackets("mass"):
                return self._agreed(self._in_brackets("mass"), [])
        for where, one in self.found:
            if one.kind == "unclear":
                return [one], self._how_much(
                    f"'{one.text}' in '{self.key}' can be read two ways: which is it", one.choices
                )
            if one.kind == "percent" and one.text == where:
                return [one], None
        return self._counted()

    def _counted(self):
        counted = [one for _, one in self.found if one.kind in ("count", "bare")]
        if self._in_brackets("volume"):
            return self._agreed(self._in_brackets("volume"), [])
        alone = [one for where, one in self.found if one in counted and one.text == where]
        if len(alone) > 1:
            numbers = tuple(f"{one.text} {self.unit or 'g'}" for one in alone if one.kind == "bare")
            return [], self._how_much(f"'{self.key}' has several numbers: how much is it", numbers)
        whole = self.names.find(self.text)
        if whole and not alone:
            counted = []
        behind = [one for one in counted if self.names.find(self._without([one]))]
        chosen = alone or behind or counted
        return ([chosen[0]], None) if chosen else ([], None)

    def _in_brackets(self, kind):
        return [one for one in self.beside if one.kind == kind]

    def _agreed(self, here, beside):
        """One amount of several; those that disagree are asked about."""
        texts = [one.text for one in (*here, *beside)]
        grouped = _GROUPED.fullmatch(texts[0])
        if grouped and not any(cell.startswith(texts[0]) for cell in self.cells):
            choices = (grouped[1], texts[0].replace(" ", "", 1))
            return list(here), self._how_much(
                f"'{texts[0]}' in '{self.key}' can be read two ways: which is it", choices
            )
        if len(texts) == 1 or one_amount(texts):
            return list(here), None
        return list(here), self._how_much(f"'{self.key}' has several amounts: which is it", tuple(texts))

    def _weighed(self, line, amounts):
        """The line with its grams, or with the question that leads to them."""
        if amounts:
            return weighed(line, amounts[0], self.text, self.unit)
        shares = [one.typed.number for _, one in self.found if one.kind == "percent"]
        asked = how_much(line, f"'{self.key}' says no amount: how much {line.ingredient} is it")
        return replace(asked, percent=shares[-1] if shares else None)

    def _how_much(self, sentence, choices=()):
        return Question("amount", f"{sentence}?", tuple(choices))

    # --- of what

    def _without(self, amounts):
        """What of the line is not an amount, its cells apart."""
        rest = []
        for whole in self.cells:
            cell = whole
            for where, one in reversed(self.found):
                if where is whole and one in amounts:
                    cell = f"{cell[: one.start]} ; {cell[one.end :]}"
            rest += [piece.strip(" ,.:~≈") for piece in cell.split(";")]
        rest = [STICKS.sub(" ", piece).strip() for piece in rest]
        return " ; ".join(piece.removeprefix("of ") for piece in rest if re.search(r"\w", piece))

    def _name(self, amounts):
        """What the line names: all of it but the amounts."""
        taken = [one for _, one in self.found if one in amounts or one.kind in _WHOLE]
        if range_in(self.text):
            return without_range(self.text).strip(" ,.:")
        counts = [one for _, one in self.found if one.kind in ("count", "bare")]
        if counts and not self._ingredient(self._without(taken)):
            first = counts[0]  # "3 egg yolks": the unit is the name
            number = re.match(r"[^a-zA-Z]*", first.text).group()
            bare = replace(first, end=first.start + len(number), text=number)
            self.found = [(cell, bare if one is first else one) for cell, one in self.found]
            taken = [one for one in taken if one is not first] + [bare]
        return self._without(taken)

    def _ingredient(self, name):
        pieces = name.split(" ; ")
        shares = [text for text in self.brackets if re.search(r"\d", text) and len(text) < 12 and _NOTE not in text]
        for text in [f"{' '.join(pieces)} {share}" for share in shares] + [" ".join(pieces), *pieces]:
            found = self.names.find(VAGUE.sub(" ", text)) or self.names.find(LEAVES.sub(" ", text))
            if found:
                return found
        # A share at the end may be the amount, in a list that is written in percent.
        alone = all(one.kind == "percent" for _, one in self.found) and not shares and len(pieces) == 1
        return self.names.find(re.sub(r"[\d.,]+ ?%$", "", name)) if alone else ""

    def _which(self, name):
        name = name.replace(" ; ", " ") or self.key
        held = self.names.held_in(name)
        choices = self.names.like(name)
        choices = [*([held] if held else []), *(one for one in choices if one != held)]
        return Question("ingredient", f"Which ingredient is '{name[:60]}'?", tuple(choices))

    def _note(self, name, ingredient):
        """Words of the line that are neither its name nor its amount."""
        notes = [text for text in self.brackets if text.startswith(_NOTE) or not amounts_in(text)]
        notes = [text.removeprefix(_NOTE).strip() for text in notes]
        pieces = [piece.strip() for text in name.split(" ; ") for piece in text.split(",")]
        if len(pieces) > 1 and ingredient and self.names.find(pieces[0]) == ingredient:
            notes = [*pieces[1:], *notes]
        return ", ".join(notes)
