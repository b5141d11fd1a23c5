"""The run from pole to controller: its conductor, what it carries, what it loses."""
