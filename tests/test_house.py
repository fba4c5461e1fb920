"""The house: which rooms there are, and which way data moves."""

import subprocess
import sys
import venv
from pathlib import Path

import pytest

from tests.conftest import ROOT

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


@pytest.mark.longest
def test_a_wheel_alone_builds_a_site_elsewhere(one_aircraft, tmp_path):
    def run(*command: object) -> None:
        done = subprocess.run(
            [*map(str, command)], cwd=tmp_path, capture_output=True, text=True, check=False
        )
        assert done.returncode == 0, done.stderr

    pip, env = [sys.executable, "-m", "pip", "--quiet"], tmp_path / "env"
    run(*pip, "wheel", "--no-deps", "--wheel-dir", tmp_path, ROOT)
    (wheel,) = tmp_path.glob("cardgen-*.whl")
    venv.create(env)
    run(*pip, "--python", env, "install", "--no-compile", wheel)
    run(env / "bin" / "cardgen", "build", one_aircraft, "--out", tmp_path / "site")
    built = {
        path.relative_to(tmp_path / "site").as_posix() for path in (tmp_path / "site").rglob("*")
    }
    assert {"ZZ-DUA/index.html", "ZZ-DUA/card.pdf"} <= built
