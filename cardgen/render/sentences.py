"""Sentences of a page: terms linked to the glossary, speeds marked for the switch of units."""

import html
from collections.abc import Iterable, Iterator
from functools import lru_cache

from markupsafe import Markup, escape

from cardgen.document.record import Message, Quantity
from cardgen.document.rounding import DECIMALS, rounded
from cardgen.units import ratio, units_of
from cardgen.words.language import Language, Segment

SPEED_UNITS = tuple(unit for unit in ("kt", "mph", "km/h") if unit in units_of("speed"))


def anchor(term: str) -> str:
    """Return the name that a term, a V-speed or a formula has in links.

    Examples
    --------
    >>> anchor("best glide"), anchor("VNE")
    ('best-glide', 'VNE')
    """
    return term.replace(" ", "-")


def sentence(
    language: Language,
    said: str | Message | None,
    root: str = "",
    seen: set[str] | None = None,
    speeds: bool = False,
) -> Markup:
    """Return a message as a page says it; words that were entered stay as they are.

    Parameters
    ----------
    language : Language
    said : str or Message, optional
    root : str
        The way from the page to the site's first folder.
    seen : set of str, optional
        The terms that the page has linked; each is linked where it stands first.
    speeds : bool
        Whether a page's switch of units converts the sentence's speeds.
    """
    if not isinstance(said, Message):
        return escape(said or "")
    return Markup("").join(_parts(language.segments(said), root, seen, speeds))


def _parts(
    segments: Iterable[Segment], root: str, seen: set[str] | None, speeds: bool
) -> Iterator[Markup]:
    for segment in segments:
        if speeds and _is_converted(segment):
            yield Markup("<span {}>{}</span>").format(_speed(segment), segment.text)
        elif segment.term and seen is not None:
            yield link(segment.text, segment.term, root, seen)
        else:
            yield escape(segment.text)


def link(text: str | Markup, term: str, root: str, seen: set[str]) -> Markup:
    """Return a term as a link to the glossary, where the page says it for the first time."""
    place = anchor(term)
    if place in seen:
        return escape(text)
    seen.add(place)
    return Markup('<a class="term" href="{}glossary.html#{}">{}</a>').format(root, place, text)


def _is_converted(segment: Segment) -> bool:
    """Whether a switch of units has to do with a part of a sentence.

    Of what the indicator shows the number has another beside it; its unit stays.
    """
    if segment.quantity is not None:
        return segment.quantity.unit in SPEED_UNITS
    return segment.unit in SPEED_UNITS and segment.form != "shown"


def _speed(segment: Segment) -> Markup:
    """Return the attributes that the switch of units reads."""
    quantity = segment.quantity
    if quantity is None:
        return Markup('data-speed="{}"').format(segment.unit)
    given = {
        "speed": quantity.unit,
        "value": enough(quantity.value, quantity),
        "high": None if quantity.high is None else enough(quantity.high, quantity),
        "sense": _unless(quantity.sense, Quantity.__dataclass_fields__["sense"].default),
        "decimals": quantity.decimals or None,
        "form": _unless(segment.form, Segment.__dataclass_fields__["form"].default),
    }
    return Markup(" ").join(
        Markup('data-{}="{}"').format(name, value)
        for name, value in given.items()
        if value is not None
    )


def _unless(value: str, usual: object) -> str | None:
    return None if value == usual else value


def quoted(value: str) -> Markup:
    """Return JSON for an attribute in single quotes, which JSON seldom has.

    Examples
    --------
    >>> print(quoted('["a < b"]'), quoted("'"))
    ["a &lt; b"] &#39;
    """
    return Markup(html.escape(value, quote=False).replace("'", "&#39;"))


@lru_cache(20_000)  # a page, its files and its sisters' pages have the same numbers
def enough(value: float, quantity: Quantity) -> int | float:
    """Return a speed with no more digits than it takes to print it alike in every unit.

    Parameters
    ----------
    value : float
        One end of the quantity.
    quantity : Quantity
        What it is rounded as.

    Examples
    --------
    >>> enough(68.0, Quantity(68.0, "kt")), enough(88.106012, Quantity(88.106012, "mph"))
    (68, 88.1)
    """
    wanted = _printed(value, quantity)
    fewest = next(n for n in range(DECIMALS + 1) if _printed(round(value, n), quantity) == wanted)
    return round(value, fewest or None)


def _printed(value: float, quantity: Quantity) -> list[float]:
    """Return what a speed is printed as in each unit, as the page's script converts it."""
    ratios = (ratio(quantity.unit, to) for to in SPEED_UNITS)
    ends = (value * times / by for times, by in ratios)
    return [rounded(end, quantity.sense, quantity.decimals) for end in ends]
