"""The parts, one file a neighbourhood: what acts on each, what it may carry, how much of that is used."""
