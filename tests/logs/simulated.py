"""Bowls of chocolate and pans of cream from plain physics, and the sheets that probes make of them.

The truth of each comes from the physics itself, never from the package: crystals that melt above where form V of their
kind melts (dark 33.8, Wille & Lutton 1966; milk and white 32, no source), cream against 57, 21 and 5 degC in 120 and
360 minutes (FDA Food Code 3-501.14(A)). A vessel loses heat by Newton's law; seed takes c (T - T_seed) and its latent
heat (1.59 kJ/(kg K), 46 and 44 kJ/kg, Beckett 2009) while it melts in a few minutes; a heater holds.
"""

import datetime
from dataclasses import dataclass

import numpy as np

STEP = 1 / 12  # minutes
MELT, COOL, WORK, FORM_V = (
    {"dark": (45, 49), "milk": (43, 46), "white": (42, 46)},
    {"dark": (28.1, 28.8), "milk": (27.0, 27.8), "white": (25.0, 26.6)},
    {"dark": (31.3, 32.2), "milk": (29.8, 30.5), "white": (28.0, 29.4)},
    {"dark": 33.8, "milk": 32.0, "white": 32.0},
)
LATENT = {"dark": 46.0, "milk": 44.0, "white": 44.0}


@dataclass(frozen=True)
class Sheet:
    """What a probe made of a vessel: minutes, degC as read, notes, and the truth ("sound", "unsound", "unknowable")."""

    name: str
    truth: str
    minutes: np.ndarray
    degrees: np.ndarray
    notes: tuple
    told: dict

    def text(self, rng):
        """The sheet as a logger or a hand would write it, with a header that names its columns."""
        form = rng.choice(["minutes", "clock", "am", "h:mm:ss", "iso"])
        fahrenheit = rng.random() < 0.5
        start = datetime.datetime(2025, 3, 4, int(rng.integers(7, 15)), int(rng.integers(0, 60)))
        rows = [
            "{},temperature {},note".format(
                {"h:mm:ss": "time (h:mm:ss)"}.get(form, "time" if form != "minutes" else form),
                "°F" if fahrenheit else "°C",
            )
        ]
        for minute, degree, note in zip(self.minutes, self.degrees, self.notes, strict=True):
            at = start + datetime.timedelta(minutes=round(float(minute) * 60) / 60)
            when = {
                "minutes": f"{minute:.3f}",
                "clock": at.strftime("%H:%M:%S"),
                "am": at.strftime("%I:%M:%S %p"),
                "h:mm:ss": str(datetime.timedelta(seconds=round(float(minute) * 60))),
                "iso": at.isoformat(),
            }[form]
            rows.append(f"{when},{degree * 1.8 + 32:.2f},{note}" if fahrenheit else f"{when},{degree:.2f},{note}")
        return "\n".join(rows) + "\n"


def read_by_probe(rng, t, true, error, every, digits=("C.1", "F.1", "F1", "C.01")):
    """(minutes, degC) a probe shows of a true course: it lags, is wrong by up to `error`, trembles and is rounded."""
    lag, bias, tremble = rng.uniform(0.05, 0.5), rng.uniform(-error, error), rng.uniform(0.02, 0.08)
    seen, keep = true.copy(), 1 - np.exp(-STEP / lag)
    for i in range(1, len(seen)):
        seen[i] = seen[i - 1] + keep * (true[i] - seen[i - 1])
    minutes = np.arange(0, t[-1] + 1e-9, every)
    shown = (
        np.interp(minutes, t, seen)
        + 0.8 * bias
        + np.clip(rng.normal(0, tremble, len(minutes)), -0.2 * error, 0.2 * error)
    )
    digit = str(rng.choice(digits))
    if digit[0] == "F":
        per = 10 if digit == "F.1" else 1
        return minutes, (np.round((shown * 1.8 + 32) * per) / per - 32) / 1.8
    return minutes, np.round(shown, len(digit) - 2)


class Vessel:
    """A bowl of chocolate: its temperature, its seed and its crystals, moved on by small steps."""

    def __init__(self, rng, kind, start):
        self.rng, self.kind = rng, kind
        self.mass, self.room = rng.uniform(0.8, 5.0), rng.uniform(18, 24)
        self.loss = 0.11 * self.mass ** (2 / 3) * rng.uniform(0.5, 1.0)  # kJ/(min K)
        self.now, self.seed, self.crystals = start, 0.0, 0.0
        self.course = [start]

    def _move(self, power):
        flow = power - self.loss * (self.now - self.room)
        if self.seed > 0:
            melted = min(self.seed, self.portion * STEP)
            self.seed -= melted
            flow -= melted / STEP * (1.59 * (self.now - self.seed_at) + self.share * LATENT[self.kind])
            self.crystals += melted * (1 - self.share)
        self.now += flow * STEP / (1.59 * self.mass)
        if self.now > FORM_V[self.kind]:
            self.crystals *= np.exp(-STEP * (self.now - FORM_V[self.kind]) / 1.5)
        self.course.append(self.now)

    def heat(self, to, power):
        """Warm until it is there."""
        while self.now < to:
            self._move(power * self.mass + self.loss * max(self.now - self.room, 0.0))

    def hold(self, at, minutes, swing=0.15):
        """A stirred bowl on gentle heat: it swings about where it is held; never cooled by force."""
        phase = self.rng.uniform(0, 6)
        for i in range(int(minutes / STEP)):
            want = at + swing * np.sin(phase + i * STEP / 4)
            power = self.loss * (self.now - self.room) + 1.59 * self.mass * (want - self.now) / 1.5
            self._move(max(0.0, power))

    def leave(self, minutes=None, until=None):
        """Alone in the room, for so long or until it has come down."""
        until = None if until is None else max(until, self.room + 0.3)
        while (minutes is None or minutes > 0) and (until is None or self.now > until):
            self._move(0.0)
            minutes = None if minutes is None else minutes - STEP

    def add_seed(self, target):
        """Seed by the heat balance for `target`, melting over some minutes; its unmelted part is crystal."""
        self.seed_at, self.share = self.rng.uniform(18, 22), self.rng.uniform(0.85, 0.93)
        heat = 1.59 * self.mass * (self.now - target) * 0.93
        self.seed = heat / (1.59 * (target - self.seed_at) + self.share * LATENT[self.kind])
        self.portion = self.seed / self.rng.uniform(4, 10)

    def chill(self, to, minutes):
        """Stirred over cool water down to there."""
        start = self.now
        for i in range(int(minutes / STEP)):
            self.now = start + (to - start) * (i + 1) * STEP / minutes
            self.course.append(self.now)
        self.crystals = max(self.crystals, 0.02 * self.mass) if to < COOL[self.kind][1] + 0.1 else self.crystals

    def minutes(self):
        return (len(self.course) - 1) * STEP


def melt_out(rng, v):
    v.heat(rng.uniform(*MELT[v.kind]), rng.uniform(2, 4))
    v.hold(v.now, rng.uniform(3, 10))


def seeded(rng, v, target):
    at = v.minutes()
    v.add_seed(target)
    v.leave(until=target)
    v.hold(target, rng.uniform(20, 60))
    return at


SCENES = (
    "sound",
    "machine",
    "rewarmed",
    "softened",
    "reseeded",
    "runs on",
    "overheated",
    "unseeded",
    "unmelted",
    "left to set",
    "hole",
    "stuck",
)


def bowl(rng, scene):
    """One simulated bowl's Sheet."""
    kind = str(rng.choice(["dark", "milk", "white"], p=[0.6, 0.25, 0.15]))
    v, target, notes = Vessel(rng, kind, rng.uniform(19, 23)), rng.uniform(*WORK[kind]), {}
    told = {"kind": kind, "method": "seeded in the bowl"}
    truth, cut, frozen, seeding = "sound", (), (), None
    if scene == "softened":
        v.crystals = 1.0
        v.heat(target, rng.uniform(1.5, 3))
        v.hold(target, rng.uniform(30, 60))
        told["method"] = "drops softened"
    elif scene == "unmelted":
        v.heat(rng.uniform(35.5, 39), rng.uniform(2, 4))
        seeding, truth = seeded(rng, v, target), "unsound"
    else:
        melt_out(rng, v)
        if scene == "rewarmed":
            v.chill(rng.uniform(*COOL[kind]), rng.uniform(12, 25))
            v.hold(v.now, rng.uniform(4, 8), swing=0.0)
            v.heat(target, rng.uniform(1, 2))
            v.hold(target, rng.uniform(30, 60))
            told["method"] = "cooled and rewarmed"
        elif scene == "unseeded":
            v.leave(until=target)
            v.hold(target, rng.uniform(30, 90))
            truth = "unsound"
        else:
            seeding = seeded(rng, v, target)
    if scene == "machine":
        told["method"] = "seeded machine"
    before = v.minutes()
    if scene in ("overheated", "reseeded", "hole"):
        v.heat(FORM_V[kind] + rng.uniform(2.5, 5), rng.uniform(1, 3))
        v.hold(v.now, rng.uniform(6, 15))
        if scene == "reseeded":
            seeding = seeded(rng, v, target)
        else:
            v.leave(until=target)
            v.hold(target, rng.uniform(20, 40))
            truth = "unsound"
    if scene == "hole":
        cut, truth = (before - 2, v.minutes() - 5), "unknowable"
    if scene == "left to set":
        v.leave(until=COOL[kind][0] - rng.uniform(0.8, 2.5))
        truth = "unsound"
    if scene == "stuck":
        frozen, truth = (before, before + rng.uniform(95, 150)), "unknowable"
        v.heat(FORM_V[kind] + 3, 2)
        v.hold(v.now, 10)
        v.leave(until=target)
        v.hold(target, frozen[1] - v.minutes() + 20)
    if truth == "sound" and v.crystals <= 0.002 * v.mass and scene != "softened":
        truth = "unknowable"
    course = np.array(v.course)
    if scene == "runs on":
        air = v.room + (course[-1] - v.room) * np.exp(-np.arange(0, rng.uniform(8, 40), STEP) / rng.uniform(0.6, 2.0))
        course = np.concatenate([course, air])
    return _sheet(rng, f"{scene}, {kind}", truth, course, told, notes, seeding, cut, frozen)


def _sheet(rng, name, truth, course, told, notes, seeding, cut, frozen):
    t = np.arange(len(course)) * STEP
    told["probe_error"] = float(rng.choice([0.2, 0.5], p=[0.3, 0.7]))
    minutes, degrees = read_by_probe(
        rng,
        t,
        course,
        told["probe_error"],
        float(rng.choice([0.5, 1.0, 2.0, 3.0])),
        ("C.1", "F.1") if frozen else ("C.1", "C.1", "F.1", "F.1", "F1", "C.01"),
    )
    if frozen:
        held = (minutes >= frozen[0]) & (minutes <= frozen[1])
        degrees[held] = degrees[np.argmax(held)]
    if cut:
        keep = (minutes <= cut[0]) | (minutes >= cut[1])
        minutes, degrees = minutes[keep], degrees[keep]
        truth = "unknowable" if cut[1] - cut[0] > 22 else "cut short"
    if seeding is not None:
        way = rng.choice(
            ["told", "noted", "neither"],
            p=[0.3, 0.5, 0.2 if "reseeded" not in name else 0.0] / np.array(1.0 if "reseeded" not in name else 0.8),
        )
        if way == "told":
            told["seeded_at"] = float(np.floor(seeding))
        elif way == "noted":
            notes[int(np.searchsorted(minutes, seeding))] = str(
                rng.choice(["seed in", "seeded", "25 % seed in; stirred"])
            )
    return Sheet(name, truth, minutes, degrees, tuple(notes.get(i, "") for i in range(len(minutes))), told)


CREAM = (
    "ice bath",
    "bench, then ice",
    "bench, then cold room",
    "deep tray",
    "tall pot",
    "pulled out",
    "late",
    "warmed again",
    "hole",
)


def cream(rng, scene):
    """One simulated pan of cream's Sheet: Newton's law in one or two surroundings, truth from its true crossings."""
    start = rng.uniform(78, 95)
    legs = {  # (surroundings degC, halving minutes, minutes there)
        "ice bath": [(rng.uniform(0, 2), rng.uniform(7, 25), 400)],
        "bench, then ice": [
            (rng.uniform(18, 24), rng.uniform(35, 80), rng.uniform(10, 60)),
            (1.0, rng.uniform(7, 22), 400),
        ],
        "bench, then cold room": [
            (rng.uniform(18, 24), rng.uniform(30, 80), rng.uniform(30, 240)),
            (rng.uniform(2, 4), rng.uniform(25, 90), 600),
        ],
        "deep tray": [(rng.uniform(1, 3.5), rng.uniform(25, 75), 600)],
        "tall pot": [
            (rng.uniform(18, 22), rng.uniform(60, 140), rng.uniform(60, 400)),
            (3.0, rng.uniform(60, 150), 700),
        ],
    }.get(scene, [(rng.uniform(18, 24), rng.uniform(40, 110), 300), (3.0, rng.uniform(40, 90), 600)])
    t, course, now = [0.0], [start], start
    for around, halving, minutes in legs:
        u = np.arange(1, int(minutes / STEP)) * STEP
        course.extend(around + (now - around) * 2 ** (-u / halving))
        t.extend(t[-1] + u)
        now = course[-1]
    t, course = np.arange(len(course)) * STEP, np.array(course)
    hot, cool, cold = (int(np.argmax(course <= limit)) for limit in (57, 21, 5))
    reached = course[-1] <= 5 and course.min() <= 5
    kept = reached and t[cool] - t[hot] <= 120 and t[cold] - t[hot] <= 360
    truth = "sound" if kept else "unsound"
    last = min(len(t), (cold if reached else len(t)) + int(rng.uniform(20, 90) / STEP))
    t, course = t[:last], course[:last].copy()
    if scene == "pulled out":
        out = int(hot + rng.uniform(0.05, 0.6) * (cool - hot))
        u = t[out:] - t[out]
        air, tau = rng.uniform(1, 6), rng.uniform(0.7, 2.5)
        course[out:] = air + (course[out] - air) * np.exp(-u / tau)
        truth = "unknowable"
    if scene == "warmed again":
        again = int(hot + rng.uniform(0.3, 0.9) * (cool - hot))
        course[again : again + int(12 / STEP)] = 62
        truth = "unknowable"
    error = float(rng.choice([0.2, 0.5]))
    every = float(rng.choice([1, 2, 5, 10, 15, 20] if scene not in ("pulled out", "warmed again") else [1, 2, 5, 10]))
    minutes, degrees = read_by_probe(rng, t, course, error, every)
    if scene == "late":
        keep = minutes > t[hot] + 2
        minutes, degrees, truth = minutes[keep] - minutes[keep][0], degrees[keep], "unknowable"
    if scene == "hole":
        keep = (minutes < t[hot] - 5) | (minutes > t[cool] + 10)
        minutes, degrees = minutes[keep], degrees[keep]
        truth = "unsound" if truth == "unsound" else "unknowable" if t[cool] - t[hot] > 95 else "sound"
    return Sheet(scene, truth, minutes, degrees, ("",) * len(minutes), {"probe_error": f"{error} delta_degC"})
