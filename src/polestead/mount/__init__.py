"""Frame, hinge, linkage, clearances, masses; the tilt schedule as plain data."""
