"""The room in a cavity and inside its shell: plain geometry, in mm and mm3, plain floats.

Each solid hangs below an opening that lies level. `room(wall, under)` is what is left inside a shell of one wall
thickness everywhere, deeper than `under` below the rim: the shell's inside is the surface one wall away from the mould's.
Exact for ball, cone and bars; for the tall dome see there. `half_width(depth, wall)` is for a picture in section.
"""

import math
from dataclasses import astuple, dataclass


@dataclass(frozen=True)
class Solid:
    """What all solids can do: grow and shrink in proportion.

    >>> Dome(15.0, 15.0).scaled(2)
    Dome(radius=30.0, depth=30.0)
    """

    def scaled(self, factor):
        """The same shape with every length times `factor`.

        >>> Cone(10.0, 20.0, 0.0).scaled(0.5).depth
        10.0
        """
        return type(self)(*(factor * length for length in astuple(self)))


@dataclass(frozen=True)
class Dome(Solid):
    """Part of a ball, up to half of it: opening of `radius`, `depth` at most the radius.

    >>> f"{Dome(15.0, 15.0).room() / 1000:.2f} mL"
    '7.07 mL'
    """

    radius: float
    depth: float

    @property
    def _ball(self):
        return (self.radius**2 + self.depth**2) / (2 * self.depth)

    @property
    def opening(self):
        return math.pi * self.radius**2

    @property
    def walls(self):
        return math.pi * (self.radius**2 + self.depth**2)

    def room(self, wall=0.0, under=0.0):
        """Room in mm3 inside a shell, below a level.

        >>> round(Dome(15.0, 15.0).room(1.5) / 1000, 3)
        5.153
        """
        ball, height = self._ball - wall, max(self.depth - wall - under, 0.0)
        return math.pi * height**2 * (3 * ball - height) / 3

    def half_width(self, depth, wall=0.0):
        """Half the width in mm at a depth below the rim; 0 below the bottom.

        >>> Dome(15.0, 15.0).half_width(9.0)
        12.0
        """
        below_centre = depth + self._ball - self.depth
        return math.sqrt(max((self._ball - wall) ** 2 - below_centre**2, 0.0))


@dataclass(frozen=True)
class TallDome(Solid):
    """Half a ball drawn out downwards (half an ellipsoid): deeper than the radius of its opening.

    Its inside is taken as half an ellipsoid too, a little larger than the true one: the shell comes out up to 3 % too
    light for walls of a tenth of the radius, at twice the depth of a half ball.

    >>> f"{TallDome(15.0, 20.0).room() / 1000:.2f} mL"
    '9.42 mL'
    """

    radius: float
    depth: float

    @property
    def opening(self):
        return math.pi * self.radius**2

    @property
    def walls(self):
        e = math.sqrt(1 - (self.radius / self.depth) ** 2)
        return math.pi * self.radius**2 * (1 + self.depth / self.radius * math.asin(e) / e) if e else 2 * self.opening

    def room(self, wall=0.0, under=0.0):
        """Room in mm3 inside a shell, below a level.

        >>> round(TallDome(15.0, 20.0).room(1.5) / 1000, 3)
        7.062
        """
        radius, depth = max(self.radius - wall, 0.0), max(self.depth - wall, 0.0)
        if under >= depth:
            return 0.0
        return math.pi * radius**2 * (2 * depth / 3 - under + under**3 / (3 * depth**2))

    def half_width(self, depth, wall=0.0):
        """Half the width in mm at a depth below the rim; 0 below the bottom.

        >>> TallDome(15.0, 20.0).half_width(12.0)
        12.0
        """
        if depth >= self.depth - wall:
            return 0.0
        return (self.radius - wall) * math.sqrt(1 - (depth / (self.depth - wall)) ** 2)


@dataclass(frozen=True)
class Cone(Solid):
    """A cone, pointed or cut off: opening of `radius`, at `depth` a flat bottom of radius `bottom`.

    >>> f"{Cone(15.0, 20.0, 0.0).room() / 1000:.2f} mL"
    '4.71 mL'
    """

    radius: float
    depth: float
    bottom: float

    @property
    def _slope(self):
        return (self.radius - self.bottom) / self.depth

    @property
    def opening(self):
        return math.pi * self.radius**2

    @property
    def walls(self):
        side = math.hypot(self.radius - self.bottom, self.depth)
        return math.pi * ((self.radius + self.bottom) * side + self.bottom**2)

    def _inside(self, wall):
        """(radius at the rim, depth) of what a shell leaves."""
        slope = self._slope
        radius = max(self.radius - wall * math.hypot(1, slope), 0.0)
        return radius, min(max(self.depth - wall, 0.0), radius / slope if slope else math.inf)

    def room(self, wall=0.0, under=0.0):
        """Room in mm3 inside a shell, below a level.

        >>> round(Cone(15.0, 20.0, 0.0).room(1.5) / 1000, 3)
        3.157
        """
        radius, depth = self._inside(wall)
        height = depth - under
        if height <= 0:
            return 0.0
        wide, narrow = radius - self._slope * under, radius - self._slope * depth
        return math.pi * height * (wide**2 + wide * narrow + narrow**2) / 3

    def half_width(self, depth, wall=0.0):
        """Half the width in mm at a depth below the rim; 0 below the bottom.

        >>> Cone(15.0, 20.0, 5.0).half_width(10.0)
        10.0
        """
        radius, bottom = self._inside(wall)
        return radius - self._slope * depth if depth <= bottom else 0.0


@dataclass(frozen=True)
class Bar(Solid):
    """A bar with upright walls, its lower edges and upright corners rounded by `rounding` (0: sharp).

    >>> f"{Bar(40.0, 20.0, 10.0, 0.0).room() / 1000:.2f} mL"
    '8.00 mL'
    """

    length: float
    width: float
    depth: float
    rounding: float

    @property
    def opening(self):
        return self._plan(self.length, self.width, self.rounding)

    @property
    def walls(self):
        r = self.rounding
        length, width, depth = self.length - 2 * r, self.width - 2 * r, self.depth - r
        flat = length * width + 2 * depth * (length + width)
        return flat + math.pi * r * (length + width + 2 * depth) + 2 * math.pi * r**2

    @staticmethod
    def _plan(length, width, r):
        return length * width - (4 - math.pi) * r**2

    def room(self, wall=0.0, under=0.0):
        """Room in mm3 inside a shell, below a level.

        >>> round(Bar(40.0, 20.0, 10.0, 3.0).room(1.5) / 1000, 3)
        5.28
        """
        length, width, depth = self.length - 2 * wall, self.width - 2 * wall, self.depth - wall
        if min(length, width, depth - under) <= 0:
            return 0.0
        r = max(self.rounding - wall, 0.0)
        upright = self._plan(length, width, r) * max(depth - r - under, 0.0)
        return upright + self._rounded(length - 2 * r, width - 2 * r, r, max(under - (depth - r), 0.0))

    @staticmethod
    def _rounded(length, width, r, down):
        """Room in the rounded bottom, from `down` below where the rounding begins: sums of its level slices."""
        if not r:
            return 0.0
        slice_ = math.sqrt(max(r**2 - down**2, 0.0))
        quarter = (r**2 * math.acos(min(down / r, 1.0)) - down * slice_) / 2
        ends = 2 * r**3 / 3 - r**2 * down + down**3 / 3
        return length * width * (r - down) + 2 * (length + width) * quarter + math.pi * ends

    def half_width(self, depth, wall=0.0):
        """Half the width in mm, across the middle, at a depth below the rim; 0 below the bottom.

        >>> Bar(40.0, 20.0, 10.0, 5.0).half_width(9.0)
        8.0
        """
        bottom, r = self.depth - wall, max(self.rounding - wall, 0.0)
        if depth > bottom:
            return 0.0
        down = max(depth - (bottom - r), 0.0)
        return self.width / 2 - wall - r + math.sqrt(max(r**2 - down**2, 0.0))
