"""What is bought and cut: pieces, plates, bolts, metals that meet."""
