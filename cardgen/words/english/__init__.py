"""English, by the subjects of the wordings; a wording's identifier stands once in all of them."""

from cardgen.words.english import (
    comparing,
    current,
    findings,
    gliding,
    lessons,
    pages,
    practice,
    preview,
    reckoning,
    reference,
    sheets,
    signing,
    tables,
    teaching,
    transition,
)
from cardgen.words.language import Language

SUBJECTS = (
    tables,
    gliding,
    pages,
    sheets,
    signing,
    current,
    reference,
    findings,
    lessons,
    reckoning,
    comparing,
    practice,
    preview,
    transition,
    teaching,
)
ENGLISH = Language(
    "en", {name: said for subject in SUBJECTS for name, said in subject.WORDINGS.items()}
)
