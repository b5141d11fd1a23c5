"""What the weather may do: as heard, from a file, from an open service, or by climate alone."""
