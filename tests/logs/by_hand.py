"""Logs made by hand, each with what is true of it and why. Nothing here calls the package.

Minutes and degC on straight lines through the points unless a log gives its readings one by one. `truth`: "sound" (the
temperatures and the seed were those of temper), "unsound" (temper cannot be there), "unknowable" (the log does not
show it). Limits: form V of dark chocolate melts at 33.8 degC (Wille & Lutton 1966), temper is lost above 34.0
(Greweling 2007); milk and white lower, 32.5 (common practice, no source). Cream: FDA Food Code 3-501.14(A).
"""

from dataclasses import dataclass, field

import numpy as np

SEEDED, MACHINE, SOFT, REWARMED, SLAB = (
    "seeded in the bowl",
    "seeded machine",
    "drops softened",
    "cooled and rewarmed",
    "worked on a slab",
)


@dataclass(frozen=True)
class Made:
    """A bowl's log: name, truth, reason, (minute, degC) points, what is told with it."""

    name: str
    truth: str
    why: str
    points: tuple
    kind: str = "dark"
    method: str = SEEDED
    seeded_at: float | None = None
    error: float = 0.5
    step: float = 1.0
    notes: dict = field(default_factory=dict)
    cut: tuple = ()  # (from, to) minutes that are missing
    wobble: float = 0.0  # degC by which readings are moved up and down in turn
    exact: bool = False  # the points are the readings
    uncatchable: str = ""  # why no reader could know

    def readings(self):
        """(minutes, degC, notes) of the sheet."""
        if self.exact:
            minutes, degrees = (np.array(x, float) for x in zip(*self.points, strict=True))
        else:
            minutes = np.arange(0, self.points[-1][0] + self.step / 2, self.step)
            degrees = np.interp(minutes, *zip(*self.points, strict=True))
            moved = np.array([0, 1, -1, 1, 0, -1, 1, -1])[np.arange(len(minutes)) % 8]
            degrees = np.round(degrees + self.wobble * moved, 2)
        for start, end in self.cut:
            keep = (minutes <= start) | (minutes >= end)
            minutes, degrees = minutes[keep], degrees[keep]
        notes = [self.notes.get(float(m), "") for m in minutes]
        return minutes, degrees, notes


def newton(start, room, halving, last, step=1.0, begin=0.0):
    """Points of a vessel left alone: its excess over the room halves every `halving` minutes."""
    return tuple(
        (begin + t, room + (start - room) * 2 ** (-t / halving)) for t in np.arange(0, last - begin + step / 2, step)
    )


UP = ((0, 22), (12, 46), (15, 46))
DOWN = (*UP, (18, 40), (23, 34.5), (28, 32.2), (34, 31.6))
HOLD = (*DOWN, (90, 31.6))
SEED = {"notes": {15.0: "seed in"}}
MILK = ((0, 22), (12, 45), (15, 45), (20, 35), (26, 31.2), (34, 30.4))
WHITE = ((0, 22), (12, 44), (15, 44), (20, 34), (27, 29.2), (34, 28.6))
DIPPED = (*UP, (25, 34), (33, 28.4), (39, 28.4), (45, 31.5))
SLABBED = (*UP, (22, 44), (23, 36), (24, 32.4), (26, 31.7), (70, 31.6))


def held(before, top, minutes, back=31.6, climb=2.0, after=20.0):
    """The points of a bowl that is warmed to `top`, stays, and comes back."""
    t = before[-1][0] + 10
    level = before[-1][1]
    return (
        *before,
        (t, level),
        (t + climb, top),
        (t + climb + minutes, top),
        (t + 2 * climb + minutes, back),
        (t + 2 * climb + minutes + after, back),
    )


def made(name, truth, why, points, **more):
    return Made(name, truth, why, tuple(points), **more)


SOUND = [
    made("seeded, noted, held", "sound", "46, seed, 31.6 for an hour", HOLD, wobble=0.1, **SEED),
    made("seeded, the time told", "sound", "as before, told by hand", HOLD, seeded_at=15, wobble=0.1),
    made("seeded, neither told nor noted, but it shows", "sound", "13 K in 10 min, and rests", HOLD, wobble=0.1),
    made("a flat line drawn by hand", "sound", "a tidy hand writes 31.6 again and again", HOLD, **SEED),
    made("seed in three portions", "sound", "the last counts",
         (*UP, (18, 41), (21, 40.5), (24, 36.5), (27, 36), (31, 32), (36, 31.5), (80, 31.6)), wobble=0.1,
         notes={15.0: "seed, first third", 21.0: "seed, second third", 27.0: "last of the seed in"}),
    made("at 32.4 all the time", "sound", "90.4 °F is still sound in practice", (*DOWN[:-1], (34, 32.4), (90, 32.4)), **SEED),
    made("32.8 for ten minutes", "sound", "a degree below where form V melts, and short", held(DOWN, 32.8, 10), wobble=0.1, **SEED),
    made("melted out at 112 °F", "sound", "common practice", ((0, 22), (12, 44.4), (15, 44.4), *HOLD[3:]), wobble=0.1, **SEED),
    made("milk, held at 30.4", "sound", "inside 29 to 31", (*MILK, (90, 30.4)), kind="milk", wobble=0.1, **SEED),
    made("white, held at 28.6", "sound", "inside 27 to 30", (*WHITE, (90, 28.6)), kind="white", wobble=0.1, **SEED),
    made("machine, noted", "sound", "held at 32 by the machine", (*UP, (25, 34), (30, 32.2), (90, 32.0)), method=MACHINE,
         wobble=0.05, notes={15.0: "seed 1 %"}),
    made("machine that turns by half a degree", "sound", "31.4 to 32.2", (*UP, (25, 34), (30, 32.0), (120, 31.8)),
         method=MACHINE, wobble=0.4, notes={22.0: "seeded"}),
    made("machine, slow, neither told nor noted", "sound", "comes to rest at 31.8, as a machine that was seeded does",
         (*UP, *newton(46, 31.8, 9, 120, 1.0, 16)), method=MACHINE, wobble=0.05),
    made("drops softened", "sound", "never above 32", ((0, 20), (15, 30), (25, 31.8), (80, 31.6)), method=SOFT, wobble=0.1),
    made("white drops softened", "sound", "never above 29.6", ((0, 20), (15, 28), (20, 29.6), (60, 28.6)), kind="white",
         method=SOFT, wobble=0.1),
    made("cooled to 28.4 and rewarmed", "sound", "six minutes in the cool band", (*DIPPED, (90, 31.6)), method=REWARMED, wobble=0.1),
    made("milk cooled to 27.4 and rewarmed", "sound", "six minutes in the cool band",
         (*UP, (25, 33), (33, 27.4), (39, 27.4), (45, 30.2), (90, 30.2)), kind="milk", method=REWARMED, wobble=0.1),
    made("on a slab, the probe in the bowl", "sound", "the cold part brings it down at once", SLABBED, method=SLAB, wobble=0.1),
    made("on a slab, the probe goes along", "sound", "27.5 on the slab, 31.6 in the bowl",
         (*UP, (18, 36), (24, 27.5), (28, 27.5), (29, 33), (31, 32), (40, 31.6), (70, 31.6)), method=SLAB, wobble=0.1),
    made("on a slab, noted, slow", "sound", "the note says so", (*UP, (45, 32), (50, 31.6), (90, 31.6)), method=SLAB,
         wobble=0.1, notes={20.0: "two thirds on the slab"}),
    made("the logger runs on in the room", "sound", "the bowl was sound, the probe lies on the bench",
         (*HOLD, (91, 27), (92, 24.3), (93, 22.8), (94, 21.9), (95, 21.4), (99, 21), (130, 21)), wobble=0.05, **SEED),
    made("the logger runs on in wash water", "sound", "16 K in a minute is no bowl",
         (*HOLD, (91, 47), (92, 49), (110, 44), (120, 42)), wobble=0.05, **SEED),
    made("the last reading is the room's", "sound", "taken out before the logger was stopped",
         (*HOLD, (90.01, 31.6), (95, 21.3)), step=5.0, **{"notes": {15.0: "seed in"}}),
    made("overheated, seeded again as the lesson teaches", "sound", "the second seed makes temper anew",
         (*HOLD, (96, 36.5), (106, 36.5), (112, 33), (118, 31.7), (150, 31.6)), wobble=0.1,
         notes={15.0: "seed in", 106.0: "smear wet, seeded again"}),
    made("overheated, the second seeding told", "sound", "as before",
         (*HOLD, (96, 36.5), (106, 36.5), (112, 33), (118, 31.7), (150, 31.6)), wobble=0.1, seeded_at=106),
    made("melted out again and seeded again", "sound", "the second seed makes temper anew",
         (*HOLD, (100, 46), (104, 46), (110, 37), (118, 32), (124, 31.6), (160, 31.6)), wobble=0.1,
         notes={15.0: "seed in", 104.0: "seed in"}),
    made("rewarmed: overheated, cooled and rewarmed again", "sound", "a second dip makes temper anew",
         (*DIPPED, (70, 31.5), (75, 36.5), (85, 36.5), (100, 28.4), (106, 28.4), (112, 31.6), (140, 31.6)), method=REWARMED, wobble=0.1),
    made("a sheet by hand, every five minutes", "sound", "nothing long goes unseen",
         (*HOLD, (120, 31.4)), step=5.0, notes={15.0: "seed in"}),
    made("a hold read every quarter of an hour", "sound", "as the lesson asks",
         ((0, 24), (5, 38), (10, 46), (15, 45), (18, 39), (22, 35), (26, 32.5), (30, 31.6), (45, 31.4), (60, 31.7), (75, 31.6),
          (90, 31.5)), exact=True, notes={15.0: "seed in"}),
    made("a gap while it still warms", "sound", "what it did before the melt-out does not matter",
         ((0, 22), (5, 26), (40, 45), (45, 46), (48, 40), (52, 35), (56, 32.6), (60, 31.7), (70, 31.6), (80, 31.5), (90, 31.6)),
         exact=True, notes={45.0: "seed in"}),
    made("three spikes of a bad plug", "sound", "readings that leap and come back are left out",
         tuple((m, d + {40: 6, 55: -7, 70: 9}.get(m, 0)) for m, d in zip(range(0, 91), np.interp(range(0, 91), *zip(*HOLD, strict=True)), strict=True)),
         exact=True, **SEED),
    made("whole degrees Fahrenheit", "sound", "89 °F is 31.7",
         tuple((m, round((np.interp(m, *zip(*HOLD, strict=True))) * 1.8) / 1.8) for m in range(0, 91, 3)), exact=True, **SEED),
    made("thickened to 30.6 and warmed again", "sound", "at the lower edge, never in the cool band", (*DOWN, (60, 30.6), (66, 31.8), (90, 31.8)), wobble=0.1, **SEED),
    made("a probe good to a tenth", "sound", "as the first", HOLD, wobble=0.1, error=0.1, **SEED),
    made("a probe good to one degree", "sound", "31.6 and a degree are 32.6, below 33.8", HOLD, wobble=0.1, error=1.0, **SEED),
    made("seeded, dipped to 29.5, rewarmed", "sound", "just above the cool band, then back", (*DOWN, (45, 29.5), (50, 29.5), (56, 31.5), (90, 31.6)), wobble=0.1, **SEED),
    made("German note and a later word of seed", "sound", "what became of the seed is no second seeding", HOLD, wobble=0.1,
         notes={15.0: "seed in", 30.0: "seed all melted", 34.0: "no lumps of seed left"}),
]  # fmt: skip

UNSOUND = [
    made("dark at 94 °F for ten minutes", "unknowable", "34.4 by a probe good to half a degree: 33.9 or 34.9", held(DOWN, 34.4, 10), wobble=0.05, **SEED),
    made("dark at 34.6 for twenty minutes, a fine probe", "unsound", "above 34.0 by more than the error", held(DOWN, 34.6, 20), error=0.1, **SEED),
    made("dark at 38 for ten minutes", "unsound", "form V melts at 33.8", held(DOWN, 38, 10), **SEED),
    made("milk at 34.2 for four minutes", "unsound", "milk loses temper lower, above 32.5", held(MILK, 34.2, 4, 30.4), kind="milk", **SEED),
    made("white at 34.2 for four minutes", "unsound", "white loses temper lower, above 32.5", held(WHITE, 34.2, 4, 28.6), kind="white", **SEED),
    made("milk at 32.3 for an hour", "unknowable", "between where it stands and where it is lost", held(MILK, 32.3, 60, 30.4), kind="milk", **SEED),
    made("white at 31.6 for an hour", "unknowable", "between where it stands and where it is lost", held(WHITE, 31.6, 60, 28.6), kind="white", **SEED),
    made("rewarmed to 34.3 for eleven minutes", "unknowable", "33.8 to 34.8 by this probe",
         (*DIPPED[:-1], (47, 34.3), (58, 34.3), (62, 31.6), (90, 31.6)), method=REWARMED, wobble=0.05),
    made("dark at 33.7 for an hour", "unknowable", "34.2 is within the error", held(DOWN, 33.7, 60), **SEED),
    made("dark at 33.1 for forty minutes", "unknowable", "above the band for long: it depends on the time", held(DOWN, 33.1, 40), **SEED),
    made("a probe good to three degrees, dark at 35.2", "unknowable", "32.2 or 38.2", held(DOWN, 35.2, 60), error=3.0, **SEED),
    made("a probe good to three degrees, dark at 31.6", "unknowable", "28.6 or 34.6", HOLD, error=3.0, **SEED),
    made("seed, then two hours at 34.2", "unknowable", "the seed stands at its melting point for two hours",
         (*UP, (18, 40), (22, 34.2), (142, 34.2), (150, 31.6), (180, 31.6)), wobble=0.05, **SEED),
    made("seed, then 25 minutes above 34.5 on the way", "unknowable", "most of the seed melts",
         (*UP, (20, 38), (40, 34.8), (46, 31.8), (80, 31.6)), wobble=0.05, **SEED),
    made("never seeded: plain cooling", "unknowable", "no seed on the log", (*newton(46, 20, 40, 40), (45, 31.6), (90, 31.6))),
    made("never seeded: a slow straight fall", "unknowable", "no seed on the log", ((0, 46), (40, 31.5), (90, 31.5)), wobble=0.05),
    made("never seeded, a machine", "unknowable", "no seed on the log", (*newton(46, 22, 45, 50), (60, 31.8), (120, 31.8)), method=MACHINE),
    made("overheated, seeded again as the log ends", "unknowable", "what became of the seed is not on it", held(DOWN, 37, 12), seeded_at=79, wobble=0.1),
    made("no seed left, went on without", "unknowable", "the note says there was none", HOLD, notes={15.0: "no seed left, went on without"}),
    made("forgot the seed", "unknowable", "the note says there was none", HOLD, notes={30.0: "forgot to seed!"}),
    made("two hours missing of seven", "unknowable", "the bowl may have run hot and come back", (*HOLD, (420, 31.6)), cut=((200, 320),), wobble=0.1, **SEED),
    made("25 minutes missing in the hold", "unknowable", "the bowl may have run hot and come back", (*HOLD, (120, 31.6)), cut=((60, 85),), wobble=0.1, **SEED),
    made("hourly, nine to four", "unknowable", "an hour between readings",
         tuple(zip(range(0, 421, 60), (46, 43, 36, 33, 31.6, 31.5, 31.6, 31.5), strict=True)), exact=True, seeded_at=60),
    made("the first reading is 32.4", "unknowable", "the making is not on it", ((0, 32.4), (5, 31.8), (60, 31.6)), wobble=0.05),
    made("the first reading is 34", "unknowable", "the making is not on it", ((0, 34), (5, 32), (60, 31.6)), wobble=0.05),
    made("in the air for forty minutes", "unknowable", "22 to 24 °C is the room",
         (*DOWN, (60, 31.6), (61, 26), (62, 23.5), (101, 22.4), (102, 29), (103, 31.2), (140, 31.6)), wobble=0.1, **SEED),
    made("in the air while it cooled and was rewarmed", "unknowable", "the dip was the room's",
         (*UP, (25, 34), (27, 31), (28, 25), (29, 23), (69, 22.5), (70, 29), (71, 31.4), (110, 31.6)), method=REWARMED, wobble=0.1),
    made("exactly 31.5 for two hours", "unknowable", "no probe repeats a hundredth for so long",
         (*DOWN[:-1], (34, 31.5), (154, 31.5)), **SEED),
    made("exactly 31.5 for forty minutes, alive before and after", "unknowable", "its other readings move",
         tuple((m, 31.5 if 60 <= m <= 100 else d + (0.11, -0.12, 0.03, -0.07)[m % 4]) for m, d in zip(range(0, 161), np.interp(range(0, 161), *zip(*(*DOWN, (160, 31.6)), strict=True)), strict=True)),
         exact=True, **SEED),
    made("stuck at 33.6, then leaps", "unknowable", "the leap shows that it was stuck",
         tuple((m, 33.6 if 24 <= m <= 40 else d + (0.11, -0.12, 0.03, -0.07)[m % 4]) for m, d in zip(range(0, 71), np.interp(range(0, 71), *zip(*(*DOWN, (90, 31.6)), strict=True)), strict=True)),
         exact=True, **SEED),
    made("seeded, twenty minutes at 20 °C, rewarmed", "unknowable", "so cold weak crystals come, or the bowl sets",
         (*DOWN, (55, 20), (75, 20), (90, 31.6), (120, 31.6)), wobble=0.1, **SEED),
    made("rewarmed, one reading of 29.4", "unknowable", "crystals start at 29 or below, in minutes",
         (*UP, (25, 34), (33, 30.2), (34, 29.4), (35, 30.4), (38, 31.5), (90, 31.6)), method=REWARMED),
    made("rewarmed, but never below 30.4", "unsound", "no crystals start there, and no seed went in", (*UP, (30, 33), (38, 30.4), (44, 31.5), (90, 31.6)), method=REWARMED, wobble=0.05),
    made("never melted out", "unsound", "37 °C leaves old crystals of any form", ((0, 22), (15, 37), (17, 37), (30, 32), (60, 31.6)), seeded_at=17),
    made("melted to 42 only", "unknowable", "below every melt-out in use, above where crystals are sure", ((0, 22), (15, 42), (17, 42), (30, 32), (60, 31.6)), seeded_at=17),
    made("seed goes in, then melted out again", "unsound", "that seed is gone", (*DOWN, (50, 31.6), (56, 46), (58, 46), (70, 32), (100, 31.6)), **SEED),
    made("left to set", "unsound", "27 °C and not rewarmed: form IV", (*DOWN, (70, 29), (100, 27), (120, 26.8)), **SEED),
    made("ends at 30.0", "unknowable", "below the band, thick, not rewarmed", (*DOWN, (60, 31.6), (80, 30.0), (90, 30.0)), **SEED),
    made("ends at 36", "unsound", "no temper lasts there", (*DOWN, (60, 31.6), (70, 36), (80, 36)), **SEED),
    made("drops that came to 40", "unsound", "all crystals melt", ((0, 20), (15, 40), (20, 40), (40, 31.8), (80, 31.6)), method=SOFT),
    made("drops already soft when the log begins", "unknowable", "how warm they were before is not on it", ((0, 31.8), (60, 31.6)), method=SOFT, wobble=0.05),
    made("drops that stay hard", "unsound", "26 °C: never in work", ((0, 20), (20, 26), (60, 26)), method=SOFT),
    made("on a slab, but it falls by itself", "unknowable", "nothing on the log shows the slab", (*newton(46, 20, 40, 40), (45, 31.6), (90, 31.6)), method=SLAB),
    made("four readings", "unknowable", "too few", ((0, 46), (12, 36), (20, 31.6), (30, 31.6)), exact=True, seeded_at=1),
    made("overheated, cooled back, not seeded again", "unsound", "the temperature comes back, the crystals do not", held(DOWN, 37, 12), **SEED),
    made("never came down", "unsound", "46 °C to the end", ((0, 22), (15, 46), (60, 46)), seeded_at=20),
    made("no seed, but the bowl stood in water of 31.5", "unsound", "nobody seeded it", (*UP, *newton(46, 31.5, 4, 60, 1.0, 16), (90, 31.5)),
         wobble=0.05, uncatchable="it falls as a seeded bowl does, and the person says it was seeded"),
    made("the seed was bloomed (form VI)", "unsound", "wrong crystals", HOLD, wobble=0.1, uncatchable="temperatures do not show what form the seed had", **SEED),
    made("the probe reads three degrees low", "unsound", "34.6 in truth", HOLD, wobble=0.1, uncatchable="the error is given as 0.5; only melting ice shows it", **SEED),
]  # fmt: skip
BOWLS = (*SOUND, *UNSOUND)
