"""What is raised, on what, held by what, in which order."""
