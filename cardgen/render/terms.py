"""The glossary's terms, and links to them from where they stand first on a page."""

import re
from collections.abc import Callable

from markupsafe import Markup, escape

from cardgen.definition.speeds import SPEEDS

# What the glossary explains, as the pages write it, and where. V-speeds come of themselves.
TERMS = {
    "indicator shows": "indicated",
    "IAS": "IAS",
    "CAS": "CAS",
    "calibrated airspeed": "CAS",
    "EAS": "EAS",
    "TAS": "TAS",
    "true airspeed": "TAS",
    "GS": "GS",
    "ground speed": "GS",
    "Mach": "Mach",
    "position error": "position-error",
    "instrument correction": "instrument-correction",
    "bench card": "instrument-correction",
    "compressibility": "compressibility",
    "pressure altitude": "pressure-altitude",
    "density altitude": "density-altitude",
    "altimeter setting": "QNH",
    "QNH": "QNH",
    "OAT": "OAT",
    "outside air temperature": "OAT",
    "ISA": "ISA",
    "standard atmosphere": "ISA",
    "load factor": "load-factor",
    "alternate static source": "alternate-static-source",
    "demonstrated crosswind": "demonstrated-crosswind",
    **{name: name for name in SPEEDS if name.isupper() or name[1:].isdigit()},
}


def anchor(term: str) -> str:
    """Return the name that a term, a V-speed or a formula has in links.

    Examples
    --------
    >>> anchor("best glide"), anchor("VNE")
    ('best-glide', 'VNE')
    """
    return term.replace(" ", "-")


def first_uses(root: str) -> Callable[[str], Markup]:
    """Return a function that links a page's terms to the glossary, each where it stands first.

    Examples
    --------
    >>> linked = first_uses("")
    >>> str(linked("Read CAS")), str(linked("the CAS"))
    ('Read <a class="term" href="glossary.html#CAS">CAS</a>', 'the CAS')
    """
    seen: set[str] = set()

    def link(found: re.Match[str]) -> str:
        said = found[0]
        place = _PLACES[said]
        if place in seen:
            return said
        seen.add(place)
        return f'<a class="term" href="{root}glossary.html#{place}">{said}</a>'

    def linked(text: str) -> Markup:
        if text in SPEEDS:  # a plain word such as approach is a speed only where it stands alone
            return Markup(re.sub("^.+$", link, text))
        return Markup(_TERM.sub(link, str(escape(text))))

    return linked


def _capital(term: str) -> str:
    return term[0].upper() + term[1:]


_PLACES = {
    **{_capital(term): place for term, place in TERMS.items()},
    **TERMS,
    **{name: anchor(name) for name in SPEEDS},
}
_TERM = re.compile(
    rf"\b(?:{'|'.join(sorted({*TERMS, *map(_capital, TERMS)}, key=len, reverse=True))})\b"
)
