"""The rows of a sheet that was read, with the numbers and letters by which a spreadsheet knows them."""

from dataclasses import dataclass, replace
from itertools import compress


@dataclass(frozen=True, eq=False)
class Sheet:
    """A sheet in the order of its file: `rows` as {column: value}, `numbers` of the spreadsheet's rows, `letters` by column;
    both are empty where the rows come of several files.

    A number that may be empty and is so is NaN, a word "". It is shared by all who ask: nobody writes to it.

    >>> packs = Sheet(("item", "price"), ({"item": "butter", "price": 4.5}, {"item": "salt", "price": 1.0}), (2, 3))
    >>> packs["item"], len(packs)
    (['butter', 'salt'], 2)
    """

    columns: tuple[str, ...]
    rows: tuple[dict, ...] = ()
    numbers: tuple[int, ...] = ()
    letters: dict[str, str] | None = None

    def __len__(self):
        return len(self.rows)

    def __iter__(self):
        return iter(self.rows)

    def __getitem__(self, column):
        if column not in self.columns:
            raise KeyError(column)
        return [row[column] for row in self.rows]

    def numbered(self):
        """(the spreadsheet's number, row) of each row.

        >>> list(Sheet(("item",), ({"item": "butter"},), (2,)).numbered())
        [(2, {'item': 'butter'})]
        """
        return zip(self.numbers, self.rows, strict=True)

    def where(self, **cells):
        """The Sheet of those rows alone that hold these cells.

        >>> Sheet(("item",), ({"item": "butter"}, {"item": "salt"}), (2, 3)).where(item="salt").numbers
        (3,)
        """
        return self.only(all(row[column] == cell for column, cell in cells.items()) for row in self.rows)

    def only(self, kept):
        """The Sheet of those rows alone for which `kept`, one for each row, is true.

        >>> Sheet(("item",), ({"item": "butter"}, {"item": "salt"}), (2, 3)).only([True, False])["item"]
        ['butter']
        """
        kept = list(kept)
        return replace(self, rows=tuple(compress(self.rows, kept)), numbers=tuple(compress(self.numbers, kept)))

    def by(self, *columns):
        """{cell: its row}, or {(cell, cell ...): its row} of several columns; of rows alike the last.

        >>> Sheet(("item", "price"), ({"item": "butter", "price": 4.5},), (2,)).by("item")["butter"]["price"]
        4.5
        """
        if len(columns) == 1:
            return {row[columns[0]]: row for row in self.rows}
        return {tuple(row[column] for column in columns): row for row in self.rows}
