"""Quantities, sources, checks, workings, rows, problems, the hours of a year.  Knows nothing of solar."""
