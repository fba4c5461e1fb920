"""The house: which rooms there are, and which way data moves."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from cardgen.layout.formats import FORMATS
from tests.conftest import ROOT
from tests.sampling import is_long

TOP = {
    "LICENSE",
    "README.md",
    "DEVELOPERS.md",
    "pyproject.toml",
    "cardgen",
    "aircraft",
    "templates",
    "tests",
    "site",
}


def test_the_top_level_holds_what_the_design_says():
    listed = subprocess.run(
        ["git", "ls-files"], cwd=ROOT, capture_output=True, text=True, check=True
    )
    top = {line.split("/")[0] for line in listed.stdout.splitlines()}
    assert {name for name in top if not name.startswith(".")} == TOP


def test_imports_keep_the_contract():
    command = Path(sys.executable).with_name("lint-imports")
    done = subprocess.run([command], cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout


# What a site is built by, with the card as its only PDF unless all are asked for.
BUILD = """
import sys
from cardgen.cli import main
from cardgen.render import pdf

kinds = sys.argv[1].split()
pdf.FORMATS = [one for one in pdf.FORMATS if one.file in kinds]
if len(kinds) == 1:
    pdf.tables_pdf = lambda *_: b""
sys.exit(main(sys.argv[2:]))
"""


@pytest.mark.longest
@pytest.mark.sampled
def test_a_wheel_alone_builds_a_site_elsewhere(make, tmp_path, tmp_path_factory, record_property):
    """The wheel stands apart from the sources; what it depends on is there already."""
    make()
    elsewhere = tmp_path_factory.mktemp("elsewhere")
    apart = elsewhere / "apart"

    def run(*command: object) -> str:
        environment = {**os.environ, "PYTHONPATH": str(apart)}
        command = [sys.executable, *map(str, command)]
        done = subprocess.run(
            command, cwd=elsewhere, env=environment, capture_output=True, text=True, check=False
        )
        assert done.returncode == 0, done.stderr
        return done.stdout

    run("-m", "pip", "--quiet", "wheel", "--no-deps", "--wheel-dir", elsewhere, ROOT)
    (wheel,) = elsewhere.glob("cardgen-*.whl")
    run("-m", "zipfile", "--extract", wheel, apart)
    assert run("-c", "import cardgen; print(cardgen.__file__)").startswith(str(apart))
    kinds = [one.file for one in FORMATS] if is_long() else ["card.pdf"]
    record_property("sampled", ("formats from the wheel", len(kinds), len(FORMATS)))
    run("-c", BUILD, " ".join(kinds), "build", tmp_path, "--out", elsewhere / "site")
    built = {
        path.relative_to(elsewhere / "site").as_posix() for path in elsewhere.rglob("site/**/*")
    }
    assert {"T-EST/index.html", *(f"T-EST/{kind}" for kind in kinds)} <= built
