"""The owner's file: read, validate, write back, as planned and as built."""
