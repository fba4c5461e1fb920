"""Sentences and headings for messages, and numbers and units as text."""
