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
from pastrylab.trade.moulds.draining import EXAMPLES, Film, casson_stress, film_by_setting, film_by_yield
from pastrylab.trade.moulds.fill import Piece, piece, piece_by_mass
from pastrylab.trade.moulds.filling_density import Density, density_by_cup, density_of
from pastrylab.trade.moulds.release import MOST_IN_LENGTH, Contraction, Cracks, contraction, cracks, flow
from pastrylab.trade.moulds.shells import Shell, shell, shell_by_weighing, wall_of

__all__ = [
    "Cast",
    "Cavity",
    "Contraction",
    "Cracks",
    "Day",
    "Density",
    "EXAMPLES",
    "Fills",
    "Film",
    "Made",
    "Mould",
    "Need",
    "Piece",
    "MOST_IN_LENGTH",
    "Shell",
    "bar",
    "batch",
    "by_water",
    "by_weighing",
    "casson_stress",
    "cone",
    "contraction",
    "cracks",
    "density_by_cup",
    "density_of",
    "dome",
    "earliest_end",
    "fills",
    "film_by_setting",
    "film_by_yield",
    "flow",
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
