"""The words of the kitchen grammar: the units a cook writes, how they are spelled, and what is no unit."""

SPELLINGS = {
    "g": "g gr gm gms gram grams gramme grammes gramm",
    "kg": "kg kgs kilo kilos kilogram kilograms kilogramme kilogrammes kilogramm",
    "dag": "dag decagram decagrams dekagram dekagrams",
    "mg": "mg milligram milligrams",
    "lb": "lb lbs pound pounds #",
    "oz": "oz ozs ounce ounces",
    "mL": "ml mls milliliter milliliters millilitre millilitres cc ccm cm3 cm³ "
    "cubiccm cubiccentimeter cubiccentimeters cubiccentimetre cubiccentimetres",
    "cL": "cl centiliter centilitre",
    "dL": "dl deciliter decilitre",
    "L": "l liter liters litre litres",
    "tsp": "tsp tsps teaspoon teaspoons",
    "tbsp": "tbsp tbsps tbs tbl tb tablespoon tablespoons",
    "fl_oz": "floz flozs fluidounce fluidounces fluidoz ozfl",
    "cup": "cup cups",
    "pint": "pt pts pint pints",
    "quart": "qt qts quart quarts",
    "gallon": "gal gals gallon gallons",
    # "C°" is asked for by no scale: what a door wants, a reading or a difference, decides there.
    "degC": "c °c c° degc degreec degreesc celsius degcelsius degreecelsius degreescelsius centigrade",
    "degF": "f °f f° degf degreef degreesf fahrenheit degfahrenheit degreefahrenheit degreesfahrenheit",
    "delta_degC": "deltadegc deltac delta°c δ°c δc δdegc degcdifference celsiusdegrees",
    "delta_degF": "deltadegf deltaf delta°f δ°f δf δdegf degfdifference fahrenheitdegrees",
    "K": "k kelvin kelvins",
    "percent": "% percent percents pct °bx bx °brix brix degbx degbrix degreebrix degreesbrix",
    "piece": "piece pieces pc pcs each ea ct cts count pod pods egg eggs",
    "dozen": "dozen dozens doz dz",
    "box": "box boxes",
    "s": "s sec secs second seconds",
    "min": "min mins minute minutes",
    "h": "h hr hrs hour hours",
    "day": "d day days",
    "week": "week weeks wk wks",
    "m": "meter meters metre metres",
    "cm": "cm centimeter centimeters centimetre centimetres",
    "mm": "mm millimeter millimeters millimetre millimetres",
    "inch": 'in inch inches "',
    "foot": "ft foot feet",
    "J": "j joule joules",
    "kJ": "kj kilojoule kilojoules",
    "kcal": "kcal kilocalorie kilocalories",
    "W": "w watt watts",
    "Pa": "pa pascal pascals",
    "hPa": "hpa hectopascal mbar millibar",
    "kPa": "kpa kilopascal",
    "m**3": "m3 m³",
    "mm**3": "mm3 mm³ cubicmm cubicmillimeter cubicmillimeters cubicmillimetre cubicmillimetres",
}
UNIT_OF = {spelling: unit for unit, spellings in SPELLINGS.items() for spelling in spellings.split()}
# One spelling, two meanings: settled by what is asked for; "" is what it means where nobody asks.
UNDECIDED = {
    "c": {"[temperature]": "degC", "[length] ** 3": "cup"},
    "C": {"[length] ** 3": "cup", "": "degC"},
    "m": {"[time]": "min", "[length]": "m"},
    "'": {"[length]": "foot", "": "min"},
    "T": {},
    "t": {},
    "degree": {},
}
SAY_UNDECIDED = {
    "c": ("'cup' or '°C' written out", "1 cup or 32 °C"),
    "m": ("'min' or 'metre' written out", "5 min"),
    "T": ("'tbsp' or 'tsp' written out", "1 tbsp"),
    "t": ("'tbsp' or 'tsp' written out", "1 tsp"),
    "degree": ("°C or °F behind the number", "32 °C or 90 °F"),
}
DEGREES = {"°", "deg", "degs", "degree", "degrees"}
# Three decimals of these are finer than a kitchen scale shows, and may be thousands.
SMALL = ("g", "mL", "mg")
AMERICAN = {"lb", "oz", "tsp", "tbsp", "fl_oz", "cup", "pint", "quart", "gallon", "inch", "foot"}
# Words that change an amount: behind a unit they are not the name of what was weighed.
NO_NOUN = set(
    "a an about and at fl fluid imperial ish less minus more no not of or over per plus squared than to troy uk under".split()
)
COUNTS = ("piece", "dozen", "box")
