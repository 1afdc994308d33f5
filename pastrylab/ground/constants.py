"""Constants of nature that more than one module needs. What belongs to one model stands beside that model."""

ZERO_CELSIUS = 273.15  # K, exact: BIPM, The International System of Units, 9th edition, 2.3.1

# g/mol, from IUPAC standard atomic weights (2021).
WATER_MOLAR_MASS = 18.0153
HEXOSE_MOLAR_MASS = 180.1559  # glucose, fructose, galactose
DISACCHARIDE_MOLAR_MASS = 342.2965  # sucrose, maltose, lactose
CITRIC_ACID_MOLAR_MASS = 192.1235  # anhydrous

FORM_V_MELTS = 33.8  # degC, cocoa butter: Wille & Lutton 1966, as in cocoa_butter.csv
