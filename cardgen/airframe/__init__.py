"""One aircraft that answers questions about its speeds."""
