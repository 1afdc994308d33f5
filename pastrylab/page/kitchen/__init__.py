"""The forms of one's own kitchen: labels, couvertures, prices."""
