"""English, by the subjects of the wordings; a wording's identifier stands once in all of them."""

from cardgen.words.english import (
    comparing,
    findings,
    gliding,
    lessons,
    pages,
    reckoning,
    reference,
    sheets,
    tables,
)
from cardgen.words.language import Language

SUBJECTS = (tables, gliding, pages, sheets, reference, findings, lessons, reckoning, comparing)
ENGLISH = Language(
    "en", {name: said for subject in SUBJECTS for name, said in subject.WORDINGS.items()}
)
