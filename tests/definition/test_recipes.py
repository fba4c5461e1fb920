"""The recipes: their files by the schemas that their hosts publish, and their steps, run.

The steps run in order in a shallow clone of a scratch repository, with stand-ins for what installs
packages and for the host's own command.
"""

import json
import os
import re
import shutil
import stat
import subprocess
import sys
from pathlib import Path

import pytest
import yaml

from cardgen.cli import main
from cardgen.definition.schema import FILES
from tests.conftest import DEMO, ROOT, keep

SCHEMAS = {
    ".github/workflows/cards.yml": ["vendor.github-workflows"],
    ".github/workflows/cards-report.yml": ["vendor.github-workflows"],
    ".gitlab-ci.yml": ["vendor.gitlab-ci", "--data-transform", "gitlab-ci"],
}
GIT = ["git", "-c", "user.name=T", "-c", "user.email=t@example.test"]


def git(folder: Path, *command: str) -> None:
    subprocess.run([*GIT, *command], cwd=folder, check=True, capture_output=True)


@pytest.fixture(scope="module")
def repository(tmp_path_factory) -> Path:
    """A repository of one aircraft with its recipes, and a branch in which a limit is raised."""
    top = tmp_path_factory.mktemp("recipes") / "school"
    shutil.copytree(DEMO, top / "aircraft")
    keep(top / "aircraft", "zz-wtr")
    git(top, "init", "--quiet", "--initial-branch=main")
    with pytest.MonkeyPatch.context() as patch:
        patch.chdir(top)
        assert main(["start", "recipes"]) == 0
    git(top, "add", "--all")
    git(top, "commit", "--quiet", "--message=One")
    git(top, "commit", "--quiet", "--message=Two", "--allow-empty")
    git(top, "switch", "--quiet", "--create=change")
    path = top / "aircraft/fleet/zz-wtr.yaml"
    path.write_text(
        f"{path.read_text().rstrip()}\nserial: K-77\n"
        if "\nserial" not in path.read_text()
        else re.sub(r"(?m)^serial: .*$", "serial: K-77", path.read_text())
    )
    git(top, "commit", "--quiet", "--all", "--message=Three")
    return top


def recipe(repository: Path, name: str) -> dict:
    return yaml.safe_load((repository / name).read_text())


@pytest.mark.parametrize("name", SCHEMAS)
def test_a_recipe_is_as_its_host_says(repository, name):
    schema = ["--builtin-schema", *SCHEMAS[name]]
    command = [sys.executable, "-m", "check_jsonschema", *schema, repository / name]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr


def test_what_runs_a_strangers_definitions_has_no_secret_and_cannot_write(repository):
    change = recipe(repository, ".github/workflows/cards.yml")
    assert change["permissions"] == {"contents": "read"}
    job = change["jobs"]["change"]
    assert job["permissions"] == {"contents": "read"}
    assert "secrets." not in json.dumps(change)
    assert "github.token" not in json.dumps(job)
    assert "pull_request_target" not in json.dumps(change)
    host = recipe(repository, ".gitlab-ci.yml")
    for steps in (runs_of(job), host["change"]["script"]):
        (build,) = (one for one in steps if "cardgen build" in one)
        assert "--untrusted" in build
    assert "TOKEN" not in json.dumps(host["change"])


def test_what_may_write_runs_nothing_that_came_with_the_change(repository):
    post = recipe(repository, ".github/workflows/cards-report.yml")["jobs"]["post"]
    assert not any("checkout" in step.get("uses", "") for step in post["steps"])
    report = recipe(repository, ".gitlab-ci.yml")["report"]
    assert report["variables"]["GIT_STRATEGY"] == "none"
    said = json.dumps([runs_of(post), report["script"]])
    assert "cardgen" not in said
    assert "${{" not in said  # no text of a stranger's is put into a script


def runs_of(job: dict) -> list[str]:
    return [step["run"] for step in job["steps"] if "run" in step]


STAND_INS = {
    "cardgen": 'case "$1" in build) set -- "$@" --no-pdf ;; esac\nexec "$PYTHON" -m cardgen "$@"',
    "pip": 'echo "pip $*" >> "$SAID"',
    "sudo": 'echo "$*" >> "$SAID"',
    "apt-get": 'echo "apt-get $*" >> "$SAID"',
    "gh": 'echo "gh $*" >> "$SAID"\n'
    'case "$*" in *headRefOid*) echo "$COMMIT" ;; *--edit-last*) exit 1 ;; esac',
    "curl": 'echo "curl $*" >> "$SAID"',
}  # fmt: skip


def run(folder: Path, steps: list[str], **given: str) -> str:
    """Run steps as a host does, each in a shell of its own; return what stand-ins were asked."""
    tools = folder.parent / "tools"
    tools.mkdir(exist_ok=True)
    for name, does in STAND_INS.items():
        (tools / name).write_text(f"#!/bin/sh\n{does}\n")
        (tools / name).chmod(stat.S_IRWXU)
    said = folder.parent / "said"
    said.touch()
    own = {"PATH": f"{tools}:{os.environ['PATH']}", "SAID": str(said), "PYTHON": sys.executable}
    environment = {**os.environ, "PYTHONPATH": str(ROOT), **own, **given}
    for step in steps:
        command = ["bash", "-e", "-c", step]
        done = subprocess.run(
            command, cwd=folder, env=environment, capture_output=True, text=True, check=False
        )
        assert done.returncode == 0, (step, done.stdout, done.stderr)
    return said.read_text()


def cloned(repository: Path, tmp_path: Path) -> Path:
    """A clone of the change that has no history."""
    clone = tmp_path / "clone"
    address = repository.as_uri()
    kept = repository.parent / "kept"
    git(tmp_path, "clone", "--quiet", "--depth=1", "--branch=change", address, str(clone))
    count = subprocess.run(
        ["git", "rev-list", "--count", "HEAD"], cwd=clone, capture_output=True, check=True
    )
    assert count.stdout.strip() == b"1"
    if kept.exists():  # as a host gives a run what the last one kept
        shutil.copytree(kept, clone / ".cards-cache")
    return clone


def test_the_steps_of_one_host_report_a_change_and_post_it(repository, tmp_path):
    clone = cloned(repository, tmp_path)
    change = recipe(repository, ".github/workflows/cards.yml")
    steps = runs_of(change["jobs"]["change"])
    said = run(clone, steps, **change["env"], BASE="main", NUMBER="12")
    assert "pip install cardgen" in said
    report = (clone / "report/report.md").read_text()
    assert "K-77" in report
    assert (clone / "public/ZZ-WTR/index.html").exists()
    shutil.copytree(clone / ".cards-cache", repository.parent / "kept", dirs_exist_ok=True)
    post = recipe(repository, ".github/workflows/cards-report.yml")["jobs"]["post"]
    said = run(clone, runs_of(post), COMMIT="abc", GH_TOKEN="t")
    assert "gh pr comment 12 --body-file said.md" in said
    assert (clone / "said.md").read_text() == report


@pytest.mark.long
def test_the_steps_of_the_other_report_a_change_and_post_it(repository, tmp_path):
    clone = cloned(repository, tmp_path)
    host = recipe(repository, ".gitlab-ci.yml")
    base = subprocess.run(
        ["git", "rev-parse", "main"], cwd=repository, capture_output=True, text=True, check=True
    ).stdout.strip()
    job = host["change"]
    given = {**host["variables"], "CI_MERGE_REQUEST_DIFF_BASE_SHA": base}
    run(clone, [*job["before_script"], *job["script"]], **given)
    assert "K-77" in (clone / "report.md").read_text()
    where = {"CARDS_TOKEN": "t", "CI_API_V4_URL": "https://host.example/api"}
    ids = {"CI_PROJECT_ID": "3", "CI_MERGE_REQUEST_IID": "9"}
    said = run(clone, host["report"]["script"], **where, **ids)
    assert "https://host.example/api/projects/3/merge_requests/9/notes" in said


def test_recipes_are_never_written_over_others(repository, monkeypatch, capsys):
    monkeypatch.chdir(repository)
    assert main(["start", "recipes"]) == 2
    assert "nothing was written" in capsys.readouterr().err


def test_a_school_begins_with_what_its_repository_wants(tmp_path):
    assert main(["start", "school", "One", "--definitions", str(tmp_path / "aircraft")]) == 0
    assert "/site/" in (tmp_path / ".gitignore").read_text().splitlines()
    settings = json.loads((tmp_path / ".vscode/settings.json").read_text())
    assert {*settings["yaml.schemas"]} == {f"aircraft/schemas/{file}" for file in FILES}
    for file in settings["yaml.schemas"]:
        assert (tmp_path / file).exists()


def test_a_hook_checks_before_a_commit():
    (hook,) = yaml.safe_load((ROOT / ".pre-commit-hooks.yaml").read_text())
    assert {"id", "name", "entry", "language"} <= {*hook}
    assert hook["entry"] == "cardgen check"
    assert hook["pass_filenames"] is False
    assert re.search(hook["files"], "aircraft/fleet/zz-dua.yaml")
