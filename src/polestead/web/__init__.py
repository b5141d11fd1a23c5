"""The page in the browser; no formula, no default, no unit factor of its own."""
