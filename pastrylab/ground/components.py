"""What an ingredient is made of: the names of its components, and whether a row of them adds up."""

from pastrylab.ground.errors import StudentError

COMPONENTS = (
    *("water", "fat", "protein", "sucrose", "glucose", "fructose", "lactose", "maltose"),
    *("higher_saccharides", "polyols", "starch", "fibre", "ash", "alcohol", "other"),
)
PARTS_OF_FAT = ("milk_fat", "cocoa_butter")


def composition_faults(sheet):
    """(row, StudentError) for each ingredient whose components do not add up, or whose fat is less than its parts.

    sheet: as read_table gives it for INGREDIENTS, in g in 100 g. Yields them in the order of the rows; raises none.

    >>> from pastrylab.ground.datasets import INGREDIENTS, load
    >>> list(composition_faults(load("ingredients.csv", INGREDIENTS)))
    []
    """
    for number, row in sheet.numbered():
        total, parts = sum(row[c] for c in COMPONENTS), sum(row[c] for c in PARTS_OF_FAT)
        where = f"ingredients.csv, row {number}, {row['ingredient']}"
        if abs(total - 100) > (1.0001 if row["closes_reason"] else 0.1001):
            yield number, StudentError(f"{where}: components that add up to {total:g} g", "100 g", "other: the rest")
        if parts > row["fat"] + 0.01:
            yield number, StudentError(f"{where}: {parts:g} g of milk fat and cocoa butter", "at most its fat", "0")
