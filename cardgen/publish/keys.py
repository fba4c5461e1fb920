"""Keys: hashes of all that a file of a site depends on, so that one key has one content.

Only the standard library is imported here, and nothing of ours that imports more: a build that
has nothing to do needs no more than this to know.
"""

import hashlib
import json
import os
import re
import sys
from collections.abc import Iterable, Iterator, Mapping
from contextlib import suppress
from dataclasses import dataclass, field
from functools import cache, cached_property
from pathlib import Path

from cardgen.definition.files import (
    LARGEST_FILE,
    LARGEST_RECORD,
    ROOMS,
    content_of,
    definitions_in,
    inside,
    records_in,
    unread_in,
)
from cardgen.definition.places import DefinitionError
from cardgen.folders import PICTURES, OwnFileError, files_in, leads_out, own_templates
from cardgen.publish.static import static_file, static_in

# What makes a document, what makes pages of one, and what lays sheets out: rooms of the house, and
# packages. The tests hold these lists against what the rooms import and the packages need.
_MAKING = ("publish/making.py", "publish/work.py")
DOCUMENT_ROOMS = (
    *("__init__.py", "units.py", "folders.py", "document/", "air/", "definition/", "airframe/"),
    *("cards/", "checks/", "words/", "review/", *_MAKING),
)
NEXT_ROOMS = (
    *("__init__.py", "units.py", "document/", "air/", "words/", "lessons/__init__.py"),
    *("lessons/curves.py", "lessons/transition/"),
)
TAUGHT_ROOMS = (
    *("__init__.py", "units.py", "document/", "air/", "words/", "lessons/__init__.py"),
    *("lessons/altimeter.py", "lessons/curves.py", "lessons/limits.py", "lessons/lines.py"),
    *("lessons/reckoning.py", "lessons/stalling.py", "lessons/teaching/"),
)
SHOWN_ROOMS = (
    *("__init__.py", "units.py", "folders.py", "document/", "words/", "layout/", "render/"),
    *_MAKING,
)
_TYPED = (
    *("pydantic", "pydantic-core", "annotated-types", "typing-extensions", "typing-inspection"),
)
_TEMPLATED = ("jinja2", "markupsafe")
DOCUMENT_PACKAGES = ("numpy", "pyyaml", *_TYPED, *_TEMPLATED)
PAGE_PACKAGES = (*_TYPED, *_TEMPLATED)
SHEET_PACKAGES = (
    *("weasyprint", "pydyf", "tinycss2", "tinyhtml5", "cssselect2", "webencodings", "pyphen"),
    *("fonttools", "brotli", "zopfli", "pillow", "cffi", "pycparser", "pikepdf", "lxml"),
    *(
        "deprecated",
        "packaging",
        "wrapt",
        "fontpkg-ibm-plex-sans-condensed",
        "segno",
        *PAGE_PACKAGES,
    ),
)
LIBRARIES = {  # by what WeasyPrint opens them: the function of each that tells its version
    "libgobject-2.0.so.0": "",
    "libpango-1.0.so.0": "pango_version_string",
    "libharfbuzz.so.0": "hb_version_string",
    "libharfbuzz-subset.so.0": "",
    "libharfbuzz-vector.so.0": "",
    "libfontconfig.so.1": "",
    "libpangoft2-1.0.so.0": "",
}
_LOADED = re.compile(
    r"\S*/lib(?:glib|gobject|pango|pangoft2|harfbuzz|harfbuzz-subset|harfbuzz-vector|fontconfig|freetype|fribidi)"
    r"[-.\d]*\.so\S*$",
    re.MULTILINE,
)
_FONT_FOLDERS = ("/usr/share/fonts", "/usr/local/share/fonts", "~/.fonts", "~/.local/share/fonts")
_FONT_SETTINGS = ("/etc/fonts", "~/.config/fontconfig")

SHEETS = ("card.html", "drawing.svg", "tokens.css")  # the templates that sheets begin with
NEXT_SHEET = ("next-sheet.html", "tokens.css", "handout.css")
_NAMED = re.compile(r"""["']([\w./-]+\.(?:html|css|js|svg))["']""")
Hashes = Mapping[str, str]  # by name
Own = tuple[tuple[str, bytes], ...]  # a school's own templates, by name


def key(*parts: object) -> str:
    """Return the key of plain data: the SHA-256 (FIPS 180-4) of it as JSON."""
    return hashed(json.dumps(parts, sort_keys=True).encode())


def hashed(data: bytes) -> str:
    """Return the hash of a file's bytes."""
    return hashlib.sha256(data).hexdigest()


@dataclass(frozen=True)
class Maker:
    """What makes a site, apart from the definitions.

    Attributes
    ----------
    documents, pages, sheets, next, taught : str
        Keys of what makes each: sources, versions, fonts.
    templates : mapping
        Our templates' texts by name.
    """

    documents: str
    pages: str
    sheets: str
    templates: Mapping[str, str]
    next: str = ""
    taught: str = ""


@dataclass(frozen=True)
class Inputs:
    """All that a site is made of.

    Attributes
    ----------
    definitions : mapping
        The hash of each definition by the name of its file.
    own : tuple
        The school's own templates.
    maker : Maker
    static : mapping
        The hash of each file of the school's own that is copied.
    """

    definitions: Hashes
    own: Own
    maker: Maker
    static: Hashes = field(default_factory=dict)

    @property
    def key(self) -> str:
        """The key of all of it."""
        own = {name: hashed(data) for name, data in self.own}
        maker = self.maker
        parts = (
            maker.documents,
            maker.pages,
            maker.sheets,
            maker.next,
            maker.taught,
            {**maker.templates},
        )
        return key({**self.definitions}, own, *parts, {**self.static})

    @property
    def picture(self) -> str:
        """The name of the school's picture, if it has one."""
        own = dict(self.own)
        return next((name for name in PICTURES if name in own), "")

    def document(self, airframe: str, type_file: str, registration: str = "") -> str:
        """Return the key of an aircraft's document, by the files that say what it is."""
        files = {name: self.definitions[name] for name in ("school.yaml", type_file, airframe)}
        signed = self._signed.get(registration, {})
        return key("document", self.maker.documents, files, *([signed] if signed else []))

    @cached_property
    def _signed(self) -> dict[str, dict[str, str]]:
        """The hashes of the records of signed cards, by registration."""
        found: dict[str, dict[str, str]] = {}
        for name, hash_ in self.definitions.items():
            if name.startswith("signed/"):
                found.setdefault(name.split("/")[1], {})[name] = hash_
        return found

    def next(self, *documents: str) -> str:
        """Return the key of what to mind in an aircraft after another, by their documents."""
        return key("next", self.maker.next, documents)

    def page(self, template: str, *shown: object) -> str:
        """Return the key of a page: of what is shown, and the template that it is shown by."""
        used = self._templates((template, "drawing.svg"))
        return key("page", self.maker.pages, template, used, self.picture, shown)

    def taught(self, document: str) -> str:
        """Return the key of the page that teaches with a document."""
        return self.page("teaching.html", self.maker.taught, document)

    def sheets(self, *shown: object, first: Iterable[str] = SHEETS) -> str:
        """Return the key of PDFs: of what is shown, its templates and the school's picture."""
        picture = hashed(dict(self.own).get(self.picture, b""))
        return key("sheets", self.maker.sheets, self._templates(first), picture, shown)

    def _templates(self, first: Iterable[str]) -> dict[str, str]:
        """Return the hashes of the templates that some lead to.

        Which those are is read from the names in them. A school's file that has no name of ours
        may be named in ways that nobody can read, and counts for all.
        """
        own = {name: data for name, data in self.own if name not in PICTURES}
        texts = {
            **{name: text.encode() for name, text in self.maker.templates.items()},
            **own,
        }
        waiting = [*first, *(name for name in own if name not in self.maker.templates)]
        used: dict[str, str] = {}
        while waiting:
            name = waiting.pop()
            if name in texts and name not in used:
                used[name] = hashed(texts[name])
                waiting += _NAMED.findall(texts[name].decode(errors="replace"))
        return used


def inputs_of(
    definitions: Path, pdfs: bool, untrusted: bool = False, by: Maker | None = None
) -> Inputs:
    """Return all that a site is made of, as it is now.

    Parameters
    ----------
    definitions : Path
        The folder of definitions, with the school's ``templates`` in it.
    pdfs : bool
        Whether PDFs are wanted, which depend on more.
    untrusted : bool
        Whether the school's own templates, and files to copy, are left alone.
    by : Maker, optional
        What makes it, where that is known from before.
    """
    own = () if untrusted else own_of(definitions / "templates")
    static = {} if untrusted else static_of(definitions)
    return Inputs(definitions_of(definitions), own, by or maker(pdfs), static)


def static_of(definitions: Path) -> Hashes:
    """Return the hash of each file of the school's own that is copied."""
    return {name: hashed(static_file(definitions, name)) for name in static_in(definitions)}


def definitions_of(folder: Path) -> Hashes:
    """Return the hash of each definition and record in a folder.

    Of what cannot be read, or would not be, stands why: a build tells of it.
    """
    marks = {path: _mark_of(folder, path) for path in definitions_in(folder)}
    marks |= {path: _mark_of(folder, path, LARGEST_RECORD) for path in records_in(folder)}
    marks |= {path: "" for room in ROOMS for path in unread_in(folder, room)}
    return {path.as_posix(): marks[path] for path in sorted(marks)}


def _mark_of(folder: Path, path: Path, most: int = LARGEST_FILE) -> str:
    try:
        return hashed(content_of(inside(folder, path), path.as_posix(), most))
    except DefinitionError as error:
        return str(error)
    except OSError as error:
        return str(error.strerror)


def own_of(folder: Path) -> Own:
    """Return a school's own templates, by name.

    Raises
    ------
    OwnFileError
        If one is a link that leads nowhere, or out of the folder.
    OSError
        If the folder, or one in it, may not be read.
    """
    found = {path.as_posix(): folder / path for path in files_in(folder)}
    for name, path in found.items():
        if path.is_symlink() and (said := _astray(path, folder)):
            raise OwnFileError(f"{name}:1:1", said)
    return tuple((name, path.read_bytes()) for name, path in found.items() if path.is_file())


def _astray(link: Path, folder: Path) -> str:
    if not link.exists():
        return "found a link to nothing, expected a file"
    out = leads_out(folder, link)
    return "found a link that leads out of the folder, expected a file in it" if out else ""


def maker(pdfs: bool = True) -> Maker:
    """Return what makes a site, as it is installed here."""
    package, templates = Path(__file__).parents[1], own_templates()
    files = (path for path in sorted(templates.iterdir()) if path.is_file())
    texts = {path.name: path.read_text("utf-8") for path in files}
    return Maker(
        documents_key(),
        key(sources(package, SHOWN_ROOMS), versions(PAGE_PACKAGES)),
        press() if pdfs else "",
        texts,
        key(sources(package, NEXT_ROOMS), versions(DOCUMENT_PACKAGES)),
        key(sources(package, TAUGHT_ROOMS), versions(DOCUMENT_PACKAGES)),
    )


def documents_key() -> str:
    """Return the key of what makes documents here: sources and versions."""
    return key(sources(Path(__file__).parents[1], DOCUMENT_ROOMS), versions(DOCUMENT_PACKAGES))


@cache
def press() -> str:
    """Return the key of what lays sheets out here: sources, versions, libraries, fonts."""
    return key(
        sources(Path(__file__).parents[1], SHOWN_ROOMS),
        versions(SHEET_PACKAGES),
        libraries(),
        fonts(),
        os.environ.get("SOURCE_DATE_EPOCH", ""),  # which is held against its form as it is used
    )


def sources(package: Path, rooms: Iterable[str]) -> Hashes:
    """Return the hashes of the program's own files in some rooms."""
    found: list[Path] = []
    for room in rooms:
        found += package.joinpath(room).rglob("*.py") if room.endswith("/") else [package / room]
    return {path.relative_to(package).as_posix(): hashed(path.read_bytes()) for path in found}


def versions(packages: Iterable[str]) -> Hashes:
    """Return the versions of Python and of installed packages; of one that is not, nothing."""
    from importlib.metadata import PackageNotFoundError, version

    found = {"python": sys.version.split()[0]}
    for name in packages:
        try:
            found[name] = version(name)
        except PackageNotFoundError:
            found[name] = ""
    return found


def libraries() -> Hashes:
    """Return the versions of the system's libraries that lay out text, and hashes of their files.

    They are opened by the names by which WeasyPrint opens them, so that what is found is what it
    will use, and asked for their versions. Where the system tells which files were opened, as
    Linux does, a hash of each also tells builds of one version apart.
    """
    import ctypes

    found = {}
    for name, tell in LIBRARIES.items():
        try:
            library = ctypes.CDLL(name)
        except OSError:
            found[name] = "missing"
            continue
        if tell:
            getattr(library, tell).restype = ctypes.c_char_p
        found[name] = getattr(library, tell)().decode() if tell else ""
    for path in sorted(set(_LOADED.findall(_maps()))):
        found[path] = hashed(Path(path).read_bytes())
    return found


def _maps() -> str:
    try:
        return Path("/proc/self/maps").read_bytes().decode(errors="replace")
    except OSError:
        return ""


def fonts() -> Hashes:
    """Return the hashes of the printed face's files, and what other fonts there are.

    Others stand in for a letter that the printed face has not. Of those the names and sizes are
    taken, since they may be thousands; of fontconfig's settings, which choose among them, hashes.
    """
    import importlib.util

    face = importlib.util.find_spec("fontpkg_ibm_plex_sans_condensed")
    assert face is not None
    assert face.origin is not None
    found = {path.name: hashed(path.read_bytes()) for path in _all(Path(face.origin).parent)}
    for folder in _at_home(_FONT_FOLDERS):
        found |= {str(path): str(path.stat().st_size) for path in _all(folder)}
    for folder in _at_home(_FONT_SETTINGS):
        found |= {str(path): hashed(path.read_bytes()) for path in _all(folder)}
    return found


def _at_home(folders: Iterable[str]) -> Iterator[Path]:
    """Yield folders, but those of a user's home where there is none."""
    for folder in folders:
        with suppress(RuntimeError):
            yield Path(folder).expanduser()


def _all(folder: Path) -> list[Path]:
    return sorted(path for path in folder.rglob("*") if path.is_file() and path.suffix != ".pyc")
