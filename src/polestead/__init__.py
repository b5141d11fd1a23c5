"""Polestead: a tipping solar array on one pole, planned, checked, built and run by its owner.

The rooms and what each may read stand in ``docs/house.md``; the conventions in ``docs/conventions.md``.
"""

__version__ = "0.1.0"
