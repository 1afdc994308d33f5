"""x"""

SYRUPS = ()
