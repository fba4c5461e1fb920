"""The likeliest slip of a copyist: which other figure was meant, and how it came to be misread."""

from collections.abc import Iterable, Iterator

from cardgen.definition.places import Figure

_ALIKE = {"1": "7", "7": "1", "5": "6", "6": "5", "3": "8", "8": "30", "0": "8"}
_DIGITS = "0123456789"


def step_of(figures: list[Figure]) -> float:
    """Return what nearly all of some figures are multiples of: what they are rounded to.

    Examples
    --------
    >>> from cardgen.definition.places import Place
    >>> [step_of([Figure(text, Place("", 1, 1)) for text in row.split()]) for row in
    ...  ("9.5 9.0 8.6", "840 800 750 850", "113 110 115 120", "113 112 115 120")]
    [0.1, 10.0, 1.0, 1.0]
    """
    last = max(map(last_place, figures), key=lambda one: -one)
    whole = [round(figure / last) for figure in figures]
    for step in (10, 5):
        if sum(one % step == 0 for one in whole) >= 0.9 * len(whole):
            return step * last
    return last


def last_place(figure: Figure) -> float:
    """Return what one is worth in the last place of a figure: of a time, a minute."""
    if ":" in figure.text:
        return 1 / 60
    return float(10.0 ** -len(figure.text.partition(".")[2]))


def meant(figure: Figure, expected: float, within: float) -> str | None:
    """Return the figure that was probably meant: one slip away, and nearest to what is expected.

    A digit that looks like the right one and two neighbouring digits exchanged
    come before any other wrong digit, and that before a sign or a point.

    Examples
    --------
    >>> from cardgen.definition.places import Place
    >>> [meant(Figure(text, Place("", 1, 1)), 113.2, 1) for text in ("131", "118", "173", "150")]
    ['113', '113', '113', None]
    """
    text = figure.text
    if ":" in text:
        return None
    for slips in (_alike(text), _any_digit(text), _sign_or_point(text)):
        near = [one for one in slips if abs(float(one) - expected) <= within]
        if near:
            return min(near, key=lambda one: abs(float(one) - expected))
    return None


def likeliest(figure: Figure, others: Iterable[Figure]) -> Figure | None:
    """Return the one of other figures that a figure was most likely misread for."""
    known = list(others)
    for slips in (_alike(figure.text), _any_digit(figure.text)):
        values = {float(one) for one in slips}
        found = [one for one in known if float(one) in values]
        if found:
            return found[0]
    return known[0] if len(known) == 1 else None


def is_one_slip(figure: Figure, other: Figure) -> bool:
    """Whether one digit, or two neighbours, make one figure of another.

    Examples
    --------
    >>> from cardgen.definition.places import Place
    >>> a, b, c = (Figure(text, Place("", 1, 1)) for text in ("4000", "4100", "6200"))
    >>> is_one_slip(a, b), is_one_slip(a, c)
    (True, False)
    """
    return any(float(one) == other for one in (*_alike(figure.text), *_any_digit(figure.text)))


def _alike(text: str) -> Iterator[str]:
    for i, digit in enumerate(text):
        yield from (text[:i] + other + text[i + 1 :] for other in _ALIKE.get(digit, ""))
        if digit.isdigit() and text[i + 1 : i + 2].isdigit():
            yield text[:i] + text[i + 1] + digit + text[i + 2 :]


def _any_digit(text: str) -> Iterator[str]:
    for i, digit in enumerate(text):
        if digit.isdigit():
            yield from (text[:i] + other + text[i + 1 :] for other in _DIGITS)


def _sign_or_point(text: str) -> Iterator[str]:
    bare = text.lstrip("+-")
    yield bare if text.startswith("-") else f"-{bare}"
    if "." in text:
        yield text.replace(".", "")
    else:
        yield from (text[:i] + "." + text[i:] for i in range(1, len(text)) if text[i - 1].isdigit())
