"""The word that goes into the draw beside a student's number, so that another term and another section differ: term.csv."""

import re
from dataclasses import dataclass

from pastrylab.ground import files
from pastrylab.ground.tables import Column, Table
from pastrylab.ground.units import StudentError
from pastrylab.school.named import section_named, student_named

TERM = Table(columns=(Column("section", required=False), Column("word", required=False)))
NAME = "term.csv"
_EVERYBODY = ("", "everybody", "all")
_WORD = re.compile(r"[^\W_]+(?:[ .-][^\W_]+)*")
_LONGEST = 40


@dataclass(frozen=True)
class Words:
    """The words of a term: by section, "" for everybody whose section has none of its own. The empty one draws nothing in.

    >>> Words({"": "autumn-26", "b": "autumn-26 evening"}).of("A")
    'autumn-26'
    """

    by_section: dict[str, str]

    def of(self, section):
        """The word of a section however it is written, "" for none.

        >>> Words({"b": "evening"}).of("Section B")
        'evening'
        """
        return self.by_section.get(section_named(section), self.by_section.get("", ""))

    @property
    def sections(self):
        """The sections that have a word of their own, in the order of the sheet."""
        return tuple(one for one in self.by_section if one)

    def others(self, section):
        """The words of other sections that nobody of this one draws with: a set.

        >>> Words({"a": "morning", "b": "evening"}).others("A")
        {'evening'}
        """
        return set(self.by_section.values()) - {self.of(section), self.of("")}

    @property
    def given_out(self):
        """Every word that a student of this class can have been asked with, each once."""
        return tuple(dict.fromkeys([self.of(""), *self.by_section.values()]))

    def checked(self, section):
        """A section as it counts. Raises StudentError for one that has no word where only some have.

        >>> Words({"a": "morning", "b": "evening"}).checked(" B ")
        'b'
        """
        named = section_named(section)
        if self.sections and "" not in self.by_section and named not in self.by_section:
            given = f"'{named[:_LONGEST]}' as your section" if named else "no section"
            raise StudentError(given, f"one of {', '.join(self.sections)}: your numbers go by it", self.sections[0])
        return named


def word_named(text, where="the word"):
    """A word as it goes into the draw: lower case, single spaces; letters and digits, a space, hyphen or full stop between.

    Raises StudentError for anything else.

    >>> word_named(" Autumn-26 ")
    'autumn-26'
    """
    word = student_named(text)
    if word and (not _WORD.fullmatch(word) or len(word) > _LONGEST):
        raise StudentError(
            f"{where}: '{word[:_LONGEST]}'",
            f"up to {_LONGEST} letters and digits, with a hyphen, a space or a full stop between them",
            "autumn-26",
        )
    return word


def words():
    """The Words of term.csv in force. Raises StudentError naming row, column and remedy.

    >>> words().of("a section without a word")
    ''
    """
    return words_in(files.load(NAME, TERM))


def words_in(sheet):
    """The Words of a sheet that was read. Raises StudentError for no word, and for a section that has two.

    >>> from pastrylab.ground.tables import read_table
    >>> words_in(read_table("section,word\\n,Autumn-26\\n", TERM)).by_section
    {'': 'autumn-26'}
    """
    found = {}
    for row, cells in sheet.numbered():
        where = f"{NAME}, row {row}"
        named = section_named(cells["section"])
        named = "" if named in _EVERYBODY else named
        word = word_named(cells["word"], f"{where}, column 'word'")
        if named in found:
            raise StudentError(
                f"{where}: {named or 'everybody'} has a word already", "a section once", "delete one of the two rows"
            )
        if word or named:
            found[named] = word
    return Words(found)
