"""Pier, bearing, uplift, twist, frost."""
