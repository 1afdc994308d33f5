"""Cavities, shells, fillings: geometry against numerical integration, weighings by hand, what is refused."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.spatial import cKDTree

from pastrylab import moulds
from pastrylab.ground.units import Q, StudentError
from pastrylab.trade.moulds import solids

# (solid, its profile as points (radius, depth) from the rim to the bottom): written down here, not asked of the solid.
_ANGLES = np.linspace(0, math.pi / 2, 1001)
ROUND = {
    "half ball": (solids.Dome(15, 15), (15 * np.cos(_ANGLES), 15 * np.sin(_ANGLES))),
    "flat dome": (
        solids.Dome(15, 10),  # part of a ball of radius 16.25, its middle 6.25 above the rim
        (lambda a: (16.25 * np.cos(a), 16.25 * np.sin(a) - 6.25))(
            np.linspace(math.asin(6.25 / 16.25), math.pi / 2, 1001)
        ),
    ),
    "tall dome": (solids.TallDome(15, 22), (15 * np.cos(_ANGLES), 22 * np.sin(_ANGLES))),
    "pointed cone": (solids.Cone(15, 20, 0), (np.linspace(15, 0, 1001), np.linspace(0, 20, 1001))),
    "cut cone": (
        solids.Cone(15, 12, 9),
        (
            np.concatenate([np.linspace(15, 9, 800), np.linspace(9, 0, 800)]),
            np.concatenate([np.linspace(0, 12, 800), np.full(800, 12.0)]),
        ),
    ),
}


def room_by_slices(profile, wall, under, step=0.1):
    """Room inside a shell, by rings on a grid: all that lies within the profile and at least a wall away from it."""
    radii, depths = profile
    grid_r, grid_z = np.meshgrid(np.arange(step / 2, 16, step), np.arange(step / 2, 23, step))
    edge = np.interp(grid_z, depths, radii, right=0.0)
    far, _ = cKDTree(np.column_stack([radii, depths])).query(np.column_stack([grid_r.ravel(), grid_z.ravel()]))
    inside = (grid_r < edge) & (far.reshape(grid_r.shape) >= wall) & (grid_z >= under)
    return float((2 * math.pi * grid_r * inside).sum() * step**2)


@pytest.mark.parametrize("name", ROUND)
@pytest.mark.parametrize(("wall", "under"), [(0, 0), (1.5, 0), (1.5, 2), (3, 4)])
def test_a_round_solid_has_the_room_that_rings_add_up_to(name, wall, under):
    solid, profile = ROUND[name]
    loose = 0.02 if name == "tall dome" and wall else 0.01  # said in its docstring
    assert solid.room(wall, under) == pytest.approx(room_by_slices(profile, wall, under), rel=loose)


def test_the_shell_of_a_tall_dome_is_at_most_three_per_cent_off():
    solid, profile = solids.TallDome(15, 30), (15 * np.cos(_ANGLES), 30 * np.sin(_ANGLES))
    full = 2 / 3 * math.pi * 15**2 * 30
    # Steiner's formula for what lies within a convex body a wall t away: V - S t + M t^2 - 4/3 pi t^3, S and M integrated.
    a, c, t = 15.0, 30.0, 1.5
    area = (
        2
        * math.pi
        * quad(lambda u: a * math.cos(u) * math.hypot(a * math.sin(u), c * math.cos(u)), -math.pi / 2, math.pi / 2)[0]
    )
    support = (
        2
        * math.pi
        * quad(lambda u: math.hypot(a * math.cos(u), c * math.sin(u)) * math.cos(u), -math.pi / 2, math.pi / 2)[0]
    )
    inside = (2 * full - area * t + support * t**2 - 4 / 3 * math.pi * t**3) / 2
    assert profile[1].max() == 30
    assert (full - solid.room(t)) == pytest.approx(full - inside, rel=0.03)
    assert full - solid.room(t) < full - inside


@pytest.mark.parametrize(
    ("bar", "wall", "under"),
    [
        (solids.Bar(40, 20, 10, 0), 1.5, 2),
        (solids.Bar(40, 20, 10, 3), 0, 0),
        (solids.Bar(40, 20, 10, 3), 1.5, 2),
        (solids.Bar(40, 20, 10, 3), 1.5, 7.5),
        (solids.Bar(40, 20, 10, 3), 4, 1),
        (solids.Bar(20, 20, 10, 10), 2, 1),
    ],
)
def test_a_bar_has_the_room_its_level_slices_add_up_to(bar, wall, under):
    length, width, depth = bar.length - 2 * wall, bar.width - 2 * wall, bar.depth - wall
    r = max(bar.rounding - wall, 0)

    def slice_(at):
        """Plan of the room at a depth: a rectangle with round corners, drawn in where the bottom rounds."""
        down = max(at - (depth - r), 0)
        corner = math.sqrt(max(r**2 - down**2, 0))
        long, wide = length - 2 * (r - corner), width - 2 * (r - corner)
        return long * wide - (4 - math.pi) * corner**2

    summed = quad(slice_, under, depth, points=[max(depth - r, under)], limit=200)[0]
    assert bar.room(wall, under) == pytest.approx(summed, rel=1e-6)


SOLIDS = [solid for solid, _profile in ROUND.values()] + [solids.Bar(40, 20, 10, 0), solids.Bar(40, 20, 10, 3)]


@pytest.mark.parametrize("solid", SOLIDS, ids=str)
def test_a_thin_wall_weighs_its_area(solid):
    thin = 1e-4
    loose = 0.01 if isinstance(solid, solids.TallDome) else 1e-3
    assert (solid.room() - solid.room(thin)) / thin == pytest.approx(solid.walls, rel=loose)
    assert (solid.room() - solid.room(0, thin)) / thin == pytest.approx(solid.opening, rel=1e-3)


@pytest.mark.parametrize("solid", SOLIDS[:5], ids=str)
@pytest.mark.parametrize("wall", [0, 1.5])
def test_the_picture_in_section_is_the_solid(solid, wall):
    turned = quad(lambda z: math.pi * solid.half_width(z, wall) ** 2, 0, solid.depth, limit=400)[0]
    assert turned == pytest.approx(solid.room(wall), rel=1e-4)
    assert solid.half_width(solid.depth + 1) == 0


def test_what_reference_and_hand_say(outside):
    source = "plain geometry, by hand"
    ball = moulds.hemisphere("30 mm")
    outside(quantity="half ball of 30 mm, mL", expected=7.07, got=ball.ml, tolerance=0.005, source=source)
    shell = moulds.shell(ball, "1.5 mm")
    outside(quantity="its shell of 1.5 mm, g", expected=2.433, got=shell.grams, tolerance=0.002, source=source)
    disc = moulds.piece(ball, "1.5 mm", "2 mm").cap_g  # as a flat disc 1.454 g; the ball is narrower 2 mm down
    outside(quantity="its cap of 2 mm, g", expected=1.45, got=disc, tolerance=0.015, source=source)
    cone = moulds.cone("30 mm", "20 mm").ml  # 3.1416 x 15 x 15 x 20 / 3
    outside(quantity="cone of 30 by 20 mm, mL", expected=4.712, got=cone, tolerance=0.001, source=source)
    water = moulds.by_water("760 g", "958 g", 28).ml  # 198 / 28 / 0.9982
    outside(quantity="28 cavities of 198 g of water, mL", expected=7.084, got=water, tolerance=0.001, source=source)


def test_the_errors_are_those_of_rule_and_scale():
    assert moulds.hemisphere("30 mm").error == pytest.approx((30.5**3 - 30**3) / 30**3)
    assert moulds.bar("40 mm", "20 mm", "10 mm", "1 mm").error == pytest.approx((41 * 21 * 11 - 8000) / 8000)
    assert moulds.cone("30 mm", "20 mm").error == pytest.approx((30.5**2 * 20.5 - 30**2 * 20) / (30**2 * 20))
    assert moulds.dome("30 mm", "20 mm").error == pytest.approx((30.5**2 * 20.5 - 30**2 * 20) / (30**2 * 20))
    level = 0.25 * math.pi * 15**2 / 7068.6  # a quarter of a millimetre over the opening of a half ball
    like = moulds.hemisphere("30 mm")
    by_water = moulds.by_water("760 g", Q(760 + 28 * 7.0686 * 0.9982, "g"), 28, like, "2 g")
    assert by_water.error == pytest.approx(4 / (28 * 7.0686 * 0.9982) + level, rel=1e-3)
    assert moulds.surest(like, by_water) is by_water
    rounded = moulds.rounded_bar("40 mm", "20 mm", "10 mm", "3 mm")
    assert rounded.error > moulds.bar("40 mm", "20 mm", "10 mm").error


def test_a_cavity_measured_by_water_keeps_the_shape_of_the_rule_and_the_volume_of_the_water():
    like = moulds.dome("30 mm", "12 mm")
    found = moulds.by_water("500 g", "620 g", 24, like)
    assert found.solid.room() / 1000 == pytest.approx(found.ml) == pytest.approx(120 / 24 / 0.9982)
    assert found.solid.depth / found.solid.radius == pytest.approx(12 / 15)


def test_the_error_of_a_shell_is_that_of_its_area_and_of_the_density():
    ball = moulds.hemisphere("30 mm")  # 5.08 % of the volume, two thirds of it of the area; 0.03 of 1.27 g/mL
    assert moulds.shell(ball, "1.5 mm").error == pytest.approx(0.0508 * 2 / 3 + 0.03 / 1.27, abs=1e-4)
    assert moulds.wall_of(ball, moulds.shell(ball, "1.5 mm", "1.2 g/mL").mass, "1.2 g/mL").m_as("mm") == pytest.approx(
        1.5
    )


def test_a_little_room_is_filled_and_a_beaten_filling_is_light():
    little = moulds.piece_by_mass("3.3 mL", "2.4 g", "1.4 g", "0.2 g/mL")  # 3.3 - 3.8 / 1.27 = 0.308 mL
    assert little.filling_g == pytest.approx(0.0616, abs=1e-4)
    assert moulds.piece_by_mass("7 mL", "2.4 g", "1.4 g", "2 g/mL").filling_g == pytest.approx(8.016, abs=0.001)
    for density in ("0.19 g/mL", "2.1 g/mL"):
        with pytest.raises(StudentError):
            moulds.piece_by_mass("7 mL", "2.4 g", "1.4 g", density)


def test_a_shell_that_does_not_fit_is_told_one_that_would():
    with pytest.raises(StudentError) as told:
        moulds.wall_of(moulds.hemisphere("30 mm"), "32 g")
    assert "which holds 8.98 g" in told.value.given
    assert told.value.example == "3 g"  # a third of the cavity, full


def test_weighed_shells():
    found = moulds.shell_by_weighing("760 g", "828.1 g", 28, moulds.hemisphere("30 mm"))
    assert found.grams == pytest.approx(68.1 / 28)
    assert found.ml == pytest.approx(68.1 / 28 / 1.27)
    assert found.wall_mm == pytest.approx(1.5, abs=0.01)  # 2.433 g is a wall of 1.5 mm
    assert found.error == pytest.approx(2 / 68.1)
    one = moulds.shell_by_weighing("0 g", "2.4 g", 1, scale="0.1 g")
    assert (one.grams, one.wall_mm, one.wall) == (2.4, None, None)
    assert one.error == pytest.approx(0.1 / 2.4)


@given(
    st.sampled_from(
        [moulds.hemisphere("30 mm"), moulds.dome("32 mm", "11 mm"), moulds.cone("28 mm", "20 mm", "10 mm")]
    ),
    st.floats(0.3, 3),
    st.floats(0.3, 3),
    st.floats(0.8, 1.4),
)
def test_shell_filling_and_cap_are_the_cavity(cavity, wall, headspace, density):
    one = moulds.piece(cavity, Q(wall, "mm"), Q(headspace, "mm"), Q(density, "g/mL"))
    assert one.shell_ml + one.filling_ml + one.cap_ml == pytest.approx(cavity.ml)
    assert one.filling_g == pytest.approx(one.filling_ml * density)
    assert one.chocolate.m_as("g") == pytest.approx(1.27 * (cavity.ml - one.filling_ml))
    assert moulds.wall_of(cavity, one.shell).m_as("mm") == pytest.approx(wall, abs=1e-6)
    weighed = moulds.piece_by_mass(cavity.volume, one.shell, one.cap, Q(density, "g/mL"))
    assert weighed.filling_g == pytest.approx(one.filling_g)


_BALL = moulds.hemisphere("30 mm")
_FREE = moulds.by_water("760 g", "958 g", 28)


@pytest.mark.parametrize(
    "call",
    [
        lambda: moulds.hemisphere("30"),
        lambda: moulds.hemisphere("0 mm"),
        lambda: moulds.hemisphere("0.8 mm"),
        lambda: moulds.hemisphere("10 mm", "5 mm"),
        lambda: moulds.hemisphere("19 mm", "5 mm"),  # 24 x 24 x 24 is more than twice 19 x 19 x 19
        lambda: moulds.hemisphere("30 g"),
        lambda: moulds.hemisphere("300.5 mm"),
        lambda: moulds.dome("30 mm", "-5 mm"),
        lambda: moulds.cone("30 mm", "20 mm", "31 mm"),
        lambda: moulds.rounded_bar("40 mm", "20 mm", "10 mm", "11 mm"),
        lambda: moulds.by_water("760 g", "760 g", 28),
        lambda: moulds.by_water("760 g", "762.1 g", 28),  # 2 of 2.1 g, and the water's level
        lambda: moulds.by_water("958 g", "760 g", 28),
        lambda: moulds.by_water("760 g", "958 g", 27.5),
        lambda: moulds.by_water("760 g", "958 g", 0),
        lambda: moulds.by_water("760 g", "958 g", 28, _FREE),
        lambda: moulds.by_weighing("760 g", "958 g", 28, "1270 g/mL"),
        lambda: moulds.shell(_BALL, "15 mm"),
        lambda: moulds.shell(_FREE, "1.5 mm"),
        lambda: moulds.shell_by_weighing("760 g", "761 g", 28),
        lambda: moulds.shell_by_weighing("0 g", "828 g", 28, _BALL),
        lambda: moulds.piece(_BALL, "1.5 mm", "14 mm"),
        lambda: moulds.piece_by_mass("3 mL", "2.4 g", "1.45 g"),
        lambda: moulds.surest(),
        lambda: moulds.surest(7.07),
        lambda: moulds.shell("half ball", "1.5 mm"),
        lambda: moulds.wall_of(7.07, "2.4 g"),
        lambda: moulds.by_water("760 g", "958 g", 28, "half ball"),
        lambda: moulds.shell_by_weighing("760 g", "828 g", 28, "half ball"),
    ],
)
def test_refused(call):
    with pytest.raises(StudentError):
        call()


@pytest.mark.parametrize(
    ("call", "ml"),
    [
        (lambda: moulds.hemisphere("3 cm"), 7.069),
        (lambda: moulds.hemisphere("1 1/4 in"), 8.379),  # 31.75 mm
        (lambda: moulds.dome("30 mm", "15 mm"), 7.069),
        (lambda: moulds.cone("30 mm", "10 mm", "30 mm"), 7.069),  # a cylinder
        (lambda: moulds.rounded_bar("20 mm", "20 mm", "10 mm", "10 mm"), 2.094),  # a half ball
        (lambda: moulds.by_water("1 lb", "1.5 lb", 24), 9.467),
        (lambda: moulds.by_water("760 g", "958 g", "28"), 7.084),
        (lambda: moulds.by_weighing("760 g", "1010 g", 28, "1250 kg/m3"), 7.143),
        (lambda: moulds.hemisphere("30 mm", rule="0 mm"), 7.069),
        (lambda: moulds.hemisphere("20 mm", rule="5 mm"), 2.094),  # 25 x 25 x 25 is less than twice 20 x 20 x 20
        (lambda: moulds.bar("40 mm", "20 mm", "5 mm", "2.4 mm"), 4.0),  # the depth is little above twice the rule
        (lambda: moulds.hemisphere("0.9 cm", rule="0.1 mm"), 0.191),
        (lambda: moulds.hemisphere("0.9 mm", rule="0 mm"), 0.0),
        (lambda: moulds.hemisphere("300 mm"), 7068.583),
        (lambda: moulds.bar("4 cm", "20 mm", "1 cm"), 8.0),
    ],
)
def test_taken(call, ml):
    assert call().ml == pytest.approx(ml, abs=0.001)


def test_a_large_cavity_is_written_out():
    assert str(moulds.hemisphere("200 mm")) == "2094 mL, 2079 to 2110 mL (half ball)"
    # 500.9 mL; 2 g of 500 g, and a quarter of a millimetre over the 121 cm2 of a half ball as large: 1.0 %
    assert str(moulds.by_water("1 kg", "1.5 kg", 1)) == "501 mL, 496 to 506 mL (free form, by water)"


@pytest.mark.parametrize(
    ("depth", "wall", "half"),
    [
        (0, 0, 10),
        (6, 0, 10),  # where the rounding begins
        (8, 0, 6 + math.sqrt(12)),  # a circle of 4 mm, 2 mm down: 16 - 4
        (10, 0, 6),
        (10.1, 0, 0),
        (6, 1, 9),
        (8, 1, 6 + math.sqrt(5)),  # now of 3 mm, 2 mm down
        (9, 1, 6),
        (9.1, 1, 0),
        (5.9, 4, 6),  # the shell is as thick as the rounding: sharp inside
    ],
)
def test_a_rounded_bar_in_section(depth, wall, half):
    assert solids.Bar(40, 20, 10, 4).half_width(depth, wall) == pytest.approx(half)


@pytest.mark.parametrize("solid", [*SOLIDS, solids.Bar(40, 4, 10, 0), solids.Bar(4, 40, 10, 1)], ids=str)
def test_a_wall_that_meets_itself_leaves_no_room(solid):
    assert solid.room(1.9) > 0
    assert solid.room(1.9, solid.depth) == 0
    assert solid.room(25) == 0
    narrow = isinstance(solid, solids.Bar) and min(solid.length, solid.width) == 4
    assert (solid.room(2.5) == 0) == narrow


def test_a_sharp_bar_in_section_is_upright_to_its_bottom():
    assert solids.Bar(40, 20, 10, 0).half_width(10) == 10
    assert solids.Bar(40, 20, 10, 0).half_width(9, 1) == 9
