"""Build cards: one act a card."""
