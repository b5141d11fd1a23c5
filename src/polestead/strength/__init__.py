"""Members, pins, welds, clamps, actuator, lock: allowable strengths (AISC 360 ASD)."""
