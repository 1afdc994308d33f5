"""The bench on which one's own cold tray is measured: a log of it, wrapped and left alone, becomes its halving time."""

import weakref

from pastrylab.ground.units import StudentError
from pastrylab.logs.halving import own_warming
from pastrylab.logs.jobs import TRAY
from pastrylab.page.halving_log import HalvingFit, HalvingLog

_WAITING = weakref.WeakSet()  # the benches of this kernel that a tray's halving time can be put into
_LEGEND = (
    "Blue dots: the readings used. White dots: those left out, before the coldest, after it was touched, or close to the "
    "room. Line: the rise fitted to them. Yellow: where it can run with every error. Dashed: the room. Ring: half the way "
    "to the room; straight below it, the halving time."
)
_SAMPLES = {  # invented for the Larkmoor Teaching Kitchen
    "a tray of bars, wrapped and left alone": {
        "text": "min, degC\n0, 5.0\n5, 7.4\n10, 9.3\n15, 11.1\n20, 12.5\n25, 13.7\n30, 14.9\n35, 15.7\n40, 16.5\n45, 17.2\n",
        "room": "21 °C",
        "until": "",
    },
    "a tray somebody unwrapped on the way": {
        "text": "time, degF\n9:00, 41\n9:05, 46\n9:10, 49\n9:15, 53\n9:20, 56\n9:25, 61\n9:30, 64\n9:35, 66\n9:40, 67\n",
        "room": "70 °F",
        "until": "",
    },
}


def hears_tray(bench):
    """A bench with the controls `halving` and `air`, into which a measured halving time can be put from now on."""
    _WAITING.add(bench)
    return bench


class TrayLogBench(HalvingLog):
    """A log of one's own cold tray, wrapped: its halving time with every error, or that none can be told."""

    beside = "tray"

    def __init__(self):
        figure = HalvingFit("A cold tray left alone in its room", "rise fitted", "lower right")
        use = "Use it on the bench", "Put it into the bench of the tray out of the cold"
        example = "time, temperature\n9:05, 41 F\n9:10, 46 F"
        super().__init__(figure, TRAY, _SAMPLES, _LEGEND, example, use)

    def measure(self, log, room, error, until):
        """The halving time of what warms."""
        return own_warming(log, room, error, until)

    def hand_on(self, found):
        """The long end goes onto the bench: a tray is unwrapped too late rather than too early."""
        high, room = found.high.m_as("min"), found.curves[0][2]
        if not _WAITING:
            raise StudentError(
                "a bench that has not been run", "the bench of the tray out of the cold, further up", "run its cell"
            )
        for bench in _WAITING:
            for name, number in (("halving", high), ("air", room)):
                control = bench.numbers[name].control
                control.read(f"{number:.4f} {control.unit}", "metric")  # a StudentError beyond its ends
            bench.numbers["air"].put(room)
            bench.numbers["halving"].put(high)
        return (
            f"The bench of the tray has it now: {high:.3g} minutes, the long end, so that the film comes off too late rather "
            "than too early."
        )
