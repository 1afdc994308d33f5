"""Constants of nature that more than one module needs. What belongs to one model stands beside that model."""

ZERO_CELSIUS = 273.15  # K, exact: BIPM, The International System of Units, 9th edition, 2.3.1

# g/mol, from IUPAC standard atomic weights (2021).
WATER_MOLAR_MASS = 18.0153
HEXOSE_MOLAR_MASS = 180.1559  # glucose, fructose, galactose
DISACCHARIDE_MOLAR_MASS = 342.2965  # sucrose, maltose, lactose
CITRIC_ACID_MOLAR_MASS = 192.1235  # anhydrous

FORM_V_MELTS = 33.8  # degC, cocoa butter: Wille & Lutton 1966, as in cocoa_butter.csv
FORM_VI_MELTS = 36.3  # the same
# kind -> (crystals stand up to, they are lost above), degC; in between it is a matter of time. Dark: melting point of
# form V, Wille & Lutton 1966, and 34 degC, Greweling, Chocolates and Confections, 2007. Milk and white, no source: milk
# fat lowers the melting point, by 1.1 to 1.6 degC as an ideal mixture (heat of form V 137 kJ/kg, from memory); the lower
# figures leave half a degree to what common practice still holds milk at (31 degC) and a degree to white (30 degC).
STAND_TO = {"dark": (FORM_V_MELTS, 34.0), "milk": (31.5, 32.5), "white": (31.0, 32.5)}
