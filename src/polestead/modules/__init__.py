"""Module, cell temperature, string electrics."""
