"""The house: which rooms there are, and which way data moves."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.conftest import ROOT, keep

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


@pytest.mark.longest
def test_a_wheel_alone_builds_a_site_elsewhere(definitions, tmp_path):
    """The wheel stands apart from the sources; what it depends on is there already."""
    keep(definitions, "zz-wtr")
    apart = tmp_path / "apart"

    def run(*command: object) -> str:
        environment = {**os.environ, "PYTHONPATH": str(apart)}
        command = [sys.executable, *map(str, command)]
        done = subprocess.run(
            command, cwd=tmp_path, env=environment, capture_output=True, text=True, check=False
        )
        assert done.returncode == 0, done.stderr
        return done.stdout

    run("-m", "pip", "--quiet", "wheel", "--no-deps", "--wheel-dir", tmp_path, ROOT)
    (wheel,) = tmp_path.glob("cardgen-*.whl")
    run("-m", "zipfile", "--extract", wheel, apart)
    assert run("-c", "import cardgen; print(cardgen.__file__)").startswith(str(apart))
    run("-m", "cardgen", "build", definitions, "--out", tmp_path / "site")
    built = {
        path.relative_to(tmp_path / "site").as_posix() for path in (tmp_path / "site").rglob("*")
    }
    assert {"ZZ-WTR/index.html", "ZZ-WTR/card.pdf"} <= built
