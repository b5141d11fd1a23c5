"""The tilt drive's own supply: its panel, battery, wire, fuse and ordinary parts."""
