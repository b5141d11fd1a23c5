"""Advice for one day."""
