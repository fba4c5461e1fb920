"""Pages of a manual, as people write them: one, or from one to another, with whatever dash."""

import re
from collections.abc import Iterable, Iterator
from typing import NamedTuple

Number = tuple[tuple[str, ...], tuple[int, ...]]  # of a page: what stands between its digits, those

_HYPHENS = "-\N{HYPHEN}\N{NON-BREAKING HYPHEN}"
_DASHES = "\N{FIGURE DASH}\N{EN DASH}\N{EM DASH}\N{HORIZONTAL BAR}\N{MINUS SIGN}"
_AND = re.compile(r"\s*(?:[,;&\n]\s*and\b|[,;&\n]|\band\b)\s*")
_TO = re.compile(
    rf"\s+(?P<word>to|through|thru|until)\s+|\s+[{_HYPHENS}]\s+|\s*[{_DASHES}]\s*|\s*(?:\.\.+|…)\s*"
)
_CALLED = re.compile(r"(?:pages?|pgs?|pp?)(?:\.\s*|\s+)")
_JOINED = re.compile(rf"(?<=[0-9])[.{_HYPHENS}](?=[0-9])")
_PAGE = r"(?:[a-z]{1,4}-?|[a-z][ .])?[0-9]+(?:-[0-9]+){0,2} ?[a-z]?"
_ONE = re.compile(rf"{_PAGE}|[ivxlc]+")
_NAMED = re.compile(rf"(?<![\w-]){_PAGE}(?![\w-])")


class Pages(NamedTuple):
    """Pages from one to another, which may be the same, as they were written."""

    text: str
    first: Number
    last: Number

    def meet(self, other: "Pages") -> bool:
        """Whether a page is among these and among others: 2-3 is never among S2-1 to S2-9."""
        return (
            self.first[0] == other.first[0]
            and self.first[1] <= other.last[1]
            and other.first[1] <= self.last[1]
        )


def pages_of(text: str) -> list[Pages]:
    """Read pages as people write them.

    Where a dash may join the two numbers of a page or be short for *to*, it is taken for both:
    one reads too much rather than too little.

    Raises
    ------
    ValueError
        If something is no page, or a range has no order.

    Examples
    --------
    >>> [one.text for one in pages_of("2-3, pp. 5-12 to 5-14 and S12-4")]
    ['2-3', 'pp. 5-12 to 5-14', 'S12-4']
    >>> pages_of("2-3 to S12-4")
    Traceback (most recent call last):
    ValueError: 2-3 to S12-4
    """
    folded = text.casefold()
    if len(folded) != len(text):  # then it is no page, and its parts could not be found again
        raise ValueError(text)
    ends = [(one.start(), one.end()) for one in _AND.finditer(folded)]
    starts = [0, *(end for _, end in ends)]
    parts = [text[a:b] for a, b in zip(starts, [*(one for one, _ in ends), None], strict=True)]
    return [one for part in parts for one in _readings(" ".join(part.split()))]


def pages_in(label: str) -> list[Pages]:
    """Read the pages that a definition names, which may be any words, and pages among them."""
    try:
        return pages_of(label)
    except ValueError:
        words = Pages(label, _words(label), _words(label))
    found = _NAMED.findall(_JOINED.sub("-", label.casefold()))
    return [words, *(Pages(label, _number(one), _number(one)) for one in found)]


def asked(text: str, labels: Iterable[str]) -> list[Pages]:
    """Read pages that are asked for, which may also be words that some definition has for a page.

    Raises
    ------
    ValueError
        If something is neither.
    """
    known = {_words(one) for one in labels}
    found = []
    for part in [text] if _words(text) in known else re.split(r"[,;](?:\s*and\b)?", text):
        found += pages_in(part) if _words(part) in known else pages_of(part)
    return found


def order(page: str) -> list[tuple[int, str]]:
    """Return what pages are sorted by: 2-10 stands behind 2-9."""
    parts = re.split(r"([0-9]+)", page.casefold())
    return [(int(one), "") if number % 2 else (0, one) for number, one in enumerate(parts)]


def _readings(text: str) -> Iterator[Pages]:
    """Yield what pages one part may mean."""
    plain = text.casefold().removeprefix("from ")
    first, *rest = _TO.split(plain, maxsplit=1)
    is_word, last = rest or (None, first)
    first, last = _plain(first, text), _plain(last, text)
    pages = Pages(text, _number(first), _number(last))
    if rest and not is_word and first.isdecimal() and last.isdecimal():
        joined = _number(f"{first}-{last}")
        yield Pages(text, joined, joined)
        if pages.first > pages.last:
            return
    if pages.first[0] != pages.last[0] or pages.first > pages.last:
        raise ValueError(text)
    yield pages


def _plain(end: str, text: str) -> str:
    """Return a page with one sort of hyphen, and without what calls it one."""
    called = _CALLED.match(end)
    plain = _JOINED.sub("-", end[called.end() if called else 0 :])
    if not _ONE.fullmatch(plain):
        raise ValueError(text)
    return re.sub(r"(?<=[0-9]) (?=[a-z])|(?<=[a-z])[ .-](?=[0-9])", "", plain)


def _number(page: str) -> Number:
    parts = re.split(r"([0-9]+)", page.strip())
    return tuple(parts[::2]), tuple(map(int, parts[1::2]))


def _words(text: str) -> Number:
    return (" ".join(text.casefold().split()),), ()
