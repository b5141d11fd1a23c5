"""Strings, conductors, drop, protection, burial, earthing, battery dangers."""
