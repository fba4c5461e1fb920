"""The printed sheet of a next aircraft: one page, on which nothing is lost."""

import io
import itertools
import subprocess
import unicodedata

import pdfplumber
import pytest

from cardgen.lessons.transition.sheet import transition
from cardgen.render.next_aircraft import next_pdf
from cardgen.render.templates import Templates
from cardgen.words.english import ENGLISH
from tests.conftest import DEMO, documents_of
from tests.sampling import some

PAIRS = ["/".join(one) for one in itertools.permutations(sorted(documents_of(DEMO)), 2)]


@pytest.mark.parametrize("pair", some("sheets of pairs", PAIRS, ["ZZ-WTR/ZZ-TUA"]))
def test_all_of_two_demo_aircraft_stands_on_one_sheet(pair):
    """The sample has the most lines of all."""
    first, second = (documents_of(DEMO)[name] for name in pair.split("/"))
    found = transition(first, second)
    made = next_pdf(Templates(), found)
    with pdfplumber.open(io.BytesIO(made)) as pdf:
        (sheet,) = pdf.pages
        letters = [one["size"] for one in sheet.chars]
    command = ["pdftotext", "-raw", "-", "-"]  # as it was written: columns one after another
    done = subprocess.run(command, input=made, capture_output=True, check=True)
    text = " ".join(unicodedata.normalize("NFKC", done.stdout.decode()).split())
    for one in found.told:
        assert ENGLISH.say(one.said).split(":")[0] in text
    for beside in found.beside:
        assert ENGLISH.text(beside.title) in text
    assert min(letters) >= 7.4  # points: the smallest is the caution at the foot
