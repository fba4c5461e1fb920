"""The house: which rooms there are, and which way data moves."""

import subprocess
import sys
import venv
from pathlib import Path

import pytest

from tests.conftest import DEMO, ROOT

TOP = {
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


@pytest.mark.xdist_group("wheel")
def test_a_wheel_alone_builds_a_site_elsewhere(definitions, tmp_path):
    def run(*command: object) -> None:
        done = subprocess.run(
            [*map(str, command)], cwd=tmp_path, capture_output=True, text=True, check=False
        )
        assert done.returncode == 0, done.stderr

    run(sys.executable, "-m", "pip", "wheel", "--quiet", "--no-deps", "--wheel-dir", tmp_path, ROOT)
    (wheel,) = tmp_path.glob("cardgen-*.whl")
    venv.create(tmp_path / "env", with_pip=True)
    binaries = tmp_path / "env" / "bin"
    run(binaries / "python", "-m", "pip", "install", "--quiet", wheel)
    run(binaries / "cardgen", "build", definitions, "--out", tmp_path / "site")
    built = {
        path.relative_to(tmp_path / "site").as_posix() for path in (tmp_path / "site").rglob("*")
    }
    for path in (DEMO / "fleet").iterdir():
        registration = path.stem.upper()
        assert {f"{registration}/index.html", f"{registration}/card.pdf"} <= built
