"""A formula as a file that any spreadsheet opens: a row an ingredient, with its amount, its unit and a note."""

import csv
import io

from pastrylab.ground.kitchen import BEGINS_A_SUM
from pastrylab.ground.tables import Column, Table, read_table
from pastrylab.ground.units import StudentError

FORMULA_FILE = Table(
    columns=(
        Column("ingredient"),
        Column("amount", "number", low=0),
        Column("unit", required=False),
        Column("note", required=False),
    )
)


def as_csv(formula, notes=None):
    """A Formula as CSV text, in grams. notes: {ingredient: words}.

    >>> from pastrylab import Formula
    >>> print(as_csv(Formula({"heavy cream": "200 g", "butter": "25 g"}), {"butter unsalted": "soft"}), end="")
    ingredient,amount,unit,note
    heavy cream 36 %,200,g,
    butter unsalted,25,g,soft
    """
    out = io.StringIO()
    write = csv.writer(out, lineterminator="\n").writerow
    write([column.name for column in FORMULA_FILE.columns])
    for name, grams in formula.grams.items():
        note = (notes or {}).get(name, "").lstrip("".join(BEGINS_A_SUM) + " \t")
        write([name, f"{grams:.7g}", "g", note])
    return out.getvalue()


def as_lines(formula, notes=None):
    """A Formula as a prep list in the names of ingredients.csv, as `read_list` reads it. notes: {ingredient: words}.

    >>> from pastrylab import Formula
    >>> as_lines(Formula({"heavy cream": "200 g", "butter": "25 g"}), {"butter unsalted": "soft"})
    'heavy cream 36 %: 200 g\\nbutter unsalted: 25 g (note: soft)'
    """
    notes = notes or {}
    return "\n".join(_line(name, f"{grams:.7g} g", notes.get(name, "")) for name, grams in formula.grams.items())


def lines_of(source):
    """The prep list in a file that was kept, or made in a spreadsheet: text. source: text or bytes.

    A file with the columns ingredient, amount, unit, note is checked as every table is; any other text is a prep list as
    it stands. Raises StudentError naming the row at fault.

    >>> lines_of("ingredient;amount;unit\\nheavy cream;0,75;cup\\n")
    'heavy cream: 0.75 cup'
    """
    text = source if isinstance(source, str) else _decoded(source)
    head = {cell.strip(' "').casefold() for line in text.strip("\ufeff \r\n").splitlines()[:1] for cell in _cells(line)}
    if not {"ingredient", "amount"} <= head:
        return text.strip("\ufeff\r\n")
    rows = read_table(text, FORMULA_FILE, "the formula")
    return "\n".join(
        _line(row["ingredient"], f"{row['amount']:.7g} {row['unit']}".strip(), row["note"]) for row in rows
    )


def _line(name, amount, note):
    note = " ".join(note.translate(str.maketrans("()[]", "    ")).split())
    return f"{name}: {amount}" + (f" (note: {note})" if note else "")


def _cells(line):
    return max((line.split(mark) for mark in ",;\t"), key=len)


def _decoded(raw):
    if len(raw) > 100_000:
        raise StudentError(f"a file of {len(raw)} bytes", "a prep list, or a formula saved as CSV", "CSV UTF-8")
    for encoding in ("utf-16",) if raw[:2] in (b"\xff\xfe", b"\xfe\xff") else ("utf-8-sig", "cp1252"):
        try:
            text = raw.decode(encoding)
        except UnicodeDecodeError:
            continue
        if "\0" not in text:
            return text
    raise StudentError("a file that is not text", "a prep list, or a formula saved as CSV", "CSV UTF-8")
