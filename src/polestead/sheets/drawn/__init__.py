"""Working drawings with dimensions, one source for screen and paper; plates as a file of lines and as paper at 1:1."""
