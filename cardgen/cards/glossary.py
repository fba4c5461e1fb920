"""The terms that the glossary explains, by its sections; their wordings stand with the words."""

from cardgen.definition.names import slug
from cardgen.definition.speeds import SPEEDS
from cardgen.document.record import Term

GLOSSARY: tuple[tuple[str, tuple[Term, ...]], ...] = (
    ("airspeeds", tuple(map(Term, ("IAS", "manual-IAS", "CAS", "EAS", "TAS", "GS", "Mach")))),
    (
        "errors",
        tuple(
            map(
                Term,
                (
                    "position-error",
                    "instrument-correction",
                    "compressibility",
                    "alternate-static-source",
                ),
            )
        ),
    ),
    ("air", tuple(map(Term, ("pressure-altitude", "density-altitude", "OAT", "ISA", "QNH")))),
    ("flight", (Term("load-factor"), Term("demonstrated-crosswind"))),
    ("v-speeds", tuple(Term(slug(name), speed.sense) for name, speed in SPEEDS.items())),
)
