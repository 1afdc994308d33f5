"""pastrylab: the numbers behind the chocolate bench, checked in a workbook of lessons."""

from pastrylab.formula import Formula
from pastrylab.units import Q, StudentError

__all__ = ["Formula", "Q", "StudentError"]
