"""Keys are complete: each input, changed alone, changes the key of exactly what depends on it.

Each case changes one thing, as it would change on a machine: a definition, a template, a source in
a copy of the program, the version of an installed package, a system library, a font.
"""

import ast
import json
import os
import re
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterable, Iterator
from importlib.metadata import PackageNotFoundError, requires
from importlib.util import find_spec
from pathlib import Path

import grimp
import jinja2
import jinja2.meta
import pytest
from packaging.requirements import Requirement

from cardgen.folders import own_templates
from cardgen.publish import keys
from cardgen.render import page
from tests.conftest import DEMO, ROOT, keep
from tests.sampling import some

FACE = "fontpkg_ibm_plex_sans_condensed"
PAGES = [f"{name}.html" for name in ("aircraft", "conversions", "fleet", "formulas", "glossary")]
PAGES += [
    "keys.html",
    "next.html",
    "next-left-out.html",
    "teaching.html",
    "next-any.html",
    *page.ASSETS,
    *page.SERVED,
]
ASK = f"""
import json, sys
from pathlib import Path
from cardgen.publish.keys import NEXT_SHEET, inputs_of
inputs = inputs_of(Path("aircraft"), pdfs=True)
types = {{"zz-dua": "dunlin-160", "zz-dub": "dunlin-160", "zz-wtr": "wheatear-15"}}
said = {{one: inputs.document(f"fleet/{{one}}.yaml", f"types/{{kind}}.yaml", one.upper())
        for one, kind in types.items()}}
said |= {{name: inputs.page(name) for name in {PAGES!r}}}
said |= {{"shared": inputs.maker.documents, "sheets": inputs.sheets(), "all": inputs.key}}
said |= {{"taught": inputs.taught("a")}}
said |= {{"next": inputs.next("a", "b"), "next sheets": inputs.sheets(first=NEXT_SHEET)}}
print(json.dumps(said))
"""
AIRCRAFT = {"zz-dua", "zz-dub", "zz-wtr"}
DOCUMENTS = {*AIRCRAFT, "shared"}
TAUGHT = {"teaching.html", "taught"}
HTML = {name for name in PAGES if name.endswith(".html")} | TAUGHT
SHEETS = {"sheets", "next sheets"}
ALL = {*DOCUMENTS, *PAGES, *SHEETS, "next", "taught"}


@pytest.fixture(scope="module")
def machine(tmp_path_factory) -> Path:
    """A program and its definitions that a test may change, and what else is in front of ours."""
    folder = tmp_path_factory.mktemp("machine")
    for name in ("cardgen", "templates"):
        shutil.copytree(ROOT / name, folder / name, ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copytree(DEMO, folder / "aircraft")
    keep(folder / "aircraft", "zz-dua", "zz-dub", "zz-wtr")
    for name in ("packages", "libraries", "home"):
        (folder / name).mkdir()
    own = folder / "aircraft/templates"
    own.mkdir()
    (own / "measures.css").write_text((ROOT / "templates/measures.css").read_text())
    (own / "picture.svg").write_text("<svg/>")
    return folder


def asked(machine: Path, **environment: str) -> dict[str, str]:
    command = [sys.executable, "-c", ASK]
    env = {
        **os.environ,
        "PYTHONPATH": f"{machine}:{machine / 'packages'}",
        "LD_LIBRARY_PATH": str(machine / "libraries"),
        "HOME": str(machine / "home"),
        **environment,
    }
    run = subprocess.run(command, cwd=machine, env=env, capture_output=True, text=True, check=True)
    said: dict[str, str] = json.loads(run.stdout)
    return said


@pytest.fixture(scope="module")
def before(machine) -> dict[str, str]:
    return asked(machine)


def added(file: str, text: str = "\n# changed\n") -> Callable[[Path], None]:
    """A file with something added at its end, or a new one."""

    def change(machine: Path) -> None:
        path = machine / file
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text((path.read_text() if path.exists() else "") + text)

    return change


def upgraded(package: str) -> Callable[[Path], None]:
    """Another version of a package."""
    return added(
        f"packages/{package.replace('-', '_')}-99.0.dist-info/METADATA",
        f"Metadata-Version: 2.1\nName: {package}\nVersion: 99.0\n",
    )


def rebuilt(library: str) -> Callable[[Path], None]:
    """The same version of a system library, built otherwise."""

    def change(machine: Path) -> None:
        loaded = next(one for one in keys.libraries() if f"/{library}" in one)
        (machine / "libraries" / library).write_bytes(Path(loaded).read_bytes() + b"\0")

    return change


def of_the_face(machine: Path) -> None:
    spec = find_spec(FACE)
    assert spec is not None
    assert spec.origin is not None
    copy = machine / "packages" / FACE
    shutil.copytree(Path(spec.origin).parent, copy)
    font = next(copy.rglob("*Regular.ttf"))
    font.write_bytes(font.read_bytes() + b"\0")


CASES: dict[str, tuple[Callable[[Path], None], set[str]]] = {
    "an airframe": (added("aircraft/fleet/zz-dub.yaml"), {"zz-dub"}),
    "a record of a signed card": (
        added("aircraft/signed/ZZ-DUB/2024-09-12.txt"),
        {"zz-dub"},
    ),
    "a new record": (added("aircraft/signed/ZZ-WTR/2026-01-02.txt"), {"zz-wtr"}),
    "a type": (added("aircraft/types/dunlin-160.yaml"), {"zz-dua", "zz-dub"}),
    "a new type": (added("aircraft/types/new.yaml"), set()),
    "the school": (added("aircraft/school.yaml"), AIRCRAFT),
    "the schemas that editors read": (added("aircraft/schemas/type.json"), set()),
    "units": (added("cardgen/units.py"), ALL),
    "air": (added("cardgen/air/wind.py"), {*DOCUMENTS, "next", "taught"}),
    "the definition": (added("cardgen/definition/model.py"), DOCUMENTS),
    "the airframe": (added("cardgen/airframe/limits.py"), DOCUMENTS),
    "a rule": (added("cardgen/checks/paper.py"), DOCUMENTS),
    "a new rule": (added("cardgen/checks/new.py"), DOCUMENTS),
    "the cards": (added("cardgen/cards/stall.py"), DOCUMENTS),
    "the marks": (added("cardgen/review/marks.py"), DOCUMENTS),
    "the document": (added("cardgen/document/record.py"), ALL),
    "a wording": (added("cardgen/words/english/tables.py"), ALL),
    "the layout": (added("cardgen/layout/formats.py"), {*PAGES, *SHEETS, "taught"}),
    "the render": (added("cardgen/render/press.py"), {*PAGES, *SHEETS, "taught"}),
    "the making": (added("cardgen/publish/making.py"), ALL - {"next"}),
    "our version": (added("cardgen/__init__.py"), ALL),
    "the command line": (added("cardgen/cli.py"), set()),
    "the practice": (added("cardgen/lessons/practice/sheet.py"), set()),
    "a case reckoned": (added("cardgen/lessons/reckoning.py"), {"taught"}),
    "a lesson": (added("cardgen/lessons/teaching/told.py"), {"taught"}),
    "a difference": (added("cardgen/lessons/transition/differences.py"), {"next"}),
    "a report": (added("cardgen/publish/report.py"), set()),
    "the pages' frame": (added("templates/base.html"), HTML),
    "the aircraft's page": (added("templates/aircraft.html"), {"aircraft.html"}),
    "tables": (added("templates/table.html"), {"aircraft.html", "conversions.html"}),
    "what is signed": (
        added("templates/signed.html"),
        {"aircraft.html", "fleet.html", *TAUGHT},
    ),
    "the fleet's page": (added("templates/fleet.html"), {"fleet.html"}),
    "the glossary": (added("templates/glossary.html"), {"glossary.html"}),
    "tokens": (added("templates/tokens.css"), {"tokens.css", *SHEETS}),
    "the pages' style": (added("templates/page.css"), {"page.css"}),
    "the script": (added("templates/page.js"), {"page.js"}),
    "the panel": (added("templates/panel.html"), {"aircraft.html"}),
    "what keeps pages": (added("templates/worker.js"), {"worker.js", "offline.js"}),
    "the sheets' style": (added("templates/card.css"), {"sheets"}),
    "the handouts' style": (added("templates/handout.css"), {"next sheets"}),
    "the next aircraft's page": (added("templates/next.html"), {"next.html"}),
    "the page that teaches": (added("templates/teaching.html"), TAUGHT),
    "its formulas": (added("templates/teaching-formulas.html"), TAUGHT),
    "its script": (added("templates/teaching.js"), {"teaching.js"}),
    "what its page and sheet share": (
        added("templates/next-parts.html"),
        {"next.html", "next sheets"},
    ),
    "ours that the school has its own of": (added("templates/measures.css"), set()),
    "a school's own": (added("aircraft/templates/measures.css"), {"sheets"}),
    "a school's tokens": (
        added("aircraft/templates/tokens.css"),
        {"tokens.css", *SHEETS},
    ),
    "a file that a school's own may name": (
        added("aircraft/templates/parts/other.html"),
        {*PAGES, *SHEETS, "taught"},
    ),
    "a school's picture": (added("aircraft/templates/picture.svg"), SHEETS),
    "a file to copy": (added("aircraft/static/CNAME"), set()),
    "a template for new files": (added("templates/start-type.yaml"), set()),
    "numpy": (upgraded("numpy"), {*DOCUMENTS, "next", "taught"}),
    "the reader of YAML": (upgraded("pyyaml"), {*DOCUMENTS, "next", "taught"}),
    "pydantic": (upgraded("pydantic"), ALL),
    "jinja2": (upgraded("jinja2"), ALL),
    **{
        name: (upgraded(name), SHEETS)
        for name in keys.SHEET_PACKAGES
        if name not in keys.PAGE_PACKAGES
    },
    "tqdm": (upgraded("tqdm"), set()),
    "Pango": (rebuilt("libpango-1.0.so.0"), SHEETS),
    "HarfBuzz": (rebuilt("libharfbuzz.so.0"), SHEETS),
    "fontconfig": (rebuilt("libfontconfig.so.1"), SHEETS),
    "FreeType": (rebuilt("libfreetype.so.6"), SHEETS),
    "the face": (of_the_face, SHEETS),
    "another font": (added("home/.fonts/other.ttf"), SHEETS),
    "fontconfig's settings": (added("home/.config/fontconfig/fonts.conf"), SHEETS),
}
NOTHING_OF_A_SITE = {"the command line", "the practice", "a report", "tqdm"}
NOTHING_OF_A_SITE |= {"the schemas that editors read"}


def saved(folder: Path) -> dict[Path, bytes]:
    return {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()}


# Of what is read alike, one is enough: of rooms, of packages, of libraries.
ALIKE = {"the airframe", "a new rule", "the cards", "the marks", "the document", "the render"}
ALIKE |= {"a case reckoned", "its formulas", "its script"}
ALIKE |= {"numpy", "pydantic", "HarfBuzz", "FreeType", "what is signed", "the glossary"}
ALIKE |= {name for name in keys.SHEET_PACKAGES if name not in (*keys.PAGE_PACKAGES, "pydyf")}


@pytest.mark.parametrize("what", some("inputs of keys", [*CASES], [*(CASES.keys() - ALIKE)]))
def test_an_input_changes_the_keys_of_exactly_what_depends_on_it(machine, before, what):
    change, expected = CASES[what]
    files = saved(machine)
    try:
        change(machine)
        after = asked(machine)
    finally:
        for path in saved(machine).keys() - files.keys():
            path.unlink()
        shutil.rmtree(machine / "packages")
        (machine / "packages").mkdir()
        for path, data in files.items():
            path.write_bytes(data)
    changed = {name for name in before if after[name] != before[name]}
    assert changed - {"all"} == expected
    assert ("all" in changed) == (what not in NOTHING_OF_A_SITE)


def test_nothing_else_changes_a_key(machine, before):
    """Not the day, the folder's times, nor the machine's language."""
    for path in machine.rglob("*.yaml"):
        os.utime(path, (1, 1))
    assert asked(machine, TZ="Pacific/Auckland", LC_ALL="C", PYTHONHASHSEED="7") == before


def test_the_date_that_pdfs_are_given_is_one_of_the_sheets_inputs(machine, before):
    after = asked(machine, SOURCE_DATE_EPOCH="1700000000")
    assert {name for name in before if after[name] != before[name]} == {*SHEETS, "all"}


# -- that the lists in keys.py have all ---------------------------------------------------------


@pytest.mark.parametrize(
    ("rooms", "makers"),
    [
        (
            keys.DOCUMENT_ROOMS,
            ["cards.card", "checks.run", "definition.fleet", "document.data", "review.marks"],
        ),
        (keys.NEXT_ROOMS, ["lessons.transition.sheet"]),
        (keys.TAUGHT_ROOMS, ["lessons.teaching.page"]),
        (
            keys.SHOWN_ROOMS,
            [
                "render.page",
                "render.next_aircraft",
                "render.pdf",
                "render.data",
                "render.imposition",
                "document.data",
            ],
        ),
    ],
)
def test_every_module_that_a_maker_imports_is_in_its_rooms(rooms, makers):
    graph = grimp.build_graph("cardgen", cache_dir=None)
    needed = {f"cardgen.{name}" for name in makers}
    for name in [*needed]:
        needed |= graph.find_upstream_modules(name)
    files = [name.removeprefix("cardgen").lstrip(".").replace(".", "/") for name in needed]
    outside = {
        name
        for name in files
        if name and not any(f"{name}/".startswith(room) or f"{name}.py" == room for room in rooms)
    }
    assert outside == set()
    assert len(files) > 8


def needed_by(packages: Iterable[str]) -> Iterator[str]:
    """Packages, and what they need to be installed, however far."""
    waiting, seen = [Requirement(name) for name in packages], set()
    while waiting:
        one = waiting.pop()
        known = (one.name.lower().replace("_", "-"), *sorted(one.extras))
        if known in seen:
            continue
        seen.add(known)
        try:
            further = [Requirement(text) for text in requires(one.name) or ()]
        except PackageNotFoundError:
            continue
        for other in further:
            extras = one.extras or {""}
            if other.marker is None or any(other.marker.evaluate({"extra": e}) for e in extras):
                waiting.append(other)
        yield known[0]


@pytest.mark.parametrize(
    ("listed", "makers"),
    [
        (keys.DOCUMENT_PACKAGES, ["numpy", "pydantic", "pyyaml"]),
        (keys.PAGE_PACKAGES, ["jinja2", "pydantic"]),
        (keys.SHEET_PACKAGES, ["weasyprint", "pikepdf", "jinja2", "fonttools", "pydantic"]),
    ],
)
def test_every_package_that_a_maker_needs_is_listed(listed, makers):
    assert set(needed_by(makers)) - set(listed) == set()


def test_every_library_that_weasyprint_opens_is_listed():
    spec = find_spec("weasyprint.text.ffi")
    assert spec is not None
    assert spec.origin is not None
    opened = set(re.findall(r"'(lib[\w.-]+\.so\.\d+)'", Path(spec.origin).read_text()))
    assert len(opened) >= 6
    assert opened <= keys.LIBRARIES.keys()


def test_the_libraries_that_are_hashed_are_those_that_weasyprint_has_loaded():
    code = (
        "import weasyprint; weasyprint.HTML(string='x').write_pdf();"
        "from cardgen.publish import keys; print(*sorted(set(keys._LOADED.findall(keys._maps()))))"
    )
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert set(run.stdout.split()) == {name for name in keys.libraries() if name.startswith("/")}
    assert len(run.stdout.split()) >= 7


def test_every_template_that_one_leads_to_is_found():
    """As Jinja reads them."""
    environment = jinja2.Environment(loader=jinja2.FileSystemLoader(own_templates()))
    inputs = keys.inputs_of(DEMO, pdfs=False)
    for name in inputs.maker.templates:
        if name.endswith(".yaml"):
            continue
        led, waiting = set(), [name]
        while waiting:
            one = waiting.pop()
            if one not in led:
                led.add(one)
                text = inputs.maker.templates[one]
                named = jinja2.meta.find_referenced_templates(environment.parse(text))
                waiting += [other for other in named if other is not None]
        assert led <= inputs._templates([name]).keys()


def test_every_template_that_is_rendered_by_name_is_one_that_keys_begin_with():
    ours = {path.name for path in own_templates().iterdir()}
    rendered = set()
    for path in (ROOT / "cardgen/render").glob("*.py"):
        for node in ast.walk(ast.parse(path.read_text())):
            if isinstance(node, ast.Constant) and str(node.value) in ours:
                rendered.add(node.value)
    practice = {name for name in rendered if name.startswith("practice")}
    rendered -= {"comparison.html", "comparison.css", *practice}  # which are no part of a site
    assert rendered == {*PAGES, *keys.SHEETS, "next-sheet.html"}
