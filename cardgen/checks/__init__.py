"""Rules that hold a definition against itself and against published rules.

Each module holds the rules on one subject. A rule is one small function; to
add one, write it under the subject it belongs to, with the `rule` decorator.
"""
