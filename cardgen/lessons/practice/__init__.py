"""Practice: questions from an aircraft's own numbers, each with a key worked as on the board."""
