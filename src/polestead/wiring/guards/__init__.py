"""What guards the run: breakers, fuses, switches, the earth wire, surge, and the labels that say so."""
