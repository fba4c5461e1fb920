"""Fingerprints of what is printed, for review."""
