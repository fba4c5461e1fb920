from tests.plain import make

__all__ = ["make"]
