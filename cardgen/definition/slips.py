"""What the words that stand in place of a number were meant to be, where the slip can be named."""

import re
import unicodedata

from cardgen.units import UNITS

BLANK = "___"  # what a new file has where a figure is to be filled in

_UNITS_AS_WRITTEN = {
    "kts", "kn", "knot", "knots", "kias", "kcas", "ktas", "mias", "mcas", "kph", "kmh", "feet",
    "foot", "metre", "metres", "meter", "meters", "lbs", "pounds", "kgs", "kilos", "gph", "lph",
    "usg", "degrees", "rpm", "fpm", "°", "°c", "°f", "%", "'", "mbar",
}  # fmt: skip
_SEPARATORS = {",": "comma", " ": "space", "'": "apostrophe", "’": "apostrophe", "_": "underscore"}
_NO_FIGURE = {"-", "–", "—", "n/a", "na", "none", "nil", "tbd", "?", "x"}
_YES_OR_NO = {"yes", "no", "on", "off", "true", "false", "y", "n"}
_NUMBER = re.compile(r"[-+]?([0-9]+(\.[0-9]*)?|\.[0-9]+)")


def remedy_for(words: str) -> str:
    """Say how to mend words that should be a number, as the end of a message, or nothing.

    Examples
    --------
    >>> remedy_for("1,653 lb")
    '; leave the unit out, it is declared once under units; leave the comma out: 1653'
    >>> remedy_for("54,5"), remedy_for("15l")
    ('; write the decimal comma as a point: 54.5', '; a letter stands for a digit: 151?')
    >>> remedy_for("best")
    ''
    """
    folded = words.strip().casefold()
    if _NUMBER.fullmatch(words.strip()):
        return "; leave the quotation marks out"
    if folded in _NO_FIGURE:
        return "; where the manual gives no figure, take the key out"
    if folded in _YES_OR_NO:
        return "; yes and no are words here"
    if re.fullmatch(r"\d{1,4}[-./]\d{1,2}[-./]\d{1,4}", folded):
        return "; a date does not stand here"
    if re.fullmatch(r"\d{1,2}:\d\d(:\d\d)?", folded):
        return "; a time does not stand here"
    return _mended(words.strip())


def _mended(text: str) -> str:
    """Undo slips one after the other, for as long as that leads to a number."""
    remedies = []
    for slip in _SLIPS:
        found = slip(text)
        if found is not None:
            remedy, text = found
            remedies.append(remedy)
    if not remedies or not _NUMBER.fullmatch(text):
        return ""
    query = "?" if remedies[-1].startswith("a letter") else ""
    return f"; {'; '.join(remedies)}: {text}{query}"


Mended = tuple[str, str] | None  # what to do, and what it gives


def _digits(text: str) -> Mended:
    plain = "".join(str(unicodedata.decimal(one, one)) for one in text)
    return None if plain == text else ("write its digits as 0 to 9", plain)


def _minus(text: str) -> Mended:
    if text[:1] not in ("−", "–", "—"):
        return None
    return "write the minus sign as a hyphen", f"-{text[1:].strip()}"


def _unit(text: str) -> Mended:
    for end in range(1, len(text)):
        unit = text[end:].strip()
        if unit in UNITS or unit.casefold() in _UNITS_AS_WRITTEN:
            told = "leave the unit out, it is declared once under units"
            return told, text[:end].strip()
    return None


def _separator(text: str) -> Mended:
    found = re.fullmatch(r"[-+]?\d{1,3}(?:([, '’_])\d{3})(?:\1\d{3})*(?:\.\d+)?", text)
    found = found or re.fullmatch(r"[-+]?\d+(_)[\d_]*\d(?:\.\d+)?", text)
    if found is None:
        return None
    return f"leave the {_SEPARATORS[found[1]]} out", text.replace(found[1], "")


def _decimal_comma(text: str) -> Mended:
    if not re.fullmatch(r"[-+]?\d+,\d+", text):
        return None
    return "write the decimal comma as a point", text.replace(",", ".")


def _power(text: str) -> Mended:
    if not re.fullmatch(r"[-+]?\d+(\.\d+)?[eE][-+]?\d", text):
        return None
    return "write all its digits", f"{float(text):.12g}"


def _base(text: str) -> Mended:
    if not re.fullmatch(r"0([xX][0-9a-fA-F]{1,8}|[oO][0-7]{1,8}|[bB][01]{1,8})", text):
        return None
    return "write it in ordinary digits", str(int(text, 0))


def _ratio(text: str) -> Mended:
    found = re.fullmatch(r"(\d+(?:\.\d+)?)\s*:\s*1|1\s*:\s*(\d+(?:\.\d+)?)", text)
    if found is None:
        return None
    return "write one number, not a ratio", found[1] or found[2]


def _letter(text: str) -> Mended:
    if not re.fullmatch(r"[-+]?(?=.*\d)(?=.*[OoIlSB])[\d.OoIlSB]+", text):
        return None
    return "a letter stands for a digit", text.translate(str.maketrans("OoIlSB", "001158"))


_SLIPS = (_digits, _minus, _unit, _separator, _decimal_comma, _power, _base, _ratio, _letter)
