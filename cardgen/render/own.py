"""A school's own folder of templates: what is used of it, and what it may make layout read."""

import io
import struct
import traceback
import warnings
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit
from urllib.request import url2pathname
from xml.etree import ElementTree

import jinja2

from cardgen.folders import PICTURES, OwnFileError, leads_out, own_templates
from cardgen.layout.font import FILES

LARGEST_PICTURE = 2 * 1024 * 1024  # bytes
WIDEST_PICTURE = 4_000  # pixels, and the highest


def picture_of(folder: Path) -> Path | None:
    """Return the school's picture, if it has one.

    Raises
    ------
    OwnFileError
        If it is broken, huge, or not a file of the folder.
    """
    for name in PICTURES:
        path = folder / name
        if path.is_symlink() or path.exists():
            if said := _unfit(path, folder):
                raise OwnFileError(f"{name}:1:1", said)
            return path.resolve()
    return None


def fault_of(error: Exception, name: str, folder: Path) -> OwnFileError | None:
    """Return what is wrong with a school's own template, if that is what failed.

    Parameters
    ----------
    error : Exception
    name : str
        The template that was asked for, which may have asked for others.
    folder : Path
        The school's.
    """
    said = f"the template fails: {error}"
    if isinstance(error, jinja2.TemplateNotFound):
        said = f"there is no template {error.name}"
    elif isinstance(error, (OwnFileError, OSError, MemoryError)):
        return None
    place = _failed_at(error, name, folder)
    return OwnFileError(place, said) if place else None


def _failed_at(error: Exception, name: str, folder: Path) -> str:
    """Return the file and line of a school's own template that failed, or nothing."""
    frames = traceback.extract_tb(error.__traceback__)
    places = [(Path(one.filename), one.lineno or 1) for one in frames]
    if isinstance(error, jinja2.TemplateSyntaxError) and error.filename:
        places.append((Path(error.filename), error.lineno))
    own = [(path, line) for path, line in places if path.is_relative_to(folder)]
    if not own and (folder / name).is_file():  # not even read
        own = [(folder / name, 1)]
    return next((f"{path.relative_to(folder)}:{line}:1" for path, line in own[::-1]), "")


def _unfit(path: Path, folder: Path) -> str:
    """Say what is wrong with a picture, or nothing."""
    if not path.is_file():
        return "found no file, expected a picture"
    if leads_out(folder, path):
        return "found a link that leads out of the folder, expected a picture in it"
    size = path.stat().st_size
    if size > LARGEST_PICTURE:
        return f"the picture has {size} bytes, expected at most {LARGEST_PICTURE >> 20} MiB"
    content = path.read_bytes()
    return _no_svg(content) if path.suffix == ".svg" else _no_png(content)


def _no_svg(content: bytes) -> str:
    if b"<!DOCTYPE" in content or b"<!ENTITY" in content:
        return "found a document type, expected SVG without one"
    try:
        root = ElementTree.fromstring(content)
    except ElementTree.ParseError as error:
        return f"found no SVG ({error}), expected one that can be read"
    return "" if root.tag.endswith("}svg") else f"found <{root.tag}>, expected SVG"


def _no_png(content: bytes) -> str:
    if content[:8] != b"\x89PNG\r\n\x1a\n" or len(content) < 24:
        return "found no PNG, expected one"
    width, height = struct.unpack(">II", content[16:24])
    if max(width, height) > WIDEST_PICTURE:
        return f"found {width} x {height} pixels, expected at most {WIDEST_PICTURE} either way"
    from PIL import Image, ImageFile

    lenient, ImageFile.LOAD_TRUNCATED_IMAGES = ImageFile.LOAD_TRUNCATED_IMAGES, False
    try:
        with warnings.catch_warnings(action="error"), Image.open(io.BytesIO(content)) as picture:
            picture.load()
    except (OSError, SyntaxError, ValueError, Warning) as error:
        return f"found a broken PNG ({error}), expected one that can be read"
    finally:
        ImageFile.LOAD_TRUNCATED_IMAGES = lenient  # WeasyPrint takes broken ones too
    return ""


def fetcher(weasyprint: Any, own: Path | None) -> Any:
    """Return what reads for WeasyPrint: files of the package and of the school's folder alone.

    What it was asked for beside these is in its `refused`.
    """
    folders = [folder.resolve() for folder in (FILES, own_templates(), own) if folder]

    class Fetcher(weasyprint.urls.URLFetcher):  # type: ignore[misc]
        def __init__(self) -> None:
            super().__init__()
            self.refused: list[str] = []

        def fetch(self, url: str, headers: Any = None) -> Any:
            if not _may_be_read(url, folders):
                self.refused.append(url)
                raise ValueError(url)
            return super().fetch(url, headers)

    return Fetcher()


def _may_be_read(url: str, folders: list[Path]) -> bool:
    parts = urlsplit(url)
    if parts.scheme != "file":
        return parts.scheme == "data"
    path = Path(url2pathname(parts.path)).resolve()
    return not parts.netloc and path.is_file() and any(map(path.is_relative_to, folders))


def refusal(url: str, own: Path | None) -> OwnFileError:
    """Return the error of an address that was refused, where it stands in the school's folder."""
    said = f"found the address {url}, expected a file of this folder: layout reads nothing else"
    for path in sorted(own.iterdir()) if own else ():
        if path.is_file() and (place := _place_of(url, path)):
            return OwnFileError(place, said)
    return OwnFileError("", said)


def _place_of(url: str, path: Path) -> str:
    text = path.read_text("utf-8", errors="replace")
    before, found, _ = text.partition(url)
    line, column = before.count("\n") + 1, len(before) - before.rfind("\n")
    return f"{path.name}:{line}:{column}" if found else ""
