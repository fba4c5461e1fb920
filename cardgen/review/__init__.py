"""Marks of what is printed and of what was copied, and whether a signature holds for them."""
