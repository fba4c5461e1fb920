"""A school's own templates and picture: what is wrong with one, what layout reads, --untrusted."""

import io
import os
import re
import struct
import zlib
from pathlib import Path

import pytest
from PIL import Image

from cardgen.cli import main
from cardgen.folders import OwnFileError
from cardgen.publish.build import build
from cardgen.render.own import picture_of
from cardgen.render.press import Press
from cardgen.render.templates import Templates
from tests.conftest import ROOT, keep

SVG = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9">{}</svg>'


def png(width: int = 2, height: int = 2) -> bytes:
    out = io.BytesIO()
    Image.new("L", (width, height)).save(out, "PNG")
    return out.getvalue()


def claiming(width: int, height: int) -> bytes:
    """A small file that says it is huge."""
    head = b"IHDR" + struct.pack(">IIBBBBB", width, height, 8, 0, 0, 0, 0)
    return (
        png()[:8] + struct.pack(">I", 13) + head + struct.pack(">I", zlib.crc32(head)) + png()[33:]
    )


@pytest.mark.parametrize(
    ("name", "content", "said"),
    [
        ("picture.png", b"GIF89a", "found no PNG, expected one"),
        ("picture.png", png()[:45], "found a broken PNG"),
        ("picture.png", png(60, 60)[:-30], "found a broken PNG"),
        ("picture.png", claiming(60_000, 60_000), "found 60000 x 60000 pixels"),
        ("picture.png", png() + b" " * (2 << 20), "bytes, expected at most 2 MiB"),
        ("picture.svg", b"<svg", "found no SVG ("),
        ("picture.svg", b"<html/>", "found <html>, expected SVG"),
        ("picture.svg", b'<!DOCTYPE x [<!ENTITY a "b">]><svg/>', "found a document type"),
        ("picture.svg", b" " * (3 << 20), "bytes, expected at most 2 MiB"),
    ],
)  # fmt: skip
def test_a_picture_that_is_broken_or_huge_is_an_error_at_its_place(tmp_path, name, content, said):
    (tmp_path / name).write_bytes(content)
    with pytest.raises(OwnFileError) as caught:
        picture_of(tmp_path)
    assert str(caught.value).startswith(f"{name}:1:1: error: ")
    assert said in str(caught.value)


def test_a_sound_picture_is_taken(tmp_path):
    (tmp_path / "picture.png").write_bytes(png())
    assert picture_of(tmp_path) == (tmp_path / "picture.png").resolve()
    (tmp_path / "picture.svg").write_text(SVG.format(""))
    assert picture_of(tmp_path).name == "picture.svg"


def test_a_picture_is_no_link_out_of_the_folder_and_no_pipe(tmp_path):
    own, secret = tmp_path / "templates", tmp_path / "secret.png"
    own.mkdir()
    secret.write_bytes(png())
    (own / "picture.png").symlink_to(secret)
    with pytest.raises(OwnFileError, match="found a link that leads out of the folder"):
        picture_of(own)
    (own / "picture.png").unlink()
    os.mkfifo(own / "picture.png")
    with pytest.raises(OwnFileError, match="found no file, expected a picture"):
        picture_of(own)


@pytest.fixture
def quick(monkeypatch) -> None:
    """Builds make no PDFs."""
    monkeypatch.setattr(
        "cardgen.commands.build.build",
        lambda folder, out, progress, pdfs, **more: build(folder, out, progress, False, **more),
    )


def test_templates_and_pictures_are_left_alone_where_they_are_not_trusted(
    definitions, tmp_path, quick, capsys
):
    own, out = keep(definitions, "zz-wtr") / "templates", tmp_path / "site"
    own.mkdir()
    (own / "picture.png").write_bytes(b"no picture")
    (own / "glossary.html").write_text("{{ 6 * 7 }}")
    command = ["build", str(definitions), "--out", str(out)]
    assert main(command) == 1
    assert f"{own / 'picture.png'}:1:1: error: found no PNG" in capsys.readouterr().err
    assert not out.exists()
    assert main([*command, "--untrusted"]) == 0
    assert (out / "glossary.html").read_text().startswith("<!doctype html>")
    assert not list(out.rglob("picture*"))


def lay_out(own: Path | None, html: str) -> None:
    Press(own).printed(lambda page: html, lambda misses: [["one"]])


SECRET = (ROOT / "pyproject.toml").as_uri()


HTTP = "http://x.invalid/a.png"


@pytest.mark.parametrize(
    ("html", "address"),
    [
        ('<p>a</p>\n <img src="{}">', HTTP),
        ('<p>a</p>\n <img src="{}">', "ftp://x.invalid/a"),
        ('<p>a</p>\n <img src="{}">', SECRET),
        ('<p>a</p>\n <img src="{}">', "file://x.invalid/a"),
        ('<p>a</p>\n <p style="background: url({})">b', HTTP),
        ("<style>p {{ background: url({}) }}</style><p>b", HTTP),
        ('<link rel="stylesheet" href="{}">', SECRET),
        ("<style>@import url({});</style>", SECRET),
        ('<object data="{}"></object>', HTTP),
    ],
)
def test_layout_reads_no_network_and_no_other_folder(tmp_path, html, address):
    """Told with the place in the school's template that names the address."""
    html = html.format(address)
    (tmp_path / "card.html").write_text(html)
    with pytest.raises(OwnFileError) as caught:
        lay_out(tmp_path, html)
    before = html[: html.index(address)]
    place = f"{before.count(chr(10)) + 1}:{len(before) - before.rfind(chr(10))}"
    assert str(caught.value).startswith(f"card.html:{place}: error: found the address")
    assert address in str(caught.value)


def test_a_picture_that_names_an_address_is_told_at_it(tmp_path):
    path = tmp_path / "picture.svg"
    path.write_text(SVG.format(f'\n<image href="{SECRET}" width="9" height="9"/>'))
    with pytest.raises(OwnFileError, match=r"picture\.svg:2:14: error: found the address file:"):
        lay_out(tmp_path, f'<img src="{path.as_uri()}">')


def test_files_of_the_school_and_data_are_read(tmp_path):
    (tmp_path / "logo.png").write_bytes(png())
    lay_out(tmp_path, f'<img src="{(tmp_path / "logo.png").as_uri()}"><img src="data:,x">')
    with pytest.raises(OwnFileError, match="found the address"):
        lay_out(tmp_path, f'<img src="{(tmp_path / "lost.png").as_uri()}">')


def test_a_bookmark_is_a_string_of_css_whatever_is_in_it():
    words = "'; background: url(http://x.invalid/a) \"\\"
    said = Templates().environment.filters["css"](words)
    lay_out(None, f"<p style='bookmark-label: {said.replace(chr(39), '&#39;')}'>a")
    assert re.fullmatch(r'"([\w ]|\\[0-9a-f]{1,6} )*"', said)
