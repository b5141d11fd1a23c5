"""The build book: every page's words in Python, its laying out in one typst file."""
