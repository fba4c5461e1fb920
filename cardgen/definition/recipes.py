"""Recipes for hosts of repositories: what checks, compares and publishes definitions there."""

from collections.abc import Mapping
from pathlib import Path

from cardgen.folders import own_templates

PIPELINES = {
    ".github/workflows/cards.yml": "github-change.yml",
    ".github/workflows/cards-report.yml": "github-report.yml",
    ".gitlab-ci.yml": "gitlab.yml",
}
BESIDE = {".gitignore": "gitignore", ".vscode/settings.json": "settings.json"}


def top_of(folder: Path) -> Path:
    """Return the top of the repository that a folder of definitions is in, or what it stands in."""
    around = [folder.absolute(), *folder.absolute().parents]
    return next((one for one in around if (one / ".git").exists()), around[1])


def recipes(names: Mapping[str, str], folder: Path) -> dict[str, str]:
    """Return recipes by the names of their files, for a folder of definitions."""
    at = folder.absolute().relative_to(top_of(folder)).as_posix()
    texts = own_templates() / "recipes"
    return {
        name: (texts / file).read_text("utf-8").replace("@DEFINITIONS@", at)
        for name, file in names.items()
    }
