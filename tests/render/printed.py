"""What stands on printed pages, read back from the PDFs."""

import math
import os
import pickle
import re
import subprocess
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache, cached_property
from pathlib import Path

import pdfplumber
import pikepdf
from pdfminer.layout import LTChar, LTComponent, LTContainer, LTCurve

MILLIMETRE = 72 / 25.4
DIGIT = 0.698  # height of a digit or capital of the printed face, to its size
SMALL = 0.525  # height of its smallest letters


@dataclass(frozen=True)
class Letter:
    """A letter: its box in mm from the page's top left, the height of a digit in it, its tags."""

    text: str
    left: float
    right: float
    base: float
    size: float
    upright: bool
    colour: tuple[float, ...]
    font: str
    tags: tuple[tuple[str, int], ...]

    @property
    def digit(self) -> float:
        return DIGIT * self.size

    def within(self, tag: str) -> bool:
        return any(name == tag for name, _ in self.tags)


@dataclass(frozen=True)
class Cell:
    """The letters of one table cell."""

    letters: tuple[Letter, ...]
    heading: bool

    @property
    def text(self) -> str:
        return "".join(letter.text for letter in self.letters).strip()

    @property
    def lowest_digit(self) -> float:
        return min(letter.digit for letter in self.letters if letter.text.isdigit())


@dataclass(frozen=True)
class Sheet:
    """A page of a PDF; sizes in mm."""

    width: float
    height: float
    letters: tuple[Letter, ...]
    shapes: tuple[tuple[float, float, float, float], ...]

    @cached_property
    def text(self) -> str:
        """All words, with a space where a line ends."""
        said, base = [], math.nan
        for letter in self.letters:
            said.append(letter.text if abs(letter.base - base) < 0.1 else f" {letter.text}")
            base = letter.base
        return re.sub(r"\s+", " ", "".join(said))

    def cells(self) -> Iterator[Cell]:
        found: dict[int, list[Letter]] = {}
        heading: dict[int, bool] = {}
        for letter in self.letters:
            for name, number in letter.tags:
                if name in ("TH", "TD"):
                    found.setdefault(number, []).append(letter)
                    heading[number] = name == "TH"
        for number, letters in found.items():
            yield Cell(tuple(letters), heading[number])


@cache
def texts(path: Path) -> list[str]:
    """Return the words of each page."""
    said = subprocess.run(["pdftotext", "-raw", path, "-"], capture_output=True, check=True).stdout
    return [" ".join(page.split()) for page in said.decode().split("\f")[:-1]]


@dataclass(frozen=True)
class Word:
    """A word: how far its ends are from the page's left, in mm."""

    text: str
    left: float
    right: float


def words(path: Path) -> list[list[Word]]:
    """Return where the words of each page stand, which is told sooner than all of `sheets`."""
    command = ["pdftotext", "-bbox", path, "-"]
    said = subprocess.run(command, capture_output=True, check=True).stdout.decode()
    place = re.compile(r'<word xMin="([\d.]+)" .*? xMax="([\d.]+)" .*?>(.*?)</word>')
    return [
        [Word(text, *(float(x) / MILLIMETRE for x in ends)) for *ends, text in place.findall(page)]
        for page in said.split("<page ")[1:]
    ]


@cache
def sheets(path: Path) -> list[Sheet]:
    """Read a PDF of one page to a side, or what another process has read of it."""
    kept = path.with_name(f"{path.name}.read")
    if not kept.exists():
        half = kept.with_suffix(f".{os.getpid()}")
        half.write_bytes(pickle.dumps(_read(path)))
        half.replace(kept)
    return pickle.loads(kept.read_bytes())


def _read(path: Path) -> list[Sheet]:
    with pikepdf.open(path) as pdf:
        tags = _tags(pdf)
    with pdfplumber.open(path) as pdf:
        return [_sheet(page, tags) for page in pdf.pages]


def _sheet(page: pdfplumber.page.Page, tags: dict[tuple[int, int], tuple]) -> Sheet:
    """Take a page's letters and shapes as they were found, without pdfplumber's tables of them."""
    height = float(page.height)
    letters, shapes = [], []
    for one in _placed(page.layout):
        if isinstance(one, LTChar):
            letters.append(_letter(one, height, tags.get((page.page_number - 1, one.mcid), ())))
        elif isinstance(one, LTCurve):
            edges = (one.x0, height - one.y1, one.x1, height - one.y0)
            shapes.append(tuple(edge / MILLIMETRE for edge in edges))
    return Sheet(float(page.width) / MILLIMETRE, height / MILLIMETRE, tuple(letters), tuple(shapes))


def _placed(group: LTContainer) -> Iterator[LTComponent]:
    for one in group:
        if isinstance(one, LTContainer):
            yield from _placed(one)
        else:
            yield one


def _letter(char: LTChar, height: float, tags: tuple[tuple[str, int], ...]) -> Letter:
    _, _, c, d, _, y = char.matrix
    colour = char.graphicstate.ncolor
    return Letter(
        char.get_text(),
        char.x0 / MILLIMETRE,
        char.x1 / MILLIMETRE,
        (height - y) / MILLIMETRE,
        (char.size if char.upright else math.nan) / MILLIMETRE,
        char.upright and c == 0 and d > 0,
        tuple(colour) if isinstance(colour, tuple) else (colour,),
        char.fontname,
        tags,
    )


def _tags(pdf: pikepdf.Pdf) -> dict[tuple[int, int], tuple[tuple[str, int], ...]]:
    """Return, for each mark on each page, the tags around it from the outermost in."""
    pages = {page.obj.objgen: n for n, page in enumerate(pdf.pages)}
    found = {}

    def walk(element: pikepdf.Object, around: tuple[tuple[str, int], ...]) -> None:
        around = (*around, (str(element.S)[1:], element.objgen[0]))
        for kid in element.get("/K", []):
            if isinstance(kid, int):
                found[pages[element.Pg.objgen], kid] = around
            elif "/MCID" in kid:
                found[pages[kid.Pg.objgen], int(kid.MCID)] = around
            elif "/S" in kid:
                walk(kid, around)

    walk(pdf.Root.StructTreeRoot.K[0], ())
    return found


def overlaps(sheet: Sheet) -> list[tuple[str, str]]:
    """Return letters that are printed over one another."""
    upright = sorted(
        (one for one in sheet.letters if one.upright and one.text.strip()),
        key=lambda one: one.left,
    )
    found = []
    for i, one in enumerate(upright):
        for other in upright[i + 1 :]:
            if other.left > one.right - 0.15:
                break
            top, bottom = one.base - SMALL * one.size, one.base
            kerned = abs(other.base - one.base) < 0.05 and other.size == one.size
            if kerned and other.left > one.right - 0.2 * one.size:
                continue
            if other.base > top + 0.1 and other.base - SMALL * other.size < bottom - 0.1:
                found.append((one.text, other.text))
    return found
