"""The bench on which one's own bowl is measured: a log of it left alone becomes its halving time, for the bench that holds."""

import weakref

import ipywidgets as widgets

from pastrylab import logs as probelog
from pastrylab.ground.units import StudentError
from pastrylab.logs.halving import own_halving
from pastrylab.page.boxes import field
from pastrylab.page.halving_log import HalvingFit, HalvingLog

_HOLDING = weakref.WeakSet()  # the benches of this kernel that a halving time can be put into
_JOBS = {job.vessel: job for job in (probelog.CHOCOLATE, probelog.CREAM)}
_LEGEND = (
    "Blue dots: the readings used. White dots: those left out, before the warmest, after it was touched, or close to the "
    "room. Line: the fall fitted to them. Yellow: where it can run with every error. Dashed: the room. Ring: half the way "
    "to the room; straight below it, the halving time."
)
_SAMPLES = {  # invented for the Larkmoor Teaching Kitchen
    "a bowl of 2 kg, left alone": {
        "text": "min, degC\n0, 46.3\n4, 44.5\n8, 42.9\n12, 41.3\n16, 39.9\n20, 38.5\n24, 37.3\n28, 36.2\n32, 35.1\n36, 34.1\n",
        "room": "21 °C",
        "until": "",
    },
    "a bowl that got its seed on the way": {
        "text": "time, degF\n9:00, 116\n9:05, 112\n9:10, 109\n9:15, 106\n9:20, 103\n9:25, 95\n9:30, 91\n9:35, 90\n",
        "room": "70 °F",
        "until": "",
    },
}


def hears_halving(bench):
    """A bench with the controls `halving` and `room`, into which a measured halving time can be put from now on."""
    _HOLDING.add(bench)
    return bench


class HalvingBench(HalvingLog):
    """A log of one's own bowl or pan, left alone to cool: its halving time with every error, or that none can be told."""

    also_kept = ("vessel", *HalvingLog.also_kept)

    def __init__(self):
        self.vessel = widgets.Dropdown(
            options=[("a bowl of chocolate", "bowl"), ("a pan of cream", "pan")], description="It is", **field()
        )
        figure = HalvingFit("A bowl left alone in its room", "fall fitted")
        use = "Use it on the bench", "Put it into the bench that holds a bowl"
        example = "time, temperature\n9:05, 113 F\n9:10, 109 F"
        super().__init__(figure, probelog.CHOCOLATE, _SAMPLES, _LEGEND, example, use, (self.vessel,))

    def measure(self, log, room, error, until):
        """The halving time of what cools."""
        return own_halving(log, room, error, until)

    def bring(self, sample):
        """Room and time alone of a sample, which is a bowl's."""
        self.vessel.value = "bowl"
        super().bring(sample)

    def refresh(self):
        """What a log can be goes by the vessel."""
        self.job = _JOBS[self.vessel.value]
        super().refresh()

    def hand_on(self, found):
        """The short end goes onto the bench: a bowl is looked at too early rather than too late."""
        low, room = found.low.m_as("min"), found.curves[0][2]
        if not _HOLDING:
            raise StudentError(
                "a bench that has not been run", "the bench that holds a bowl, further up", "run its cell"
            )
        for bench in _HOLDING:
            bench.numbers["room"].put(room)
            bench.numbers["halving"].put(low)
        return (
            f"The bench that holds a bowl has it now: {low:.3g} minutes, the short end, so that you look at the bowl too early "
            "rather than too late."
        )


def halving_bench():
    """Your own bowl's halving time, from a log of it left alone."""
    return HalvingBench()
