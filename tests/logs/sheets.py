"""Sheets as people write them, typed out, each with what is true of it; read and judged they may also be asked about.

Nothing here calls the package. Truth by hand from FDA Food Code 3-501.14(A) for cream, by Greweling 2007 and Wille &
Lutton 1966 for chocolate.
"""

from dataclasses import dataclass


@dataclass(frozen=True)
class Sheet:
    """A typed sheet: name, "cream" or "bowl", truth, reason, text; method and seeding time of a bowl."""

    name: str
    job: str
    truth: str
    why: str
    text: str
    method: str = "seeded in the bowl"
    seeded_at: float | None = None
    uncatchable: str = ""


def lines(head, rows, gap=", "):
    return "\n".join([head, *(gap.join(map(str, row)) for row in rows)]) + "\n"


SLOW_F = (176, 130, 112, 100, 92, 68, 40)
SLOW_C = (88, 60, 48, 43, 38, 34, 20, 8, 4)
QUICK_F = (185, 150, 122, 100, 82, 69, 58, 50, 45, 42, 39, 38, 37)
CLOCK = [f"{9 + k}:05" for k in range(9)]
HALF = [f"{9 + k // 2}:{'30' if k % 2 else '00'}" for k in range(20)]
TENS = [f"{10 + (35 + 10 * k) // 60}:{(35 + 10 * k) % 60:02d}" for k in range(20)]
HALF_SLOW = (85, 70, 58, 52, 47, 43, 40, 37, 34, 31, 28, 24, 19, 15, 12, 10, 8, 6, 5, 4)
DAY = tuple(zip([f"{h}:00" for h in range(9, 17)], (46, 43, 36, 33, 31.6, 31.5, 31.6, 31.5), strict=True))
BOWL = (46.1, 46.0, 42.3, 38.9, 36.4, 34.4, 33.2, 32.4, 32.0, 31.8, 31.7, 31.6, 31.7, 31.6, 31.5, 31.6, 31.7, 31.6)
ROOM = (21.3, 21.4, 21.4, 21.3, 21.2, 21.4, 21.5, 21.4, 21.3, 21.3, 21.4, 21.2, 21.3, 21.3, 21.4, 21.3, 21.3, 21.4)
TWOS = [f"9:{5 + 2 * k:02d}" for k in range(18)]

CREAM = [
    Sheet("the bench's own format, hourly, 4 h to 68 °F", "cream", "unsound", "10:05 to 13:05 above 92 °F", lines("time, temperature F", zip(CLOCK, SLOW_F, strict=False))),
    Sheet("hourly from 9:00, 4 h 41 min to 21 °C", "cream", "unsound", "60 °C at 10:00, 34 °C at 14:00", lines("time, temperature C", zip([f"{9 + k}:00" for k in range(9)], SLOW_C, strict=True))),
    Sheet("half-hourly", "cream", "unsound", "58 °C at 10:00, 24 °C at 14:30", lines("time, temperature C", zip(HALF, HALF_SLOW, strict=True))),
    Sheet("bare minutes 0, 60, 120", "cream", "unsound", "60 °C after one hour, 34 °C after five", lines("minutes, temperature C", zip(range(0, 541, 60), SLOW_C, strict=False))),
    Sheet("bare numbers 0, 60, 120", "cream", "unsound", "no pan cools so in nine seconds or minutes", lines("time, temperature C", zip(range(0, 541, 60), SLOW_C, strict=False))),
    Sheet("hours 0 to 8", "cream", "unsound", "60 °C after one hour, 34 °C after five", lines("hours, temperature C", zip(range(9), SLOW_C, strict=True))),
    Sheet("hours 0 to 8, unnamed", "cream", "unsound", "60 °C after one hour, 34 °C after five", lines("time, temperature C", zip(range(9), SLOW_C, strict=True))),
    Sheet("with am and pm", "cream", "unsound", "as the first", lines("time, temperature F", zip(("9:05 am", "10:05 am", "11:05 am", "12:05 pm", "1:05 pm", "2:05 pm", "3:05 pm"), SLOW_F, strict=True))),
    Sheet("through noon, written 1:05", "cream", "unsound", "as the first", lines("time, temperature F", zip(("9:05", "10:05", "11:05", "12:05", "1:05", "2:05", "3:05"), SLOW_F, strict=True))),
    Sheet("from 1:05 in the afternoon", "cream", "unsound", "as the first, no word which", lines("time, temperature F", zip([f"{1 + k}:05" for k in range(7)], SLOW_F, strict=True))),
    Sheet("no header at all", "cream", "unsound", "as the first", "\n".join(f"{t} {f} F" for t, f in zip(CLOCK, SLOW_F, strict=False)) + "\n"),
    Sheet("a date and a time", "cream", "unsound", "as the first", lines("date;time;temperature F", (("2025-03-04", t, f) for t, f in zip(CLOCK, SLOW_F, strict=False)), ";")),
    Sheet("shallow pan, every ten minutes", "cream", "sound", "10:55 above 57 °C, 11:25 below 21; 12:15 below 5", lines("time, temperature F", zip(TENS, QUICK_F, strict=False))),
    Sheet("shallow pan, minutes named", "cream", "sound", "as before", lines("minutes, temperature F", zip(range(0, 130, 10), QUICK_F, strict=True))),
    Sheet("shallow pan, decimal commas", "cream", "sound", "57 at 15 min, 21 at 55, 5 at 130", lines("Minuten;°C", ((0, "84,5"), (10, "66,4"), (20, "52,0"), (30, "41,1"), (40, "32,0"), (50, "25,4"), (60, "20,1"), (80, "12,6"), (100, "8,3"), (120, "5,6"), (130, "4,4"), (140, "3,7")), ";")),
    Sheet("shallow pan, h:mm:ss", "cream", "sound", "as before", lines("time (h:mm:ss),°C", (("0:00:00", 84.5), ("0:10:00", 66.4), ("0:20:00", 52.0), ("0:30:00", 41.1), ("0:40:00", 32.0), ("0:50:00", 25.4), ("1:00:00", 20.1), ("1:20:00", 12.6), ("1:40:00", 8.3), ("2:00:00", 5.6), ("2:10:00", 4.4), ("2:20:00", 3.7)), ",")),
    Sheet("an hour in ice, then the cold room", "cream", "sound", "57 before 10:25, 21 before 11:05, 5 before 13:35", lines("time, temperature C", (("10:05", 85), ("10:15", 68.4), ("10:25", 53.9), ("10:35", 41.8), ("10:45", 31.9), ("10:55", 24.4), ("11:05", 18.2), ("11:35", 12.0), ("12:05", 8.6), ("12:35", 6.6), ("13:05", 5.1), ("13:35", 4.3), ("14:05", 3.9)))),
    Sheet("8 h to 25 °C with one reading of 58", "cream", "unsound", "no restart", lines("minutes, temperature C", [(t, round(85 - t / 8, 1)) for t in range(0, 481, 30)] + [(485, 58), (490, 54), (520, 30), (560, 19), (620, 9), (700, 4)])),
    Sheet("pulled out at 57", "cream", "unknowable", "57 to 4 in five minutes", lines("minutes, temperature C", [(t, round(82 - 25 * t / 55, 1)) for t in range(0, 56, 5)] + [(60, 4), (70, 4), (90, 4)])),
    Sheet("begins at 56.9", "cream", "unknowable", "the clock ran before", lines("minutes, temperature C", ((0, 56.9), (20, 38), (40, 26), (60, 17), (90, 10), (120, 6), (150, 4.2)))),
    Sheet("two readings", "cream", "unknowable", "anything may lie between", lines("minutes, temperature C", ((0, 90), (400, 4)))),
    Sheet("42 °F at six hours, 40 after", "cream", "unsound", "41 °F not reached in six hours", lines("minutes, temperature F", ((0, 180), (20, 140), (30, 131), (60, 100), (90, 80), (120, 68), (240, 50), (330, 44), (395, 42), (420, 40), (450, 39)))),
    Sheet("it froze at 15.2 and stayed", "cream", "unknowable", "5 °C never shown", lines("minutes, temperature C", [(t, round(85 - 1.3 * t, 1)) for t in range(0, 51, 5)] + [(55 + 10 * k, 15.2) for k in range(32)])),
    Sheet("hourly, the probe taken out between two readings", "cream", "unknowable", "57 and 21 °C within one step of an hour", lines("minutes, temperature C", ((0, 82), (60, 60), (120, 20), (180, 5), (240, 4), (300, 4)))),
    Sheet("every twenty minutes, the probe taken out between two readings", "cream", "unsound", "in truth 50 °C at 80 minutes", lines("minutes, temperature C", ((0, 82), (20, 71.2), (40, 61.4), (60, 34.1), (80, 17.2), (100, 9.4), (120, 6.1), (140, 4.4), (160, 3.9))),
          uncatchable="a thick probe in cold air falls as a pan put into ice does"),
]  # fmt: skip

BOWLS = [
    Sheet("nine to four, hourly", "bowl", "unknowable", "an hour between readings", lines("time, temperature C", DAY)),
    Sheet("two channels, the room in the first", "bowl", "sound", "the bowl is in the second",
          lines("No.,Date Time,CH1 (C),CH2 (C)", [(k + 1, f"2025-03-04 {t}:00", room, choc) for k, (t, room, choc) in enumerate(zip(TWOS, ROOM, BOWL, strict=True))], ","), seeded_at=2),
    Sheet("two channels without units", "bowl", "sound", "the bowl is in the second", lines("Time,CH1,CH2", zip(TWOS, ROOM, BOWL, strict=True), ","), seeded_at=2),
    Sheet("clock times, seed noted", "bowl", "sound", "46 to 31.6 with seed", lines("time,degC,note", [(t, d, "seed in" if k == 1 else "") for k, (t, d) in enumerate(zip(TWOS, BOWL, strict=True))], ",")),
    Sheet("a word behind the reading", "bowl", "sound", "46 to 31.6 with seed", "\n".join(f"{t} {round(d * 1.8 + 32, 1)} F{'  seed in' if k == 1 else ''}" for k, (t, d) in enumerate(zip(TWOS, BOWL, strict=True))) + "\n"),
    Sheet("no seed left", "bowl", "unknowable", "the note says so", lines("time,degC,note", [(t, d, "no seed left, went on without" if k == 1 else "") for k, (t, d) in enumerate(zip(TWOS, BOWL, strict=True))], ",")),
    Sheet("94 °F for ten minutes", "bowl", "unknowable", "34.4 within half a degree of 34.0", lines("time,F,note", [(t, round(d * 1.8 + 32, 1), "seed in" if k == 1 else "") for k, (t, d) in enumerate(zip(TWOS, BOWL, strict=True))] + [("9:43", 94.0), ("9:45", 94.1), ("9:47", 94.0), ("9:49", 93.9), ("9:51", 94.0), ("9:53", 94.0), ("9:55", 89.5), ("9:57", 89.0)], ",")),
    Sheet("98 °F for ten minutes", "bowl", "unsound", "36.7 is above 34.0", lines("time,F,note", [(t, round(d * 1.8 + 32, 1), "seed in" if k == 1 else "") for k, (t, d) in enumerate(zip(TWOS, BOWL, strict=True))] + [("9:43", 97.9), ("9:45", 98.1), ("9:47", 98.0), ("9:49", 97.8), ("9:51", 98.0), ("9:53", 98.0), ("9:55", 89.5), ("9:57", 89.0)], ",")),
    Sheet("whole degrees, stuck at 88 °F for two hours", "bowl", "unknowable", "the probe had lost its plug",
          lines("minutes,F,note", [(k, round(d * 1.8 + 32), "seed in" if k == 2 else "") for k, d in zip(range(0, 36, 2), BOWL, strict=True)] + [(k, 88) for k in range(36, 160, 2)], ","),
          uncatchable="whole degrees of a steady bowl stand still by themselves"),
]  # fmt: skip
SHEETS = (*CREAM, *BOWLS)
