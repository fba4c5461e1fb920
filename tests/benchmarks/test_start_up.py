"""What a command takes that only starts, and what it takes on the demo fleet.

Against a Python that does nothing, and one that imports what definitions are read with.
"""

import pytest

from tests.benchmarks.beside import least, seconds
from tests.conftest import ROOT

NOTHING = ("-c", "pass")
LIBRARIES = ("-c", "import numpy, yaml, pydantic")


@pytest.mark.parametrize(
    ("command", "baseline", "most"),
    [
        (("--help",), NOTHING, 4.0),
        (("check", "aircraft"), LIBRARIES, 3.0),  # the marks of signed cards once kept
        (("reckon", "ZZ-DUA", "--ias", "100"), LIBRARIES, 3.0),
    ],
    ids=lambda one: one[0] if isinstance(one, tuple) else "",
)
def test_a_command_imports_only_what_it_uses(tmp_path, record_property, command, baseline, most):
    bare, taken = least(
        lambda: seconds(baseline, ROOT, tmp_path, ROOT),
        lambda: seconds(("-m", "cardgen", *command), ROOT, tmp_path, ROOT),
        rounds=9,
    )
    measured = taken / bare
    record_property("measured", f"{command[0]} takes {measured:.1f} times {baseline[1]}")
    assert measured < most


@pytest.mark.parametrize(
    ("command", "absent"),
    [
        (("--help",), ("numpy", "yaml", "pydantic", "jinja2", "weasyprint", "pikepdf", "tqdm")),
        (("check", "aircraft"), ("jinja2", "weasyprint", "pikepdf", "fontTools", "tqdm")),
        (
            ("reckon", "ZZ-DUA", "--ias", "100"),
            ("jinja2", "weasyprint", "pikepdf", "fontTools", "tqdm", "cardgen.checks.run"),
        ),
    ],
    ids=lambda one: one[0],
)
def test_a_command_leaves_out_what_others_need(command, absent, tmp_path):
    program = (
        "import sys\nfrom cardgen.cli import main\n"
        f"try:\n main({list(command)!r})\nexcept SystemExit:\n pass\n"
        f"assert not [one for one in {absent!r} if one in sys.modules]\n"
    )
    seconds(("-c", program), ROOT, tmp_path, ROOT)
