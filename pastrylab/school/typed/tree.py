"""What a typed formula says, as a tree: read by a grammar of its own, so that nothing typed is ever run.

sum    = term, then + term or - term, as often as wanted
term   = part, then * part or / part
part   = - part, or power
power  = thing, or thing ^ whole number from 1 to 6, or thing with ² or ³ behind it
thing  = number with or without a unit, an amount of money, a name, a function with its arguments, ( sum )
"""

import functools

from pastrylab.ground.errors import StudentError
from pastrylab.school.typed.amounts import RAISED, Amounts
from pastrylab.school.typed.functions import FUNCTIONS, named
from pastrylab.school.typed.nodes import Bracket, Call, Joined, Minus, Name, Power
from pastrylab.school.typed.tokens import tidied

_DEEPEST = 12
_HIGHEST_POWER = 6


@functools.lru_cache(maxsize=2048)
def tree(text, names=frozenset()):
    """The Node of a typed formula. names: those of givens and sums, which stand before a unit spelled alike.

    Raises StudentError for what is no formula or can be read two ways.

    >>> type(tree("(couverture + cream) / pieces")).__name__
    'Joined'
    """
    source = tidied(text)
    if not source:
        raise StudentError("an empty cell", "a formula", "(couverture + cream) / pieces")
    reader = _Reader(source, names)
    found = reader.sum()
    if reader.here:
        raise reader.misfit()
    return found


class _Reader(Amounts):
    """Goes through the tokens of one formula, from left to right."""

    def misfit(self):
        """What stands where it cannot: behind a whole piece."""
        token, before = self.here, self.tokens[self.at - 1]
        if token.text == ")":
            return self.refuse(", with a bracket closed that was never opened", "brackets in pairs", "(a + b) / 2")
        if token.text == "(" or token.text in "xX":
            return self.misfit_of(before.text, "(…)" if token.text == "(" else "2")
        if token.kind == "sign":
            return self.refuse(f", where '{token.text}' fits nothing", "a formula", "(a + b) / 2")
        if before.kind == token.kind == "number":
            one = f"{before.text}{token.text}" if len(token.text) == 3 else "1.5 for 1 1/2"
            return self.refuse(f", with two numbers side by side, {before.text} {token.text}", "one number", one)
        return self.refuse(
            f", where a sign is missing between '{before.text}' and '{token.text}'",
            "+ − × or ÷ between two things",
            f"{before.text} × {token.text}",
        )

    def deeper(self):
        self.depth += 1
        if self.depth > _DEEPEST:
            raise self.refuse(", nested too deep", f"at most {_DEEPEST} brackets in each other; use the column 'sums'")

    def sum(self):
        return self._joined("+-", self.term)

    def term(self):
        return self._joined("*/", self.part)

    def _joined(self, signs, read):
        start = self.here.start if self.here else 0
        left = read()
        while self.sees(*signs):
            sign = self.take().text
            right = read()
            left = Joined(self.since(start), sign, left, right)
        return left

    def part(self):
        if self.sees("-"):
            start = self.take().start
            self.deeper()
            of = self.part()
            self.depth -= 1
            if isinstance(of, Power):
                text = self.since(start)
                raise self.refuse(
                    f", where {text} can be read two ways", "brackets", f"-({of.text}) or (-{of.of.text})"
                )
            return Minus(self.since(start), of)
        return self.power()

    def power(self):
        start = self.here.start if self.here else 0
        of = self.thing()
        if self.sees("²", "³"):
            found = Power(self.since(start), of, RAISED[self.take().text])
        elif self.sees("^"):
            self.take()
            found = Power(self.since(start), of, self._exponent())
        else:
            return of
        if self.sees("^", "²", "³"):
            raise self.refuse(", with a power of a power", "one power, or brackets", "(a^2)^2")
        return Power(self.since(start), found.of, found.times)

    def _exponent(self):
        token = self.here
        behind = self.ahead()
        whole = token and token.kind == "number" and token.number.is_integer() and 1 <= token.number <= _HIGHEST_POWER
        if not whole or (behind and behind.kind == "word"):
            raise self.refuse(", with a power that is none", f"a whole number from 1 to {_HIGHEST_POWER}", "side^3")
        return int(self.take().number)

    def thing(self):
        token = self.here
        if token is None:
            raise self.refuse(", which breaks off", "a number or a name behind every sign", "(a + b) / 2")
        if token.kind == "number":
            return self.number()
        if token.kind == "money":
            return self.money()
        if token.kind == "word":
            return self.word()
        if token.text == "(":
            return self.bracket()
        raise self.refuse(f", where '{token.text}' fits nothing", "a number or a name there", "(a + b) / 2")

    def bracket(self):
        start = self.take().start
        self.deeper()
        inside, self.in_call = self.in_call, 0
        of = self.sum()
        self.in_call = inside
        self._close()
        return Bracket(self.since(start), of)

    def _close(self):
        if not self.sees(")"):
            if self.here is None:
                raise self.refuse(", with a bracket left open", "brackets in pairs", "(a + b) / 2")
            raise self.misfit()
        self.take()
        self.depth -= 1

    def word(self):
        first = self.take()
        words = [first.text]
        while self.here and self.here.kind == "word" and len(words) < 4 and self._opens_soon():
            words.append(self.take().text)
        if self.sees("("):
            return self.call(first, words)
        if first.text in self.names or not named(first.text):
            return Name(first.text)
        raise self.refuse(
            f", where {first.text} has no brackets", "what it works on in brackets", f"{first.text}(a; b)"
        )

    def _opens_soon(self):
        """Whether words run on to a bracket: the name of a function in several words."""
        at = self.at
        while at < len(self.tokens) and self.tokens[at].kind == "word":
            at += 1
        return at < len(self.tokens) and self.tokens[at].text == "("

    def call(self, first, words):
        function = named(" ".join(words))
        if not function:
            raise self._no_function(words)
        self.take()
        self.deeper()
        self.in_call += 1
        given = [] if self.sees(")") else [self.sum()]
        while self.sees(";", ","):
            self.take()
            given.append(self.sum())
        self.in_call -= 1
        self._close()
        text = self.since(first.start)
        takes = FUNCTIONS[function]
        if not takes.fewest <= len(given) <= takes.most:
            raise self.refuse(f", with {len(given)} things in the brackets of {function}", takes.says, takes.example)
        return Call(text, function, tuple(given))

    def _no_function(self, words):
        word = " ".join(words)
        if words[-1] in self.names:
            return self.misfit_of(word, "(…)")
        return self.refuse(
            f", and '{word[:30]}' is no function known here",
            "one of " + ", ".join(FUNCTIONS) + "; for times write ×",
            "round up(chocolate / bowl)",
        )
