"""x"""

FILLINGS = ()
