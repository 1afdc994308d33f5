"""Numbers in a typed formula, with the units and currencies that stand at them."""

from pastrylab.ground.currencies import CURRENCIES, SYMBOLS
from pastrylab.ground.errors import StudentError
from pastrylab.ground.grammar import unit_named
from pastrylab.ground.numbers import like_thousands
from pastrylab.ground.spellings import SMALL
from pastrylab.school.typed.functions import named
from pastrylab.school.typed.nodes import Number
from pastrylab.school.typed.tokens import tokens

RAISED = {"²": 2, "³": 3}


class Cursor:
    """A place among the tokens of one formula."""

    def __init__(self, source, names):
        self.source, self.names = source, names
        self.tokens, self.at, self.depth, self.in_call = tokens(source), 0, 0, 0

    @property
    def here(self):
        return self.tokens[self.at] if self.at < len(self.tokens) else None

    def ahead(self, by=1):
        return self.tokens[self.at + by] if self.at + by < len(self.tokens) else None

    def sees(self, *signs):
        return self.here is not None and self.here.kind == "sign" and self.here.text in signs

    def take(self):
        self.at += 1
        return self.tokens[self.at - 1]

    def since(self, start):
        """What was typed from a place up to the last token taken."""
        return self.source[start : self.tokens[self.at - 1].end]

    def refuse(self, why, needed, example=""):
        return StudentError(f"'{self.source[:60]}'{why}", needed, example)

    def misfit_of(self, before, behind):
        return self.refuse(f", where a sign is missing behind '{before}'", "× for times", f"{before} × {behind}")


class Amounts(Cursor):
    """Reads a number, or an amount of money, where the cursor stands."""

    def number(self):
        token = self.take()
        if self.in_call and "," in token.text and ";" not in self.source:
            first, _, second = token.text.partition(",")
            raise self.refuse(
                f", where {token.text} can be read two ways",
                f"{first}.{second} for one number, {first}; {second} for two",
                f"min({first}; {second})",
            )
        unit = self._unit_behind(token)
        if unit in SMALL and like_thousands(token.text, "."):
            whole, _, part = token.text.partition(".")
            raise self.refuse(
                f", where {token.text} {unit} can be read two ways",
                f"{whole}{part} {unit} or {float(token.text):g} {unit}",
                f"{whole}{part} {unit}",
            )
        return Number(self.since(token.start), token.number, unit)

    def _unit_behind(self, number):
        """The unit behind a number, as a pint name or a currency's code; "" for none."""
        if not self.here or self.here.kind != "word":
            return ""
        if self.here.text in CURRENCIES:
            return self.take().text
        spelled = self.take().text
        if spelled.casefold() in ("fl", "fluid", "cubic") and self.here and self.here.kind == "word":
            spelled += " " + self.take().text
        unit = self._known(number, spelled)
        if spelled in self.names:
            raise self.refuse(
                f", where '{number.text} {spelled}' can be read two ways",
                f"{number.text} × {spelled} for the given of that name; for the unit another spelling of it",
                f"{number.text} × {spelled}",
            )
        spelled += self._raised(spelled)
        below = self._below()
        return unit_named(f"{spelled}/{below}") if below else unit_named(spelled) if spelled[-1] in RAISED else unit

    def _known(self, number, spelled):
        try:
            return unit_named(spelled)
        except StudentError as error:
            if spelled in self.names or named(spelled):
                raise self.misfit_of(number.text, spelled) from None
            raise self.refuse(f": {error.given}", f"{error.needed}; for times write ×", "15 g") from None

    def _raised(self, spelled):
        """² or ³ written at a unit, which belongs to the unit."""
        if not self.sees("²", "³") or self.here.start != self.tokens[self.at - 1].end:
            return ""
        raised = self.take().text
        try:
            unit_named(spelled + raised)
        except StudentError:
            raise self.refuse(
                f", and '{spelled}{raised}' is no unit known here",
                "a length times a length",
                f"4 {spelled} × 5 {spelled}",
            ) from None
        return raised

    def _below(self):
        """What a number's unit is per, such as "kg" of kJ/kg or "(kg K)"; "" where a / divides by something else."""
        if not self.sees("/"):
            return ""
        first = self.ahead()
        if first and first.kind == "word" and self._only_unit(first.text):
            self.take()
            return self.take().text
        if not first or first.text != "(":
            return ""
        length = next((i for i, token in enumerate(self.tokens[self.at + 2 :]) if token.text == ")"), 0)
        words = [token for token in self.tokens[self.at + 2 : self.at + 2 + length] if token.text != "*"]
        if not words or not all(token.kind == "word" and self._only_unit(token.text) for token in words):
            return ""
        self.at += length + 3
        return f"({' '.join(token.text for token in words)})"

    def _only_unit(self, word):
        if word in self.names:
            return False
        try:
            unit_named(word)
        except StudentError:
            return False
        return True

    def money(self):
        sign = self.take()
        if not self.here or self.here.kind != "number":
            raise self.refuse(f", where no number follows {sign.text}", "an amount of money", f"{sign.text}4.50")
        number = self.take()
        return Number(self.since(sign.start), number.number, SYMBOLS[sign.text])
