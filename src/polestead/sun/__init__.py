"""The view (skyline and trees) and the sun on a tilting plane."""
