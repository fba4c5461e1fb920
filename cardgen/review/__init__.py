"""Marks of what is printed and of what was copied."""
