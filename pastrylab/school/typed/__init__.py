"""Exercises typed as rows of a sheet: their formulas read, reckoned and written out, without any code being run."""
