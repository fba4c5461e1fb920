"""Files of the school's own that are copied into its site."""

import os
from pathlib import Path

import pytest

from cardgen.cli import main
from cardgen.definition.places import DefinitionError
from cardgen.publish import static
from cardgen.publish.build import build
from cardgen.publish.keys import inputs_of
from cardgen.publish.static import refuse_taken, static_file, static_in
from tests.publish.built import tree

OWN = {"CNAME": b"cards.example\n", ".nojekyll": b"", "rules/noise.pdf": b"%PDF", "x.png": b"\x89"}


def copied(site: Path) -> dict[str, bytes]:
    return {path: data for path, data in tree(site).items() if path in OWN}


@pytest.fixture
def own(make, tmp_path) -> Path:
    """Definitions of a plain aircraft, with files to copy."""
    make()
    for path, data in OWN.items():
        (tmp_path / "static" / path).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / "static" / path).write_bytes(data)
    return tmp_path


def test_they_stand_in_the_site_as_they_are_change_and_go(own, tmp_path_factory):
    out, cache = (tmp_path_factory.mktemp("built") / one for one in ("site", "cache"))

    def made() -> set[str]:
        return set(build(own, out, pdfs=False, cache=cache).made)

    assert made() >= OWN.keys()
    assert copied(out) == OWN
    assert made() == set()
    (own / "static/x.png").write_bytes(b"other")
    assert made() == {"x.png", "cardgen.json"}
    (own / "static/rules/noise.pdf").unlink()
    assert made() == set()  # PDFs have a list of their own, which went with the last
    assert copied(out) == {one: OWN[one] for one in ("CNAME", ".nojekyll")} | {"x.png": b"other"}
    assert not (out / "rules").exists()
    build(own, out, pdfs=False, cache=cache, untrusted=True)
    assert copied(out) == {}


def test_what_is_edited_while_it_is_copied_is_not_taken_for_what_it_was(
    own, tmp_path_factory, monkeypatch
):
    out, cache = (tmp_path_factory.mktemp("built") / one for one in ("site", "cache"))
    before = static_file(own, "CNAME")
    inputs = inputs_of(own, pdfs=False)
    (own / "static/CNAME").write_bytes(b"other")
    with monkeypatch.context() as patch:
        patch.setattr("cardgen.publish.build.inputs_of", lambda *_: inputs)
        build(own, out, pdfs=False, cache=cache)
    (own / "static/CNAME").write_bytes(before)
    assert "CNAME" in build(own, out, pdfs=False, cache=cache).made
    assert (out / "CNAME").read_bytes() == before


@pytest.mark.parametrize("name", ["index.html", "T-EST/CARD.json", "t-est", "assets/page.css/x"])
def test_one_that_cardgen_makes_itself_is_a_fault_that_names_both(own, name, capsys):
    path = own / "static" / name
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text("ours")
    assert main(["build", str(own), "--no-pdf", "--out", str(own / "site")]) == 1
    said = capsys.readouterr().err
    assert f"{path}:1:1: error: cardgen makes " in said
    assert " of the site itself, expected another name" in said
    assert not (own / "site").exists()


def test_a_tables_file_is_known_when_it_is_made(own):
    (own / "static/T-EST").mkdir()
    (own / "static/T-EST/calibration.csv").write_text("ours")
    with pytest.raises(DefinitionError, match=r"^static/T-EST/calibration.csv:1:1: cardgen makes"):
        build(own, own / "site", pdfs=False)


def link_out(folder: Path) -> None:
    (folder / "secret").symlink_to("/etc/passwd")


def folder_out(folder: Path) -> None:
    (folder / "secret").symlink_to("/etc")


def to_definitions(folder: Path) -> None:
    (folder / "secret").symlink_to("../school.yaml")


def pipe(folder: Path) -> None:
    os.mkfifo(folder / "secret")


def nothing(folder: Path) -> None:
    (folder / "secret").symlink_to("nowhere")


def huge(folder: Path) -> None:
    with (folder / "secret").open("wb") as file:
        file.truncate(static.LARGEST + 1)


def itself(folder: Path) -> None:
    (folder / "secret").symlink_to("secret")


def unseen(folder: Path) -> None:
    (folder / "a\x1b[2J\n::error::b.html").write_text("x")


def workshop(folder: Path) -> None:
    (folder / ".cardgen").mkdir()
    (folder / ".cardgen" / "readme").write_text("x")


def repository(folder: Path) -> None:
    (folder / ".git").mkdir()
    (folder / ".git" / "HEAD").write_text("ref: refs/heads/main")


@pytest.mark.parametrize(
    ("make_it", "said"),
    [
        (link_out, "static/secret:1:1: found a link that leads out of the folder"),
        (folder_out, "static/secret:1:1: found a link that leads out of the folder"),
        (to_definitions, "static/secret:1:1: found a link that leads out of the folder"),
        (pipe, "static/secret:1:1: found a pipe, expected a file"),
        (nothing, "static/secret:1:1: found a link to nothing, expected a file"),
        (itself, "static/secret:1:1: found a link to nothing, expected a file"),
        (unseen, r"static/a\\u001b\[2J\\n\\u003a:error::b.html:1:1: found a file name with a char"),
        (workshop, "static/.cardgen:1:1: a build works there, expected another name"),
        (huge, "static/secret:1:1: the file has 67108865 bytes, expected at most 64 MiB"),
        (repository, "static/.git:1:1: found a repository, expected files to copy"),
    ],
)
def test_what_is_no_file_of_the_folder_is_said(own, make_it, said):
    make_it(own / "static")
    with pytest.raises(DefinitionError, match=f"^{said}"):
        inputs_of(own, pdfs=False)
    assert inputs_of(own, pdfs=False, untrusted=True).static == {}


def test_a_folder_elsewhere_is_not_copied(own):
    (own / "static").rename(own / "other")
    (own / "static").symlink_to("/etc")
    with pytest.raises(DefinitionError, match="found a link that leads out"):
        static_in(own)


def test_two_names_that_differ_in_capitals_alone_are_one_on_some_disks():
    with pytest.raises(
        DefinitionError, match=r"static/logo\.svg:1:1: it is Logo\.svg but for capital"
    ):
        refuse_taken(["Logo.svg", "logo.svg"], ["index.html"])
    refuse_taken(["a/logo.svg", "logo.svg"], ["index.html"])


def test_without_the_folder_there_are_none(make, tmp_path):
    make()
    assert static_in(tmp_path) == []
    refuse_taken([], ["index.html"])
