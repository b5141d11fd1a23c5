"""Uses, battery, controllers, inverter, engine: hour by hour, year after year."""
