"""The next aircraft: what a pilot of one would not expect of another, from their two documents."""
