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
from pastrylab.trade.moulds.day import Cast, Day, Made, batch, earliest_end, from_bowl, made
from pastrylab.trade.moulds.fill import Piece, piece, piece_by_mass
from pastrylab.trade.moulds.shells import Shell, shell, shell_by_weighing, wall_of

__all__ = [
    "Cavity",
    "Cast",
    "Day",
    "Made",
    "Fills",
    "Mould",
    "Need",
    "Piece",
    "Shell",
    "bar",
    "batch",
    "by_water",
    "by_weighing",
    "cone",
    "dome",
    "earliest_end",
    "fills",
    "from_bowl",
    "hemisphere",
    "made",
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
