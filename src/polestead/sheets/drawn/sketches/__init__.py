"""A sketch for each build card: the thing of this act, and only the dimensions of this act."""
