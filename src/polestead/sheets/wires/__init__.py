"""Wires as text, part by part."""
