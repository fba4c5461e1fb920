"""A school's own template that fails: its file and line are said, and what failed."""

import pytest

from cardgen.cli import main
from cardgen.folders import OwnFileError
from cardgen.render.templates import Templates


@pytest.mark.parametrize(
    ("text", "line", "said"),
    [
        ("a\n{% if x %}", 2, "Unexpected end of template"),
        ("a\n\n{{ nothing.at }}", 3, "'nothing' is undefined"),
        ("{{ 1 / 0 }}", 1, "division by zero"),
        ("a\n{% include 'no.html' %}", 2, "there is no template no.html"),
        ("a\n{% include 'other.html' %}", 4, "'deeper' is undefined"),
        ("\udcff", 1, "can't decode byte 0xff"),
    ],
)
def test_a_template_that_fails_is_told_by_file_and_line(tmp_path, text, line, said):
    (tmp_path / "page.html").write_bytes(text.encode(errors="surrogateescape"))
    (tmp_path / "other.html").write_text("\n\n\n{{ deeper }}")
    with pytest.raises(OwnFileError, match=said) as caught:
        Templates(tmp_path).render("page.html")
    file = "other.html" if "other" in text else "page.html"
    assert str(caught.value).startswith(f"{file}:{line}:1: error: ")


def test_what_fails_in_one_of_ours_is_no_fault_of_the_schools(tmp_path):
    (tmp_path / "tokens.css").write_text("")
    with pytest.raises(Exception, match="undefined") as caught:
        Templates(tmp_path).render("glossary.html")
    assert not isinstance(caught.value, OwnFileError)


def test_it_exits_1_and_leaves_the_site(make, tmp_path, capsys):
    make()
    own, site = tmp_path / "templates", tmp_path / "site"
    command = ["build", str(tmp_path), "--no-pdf", "--quiet", "--out", str(site)]
    assert main(command) == 0
    before = (site / "glossary.html").read_bytes()
    own.mkdir()
    (own / "glossary.html").write_text("\n{{ nothing }}")
    assert main(command) == 1
    said = capsys.readouterr().err
    assert said == (f"{own}/glossary.html:2:1: error: the template fails: 'nothing' is undefined\n")
    assert (site / "glossary.html").read_bytes() == before
    assert {one.name for one in tmp_path.iterdir()} == {
        *("fleet", "school.yaml", "site", "templates", "types"),
    }
