"""Mutation: changes made to the arithmetic on purpose, nearly all of which some test notices."""

import json
import shutil
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

from tests.conftest import ROOT

pytest.importorskip("mutmut")

NOTICED_AT_LEAST = 0.98
COPIED = ("cardgen", "tests", "aircraft", "templates")
WHOLE = tomllib.loads((ROOT / "pyproject.toml").read_text())["tool"]["mutmut"]
SAMPLE = {
    **WHOLE,
    "only_mutate": ["cardgen/air/load.py"],
    "pytest_add_cli_args_test_selection": ["tests/air/test_load.py"],
}


def modules(settings: dict[str, list[str]]) -> set[Path]:
    found = {path for pattern in settings["only_mutate"] for path in ROOT.glob(pattern)}
    return {path for path in found if path.stem != "__init__"}


def share_noticed(folder: Path, settings: dict[str, list[str]]) -> float:
    """Run mutmut in a copy of the house; return the share of mutants that made a test fail."""
    for name in COPIED:
        shutil.copytree(ROOT / name, folder / name)
    others, _ = (ROOT / "pyproject.toml").read_text().split("[tool.mutmut]")
    lines = [f"{key} = {json.dumps(value)}" for key, value in settings.items()]
    (folder / "pyproject.toml").write_text("\n".join([others, "[tool.mutmut]", *lines, ""]))
    for command in (("run", "--max-children", "2"), ("export-cicd-stats",)):
        done = subprocess.run(
            [sys.executable, "-m", "mutmut", *command],
            cwd=folder,
            capture_output=True,
            text=True,
            check=False,
        )
        assert done.returncode == 0, done.stdout + done.stderr
    counted = json.loads((folder / "mutants" / "mutmut-cicd-stats.json").read_text())
    noticed = counted["killed"] + counted["timeout"]
    assert noticed + counted["survived"] + counted["no_tests"] == counted["total"] > 0
    return float(noticed / counted["total"])


@pytest.mark.longest
def test_changes_to_one_module_are_noticed_by_its_tests(tmp_path, record_property):
    record_property("sampled", ("mutated modules", len(modules(SAMPLE)), len(modules(WHOLE))))
    assert share_noticed(tmp_path, SAMPLE) >= NOTICED_AT_LEAST


@pytest.mark.long
def test_changes_to_the_arithmetic_are_noticed(tmp_path):
    assert share_noticed(tmp_path, WHOLE) >= NOTICED_AT_LEAST
