"""The owner's log in SQLite beside the homestead file, and what it teaches."""
