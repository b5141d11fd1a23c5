"""Every part at every tilt and gust: use, stands-to, what gives first."""
