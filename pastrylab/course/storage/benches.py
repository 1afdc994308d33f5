"""Benches of lesson 07: a tray out of the cold, a film that comes off, a store room over a day and by its log."""

from pastrylab.course.storage.figures import FilmOff, TrayOnAir
from pastrylab.course.storage.room import RoomDay
from pastrylab.course.storage.store_log import StoreLogBench
from pastrylab.course.storage.tray_log import TrayLogBench, hears_tray
from pastrylab.page.bench import Bench, Control
from pastrylab.page.cards import GuessCard
from pastrylab.page.guess import Asked

_LESSON = "07"
_GUESS = Asked(_LESSON, "wrapped", "min", "the tray")
_KINDS = ("kind", "Chocolate", [("dark", "dark"), ("milk", "milk"), ("white", "white")])
_PROBES = (
    "probe_error",
    "Thermometers good to",
    [("0.5 °C (1 °F)", 0.5), ("0.2 °C (0.4 °F)", 0.2), ("1 °C (2 °F)", 1.0), ("2 °C (4 °F)", 2.0)],
)
_COLDER = (
    "colder_by",
    "The shelf is colder by",
    [("2 °C (4 °F)", 2.0), ("nothing", 0.0), ("1 °C (2 °F)", 1.0), ("3 °C (5 °F)", 3.0), ("5 °C (9 °F)", 5.0)],
)
_CAUTION = "Dairy fillings stay cold as your local code says, whatever a bloom does."


def guess_wrapped():
    """The guess before the tray bench."""
    return GuessCard(
        _LESSON,
        "wrapped",
        "A tray of dark chocolates comes out of the refrigerator at 4 °C (39 °F), wrapped, into a kitchen of 23 °C (73 °F) "
        "and 51 %. The difference between the two halves every 20 minutes. After how many minutes may the film come off? "
        "Commit to a time before you look.",
        "10 min",
    )


def tray_bench():
    """A tray that warms in a room: how humid the air on it is, and when it may be unwrapped."""
    controls = (
        Control("start", "The tray reads", "degC", -18, 25, 0.5, 4, us=(0, 77, 1)),
        Control("air", "The room", "degC", 12, 32, 0.5, 23, us=(54, 90, 1)),
        Control("humidity", "Humidity of the room", "", 20, 95, 1, 51),
        Control("halving", "Halving time", "min", 5, 180, 1, 20),
        Control("humidity_error", "Hygrometer good to", "", 0, 10, 1, 3),
    )
    legend = (
        "Blue dotted: the air is full and water settles. Yellow hatched: dry to the eye, but the sugar draws water. White: "
        "it may be unwrapped. Grey: what the hygrometer may be off by. The diamond stands to the right of the yellow: it "
        f"takes every error against you. {_CAUTION}"
    )
    return hears_tray(Bench(TrayOnAir(), controls, legend, (_KINDS, _PROBES), guess=_GUESS))


def unwrapped_bench():
    """A tray of milk chocolate whose film came off when it felt dry."""
    controls = (
        Control("opened", "The film comes off after", "min", 0, 90, 1, 25),
        Control("start", "The tray comes from", "degC", -18, 20, 0.5, 4, us=(0, 68, 1)),
        Control("air", "The kitchen", "degC", 12, 32, 0.5, 27, us=(54, 90, 1)),
        Control("humidity", "Humidity of the kitchen", "", 20, 95, 1, 58),
        Control("halving", "Halving time", "min", 5, 60, 1, 15),
    )
    milk_first = sorted(_KINDS[2], key=lambda kind: kind[0] != "milk")
    legend = (
        "Blue line: how humid the kitchen's air is where it touches the tray. Grey: with every error, the hygrometer's taken "
        "as 3 %. Blue dotted: wet. Yellow hatched: dry to the eye, but the sugar draws water. Ring: the film comes off."
    )
    return Bench(FilmOff(), controls, legend, ((*_KINDS[:2], milk_first), _PROBES))


def room_bench():
    """A store room by day and by night, and its coldest shelf."""
    controls = (
        Control("warmest", "Warmest, by day", "degC", 12, 32, 0.5, 21, us=(54, 90, 1)),
        Control("coldest", "Coldest, by night", "degC", 8, 32, 0.5, 15, us=(46, 90, 1)),
        Control("humidity", "Humidity when warmest", "", 20, 95, 1, 58),
        Control("humidity_error", "Hygrometer good to", "", 0, 10, 1, 3),
    )
    legend = (
        "Blue: the humidity on the shelf. Dashed: in the middle of the room. Grey: the shelf with every error. Yellow hatched: "
        "the sugar draws water. Blue dotted: wet. Doors and windows shut, nothing wet inside."
    )
    return Bench(RoomDay(), controls, legend, (_KINDS, _COLDER))


def store_log_bench():
    """A store room's log against the limits at its coldest shelf: one's own, or one of the kitchen's."""
    return StoreLogBench()


def tray_log_bench():
    """Your own tray's halving time, from a log of it left wrapped."""
    return TrayLogBench()
