"""x"""

PIECES = ()
