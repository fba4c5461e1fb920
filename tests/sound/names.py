"""Names of types that do not exist: syllables that no maker would choose."""

import random

_FIRST = ("Zvo", "Mro", "Tle", "Gdo", "Ptu", "Vlu", "Dzi", "Ksa", "Hna", "Kva", "Tvo", "Bwo", "Dlo")
_MIDDLE = ("", "", "bmo", "kti", "lve", "gza", "ndu", "pfe", "zhi", "rmu")
_LAST = ("lkrom", "rvuk", "nzhel", "mbrit", "ftag", "ldusk", "rgoth", "vnep", "skwil", "tkran")


def type_name(chance: random.Random) -> str:
    letters = chance.choice(_FIRST) + chance.choice(_MIDDLE) + chance.choice(_LAST)
    return f"{letters} {chance.randrange(2, 60) * 5 + chance.randrange(5)}"
