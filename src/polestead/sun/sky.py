"""The numbers of the two skies, as published; plain, so that what is compiled and what is not read the same ones."""

from __future__ import annotations

LEAST_COS = 0.01745  # Hay & Davies: of 89 degrees, below which the light about the sun is not laid over a larger slant
LEAST_COS_PEREZ = 0.08715574274765814  # Perez et al. 1990: of 85 degrees
KAPPA = 1.041  # Perez et al. 1990, for the zenith in radians
BINS = (1.065, 1.23, 1.5, 1.95, 2.8, 4.5, 6.2)  # sky clearness, Perez et al. 1990
