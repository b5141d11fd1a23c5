"""Dead, wind, snow loads and their combinations, after ASCE 7."""
