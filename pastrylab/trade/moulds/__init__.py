"""Moulded pieces: what a cavity holds, its shell, filling and cap, fills for an order, and the chocolate in the bowl."""

from pastrylab.trade.moulds.bowl import Fills, Mould, Need, fills, mould, need
from pastrylab.trade.moulds.cavities import (
    Cavity,
    bar,
    by_water,
    by_weighing,
    cone,
    dome,
    hemisphere,
    rounded_bar,
    surest,
)
from pastrylab.trade.moulds.fill import Piece, piece, piece_by_mass
from pastrylab.trade.moulds.shells import Shell, shell, shell_by_weighing, wall_of

__all__ = [
    "Cavity",
    "Fills",
    "Mould",
    "Need",
    "Piece",
    "Shell",
    "bar",
    "by_water",
    "by_weighing",
    "cone",
    "dome",
    "fills",
    "hemisphere",
    "mould",
    "need",
    "piece",
    "piece_by_mass",
    "rounded_bar",
    "shell",
    "shell_by_weighing",
    "surest",
    "wall_of",
]
