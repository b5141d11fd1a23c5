"""The wiring as data to draw: one-line, string map; and what a meter should show."""
