"""Pieces, concrete, trench, weights, steps with gates, asking list."""
