"""What benchmarks are held against that is not of this version."""

import subprocess
from pathlib import Path

import pytest

from tests.benchmarks.beside import EARLIER
from tests.conftest import ROOT


@pytest.fixture
def earlier(tmp_path) -> Path:
    """The earlier commit's files."""
    archive = tmp_path / "earlier.tar"
    command = ["git", "archive", "-o", str(archive), EARLIER]
    if subprocess.run(command, cwd=ROOT, capture_output=True).returncode:
        pytest.skip(f"{EARLIER} is not in this clone")
    folder = tmp_path / "earlier"
    folder.mkdir()
    subprocess.run(["tar", "-xf", str(archive), "-C", str(folder)], check=True)
    return folder
