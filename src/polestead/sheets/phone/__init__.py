"""The phone file: one page of HTML that needs nothing else, opened from the phone's own storage."""
