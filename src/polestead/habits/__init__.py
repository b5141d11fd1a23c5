"""Which tilt on which day, and what each habit is worth."""
