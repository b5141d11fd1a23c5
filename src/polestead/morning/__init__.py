"""Advice for one day: the forecast, the rules of the gust, the house run ahead, the line."""
