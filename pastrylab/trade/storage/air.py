"""The air of a store room: its dew point, and how humid the same air is at another temperature.

Air that is cooled or warmed keeps its water; what changes is how much it could hold. So the humidity at a cold surface is
the vapour that is there over what saturates air at the surface's own temperature. Altitude does not come into it: the
vapour alone decides, not the pressure of the whole air.
"""

import functools

from pastrylab.ground.units import Reading, Share, takes
from pastrylab.trade.storage.moist_air import moist_air

AIR = Reading(at_least=-40, at_most=60, example="22 degC")
SURFACE = Reading(at_least=-40, at_most=60, example="10 degC")
HUMIDITY = Share(at_least=0.01, example='0.55 or "55 %"')  # drier, no hygrometer of a kitchen tells
LIMIT = Share(at_least=0.3, example='0.78 or "78 %"')
_HOTTEST = 120.0  # degC, where the search for a dew point begins


@takes(returns="hPa", temperature=AIR)
def vapour_pressure(temperature, humidity=1.0):
    """Pressure of the water in air: at saturation, or at a share of it. temperature: reading, -40 to 60 degC.

    humidity: relative, a share. Returns hPa; below 0 degC, over ice. Source: ASHRAE Fundamentals 2017, chapter 1, equations
    5 and 6, by psychrolib. Raises StudentError outside the range.

    >>> f"{vapour_pressure('20 degC').m_as('hPa'):.2f}"
    '23.39'
    """
    share = HUMIDITY.floats("humidity", humidity)
    return share * moist_air().GetSatVapPres(temperature) / 100.0


@takes(returns="degC", air=AIR, humidity=HUMIDITY)
def dew_point(air, humidity):
    """The temperature at which the water in this air begins to settle. air: reading, -40 to 60 degC; humidity: relative, a
    share (0.55 or "55 %", 1 to 100 %).

    Returns degC; below 0 it is where frost begins. Source: ASHRAE Fundamentals 2017, by psychrolib; the Magnus formulas in
    use agree to 0.03 degC from 18 to 25 degC and 40 to 70 %. It is no limit for chocolate: sugar draws water before a
    surface is wet. Raises StudentError.

    >>> f"{dew_point('22 degC', '55 %').m_as('degC'):.1f}"
    '12.6'
    """
    return moist_air().GetTDewPointFromRelHum(air, humidity)


@takes(surface=SURFACE, air=AIR, humidity=HUMIDITY)
def surface_humidity(surface, air, humidity):
    """Relative humidity of the air that lies on a surface of another temperature: a plain float.

    surface, air: readings, -40 to 60 degC; humidity: of the air, a share (0.55 or "55 %"). Above 1 there is more water
    than the air can hold there: it settles as dew, below 0 degC as frost; there what is held is held over ice. Source: ASHRAE Fundamentals 2017, by psychrolib.
    Raises StudentError.

    >>> f"{surface_humidity('15 degC', '22 degC', '55 %'):.2f}"  # a tray from a cool cellar in a summer kitchen
    '0.85'
    """
    library = moist_air()
    return humidity * (library.GetSatVapPres(air) / library.GetSatVapPres(surface))


@takes(air=AIR, humidity=HUMIDITY, to=AIR)
def carried(air, humidity, to):
    """Relative humidity of a room's air once it is brought to another temperature, as a share of at most 1.

    air: what it is now; to: what it becomes, as an open window in summer brings warm air into a cool store. Nothing is
    added and nothing taken away; what the colder air cannot hold settles. As surface_humidity. Raises StudentError.

    >>> f"{carried('30 degC', '50 %', '18 degC'):.2f}", f"{carried('30 degC', '50 %', '25 degC'):.2f}"
    ('1.00', '0.67')
    """
    return min(1.0, surface_humidity.floats(to, air, humidity))


@takes(returns="degC", air=AIR, humidity=HUMIDITY, limit=LIMIT)
def coldest_surface(air, humidity, limit):
    """How cold a surface may be in this air and still have less than `limit` of humidity on it, in degC.

    air: reading, -40 to 60 degC; humidity: of the air; limit: 0.3 to 1; both shares. It is the dew point of air that holds 1 / limit
    as much water; warmer than the air itself where the air is more humid than the limit. Source: ASHRAE Fundamentals 2017,
    by psychrolib. Raises StudentError.

    >>> f"{coldest_surface('22 degC', '55 %', '78 %').m_as('degC'):.1f}"  # milk chocolate: 4 degrees above the dew point
    '16.4'
    """
    library = moist_air()
    return library.GetTDewPointFromVapPres(_HOTTEST, humidity * library.GetSatVapPres(air) / limit)


@functools.cache
def saturation_table(low=0, high=30, step=1):
    """What saturates air, to the tenth a pencil needs: ((degC, hPa), ...). low, high, step: whole degrees, -40 to 60.

    Source: ASHRAE Fundamentals 2017, chapter 1, equations 5 and 6, by psychrolib. Raises StudentError.

    >>> saturation_table(10, 20, 5)
    ((10, 12.3), (15, 17.1), (20, 23.4))
    """
    return tuple(
        (degrees, round(vapour_pressure.floats(AIR.limited("low", degrees)), 1))
        for degrees in range(low, high + 1, step)
    )
