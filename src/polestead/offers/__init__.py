"""Designs that stand and carry the house; doubts: assumed rows ranked by how far they move the answers."""
