"""Air pressure at an altitude: the standard atmosphere."""

from pastrylab.ground.units import In, takes

ALTITUDE = In("m", at_least=-450, at_most=5000, example="500 m")


@takes(returns="hPa", altitude=ALTITUDE)
def pressure_at(altitude):
    """Air pressure at an altitude in the standard atmosphere. altitude: -450 to 5000 m. Returns hPa.

    Source: US Standard Atmosphere 1976, closed form 1013.25 (1 - 2.25577e-5 h)^5.25588. Weather moves the
    real pressure by some 3 %. Raises StudentError outside the range.

    >>> f"{pressure_at('1609 m').m_as('hPa'):.0f}"
    '834'
    """
    return 1013.25 * (1.0 - 2.25577e-5 * altitude) ** 5.25588
