"""Rules that hold a definition against itself and against published rules."""
