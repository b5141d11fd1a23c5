"""Hole, trench and pour."""
