"""The little separate system that drives the tilt."""
