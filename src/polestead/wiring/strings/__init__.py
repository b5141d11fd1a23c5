"""Strings in the cold and in the heat, against the controller, the dwelling and the battery."""
