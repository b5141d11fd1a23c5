"""Drawings, charts, the text and paper an answer is printed as."""
