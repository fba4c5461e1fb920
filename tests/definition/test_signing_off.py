"""Signatures written into an airframe's file: all bytes elsewhere stay as they were typed."""

import pytest

from cardgen.definition.group import validated
from cardgen.definition.model import AirframeDefinition
from cardgen.definition.places import DefinitionError
from cardgen.definition.reading import parse_yaml
from cardgen.definition.signing_off import line_of, signed_off

ONE = {"by": "P. Pipit", "date": "2026-03-02", "figures": "5B07-1BA0", "card": "389F-0845"}
TWO = {"by": "T. Teal", "role": "chief: of all", "date": "2026-03-03", "figures": "5B07-1BA0"}
OLD = "{by: One, date: 2025-01-31, figures: 0000-0001}"
BEFORE = "# a comment\nregistration:   'T-EST'  # said so\n"
AFTER = "type: plain\n\n# the end"


def texts() -> list[tuple[str, str]]:
    """What stands before a signature and behind it, with what stands there now between them."""
    return [
        (f"{BEFORE}sign off: ", OLD, f"  # by hand\n{AFTER}\n"),
        (f"{BEFORE}sign off: ", f"[{OLD}, {OLD}]", f"\n{AFTER}\n"),
        (f'{BEFORE}"sign off": ', OLD, f"\n{AFTER}"),
        (
            f"{BEFORE}sign off:",
            "\n  by: One\n  date: 2025-01-31\n  figures: 0000-0001",
            f"  # yes\n{AFTER}\n",
        ),
        (f"{BEFORE}sign off:", f"\n  - {OLD}\n  - {OLD}", f"\n\n# more\n{AFTER}\n"),
        (f"{BEFORE}{AFTER}\nserial: 007\n", "", ""),
        (f"{BEFORE}{AFTER}\n", "", "...\n"),
        ("{registration: T-EST, type: plain, sign off: ", OLD, "}"),
    ]


@pytest.mark.parametrize("line_end", ["\n", "\r\n"])
@pytest.mark.parametrize("signatures", [[ONE], [ONE, TWO]], ids=["one", "two"])
@pytest.mark.parametrize(("before", "old", "after"), texts())
def test_bytes_elsewhere_survive(before, old, after, signatures, line_end):
    content = f"{before}{old}{after}".replace("\n", line_end).encode()
    new = signed_off(content, "t-est.yaml", signatures).decode()
    start, end = (part.replace("\n", line_end) for part in (before, after))
    assert new.startswith(start.rstrip(" "))
    assert new.endswith(end)
    middle = new[len(start.rstrip(" ")) : len(new) - len(end)]
    for one in signatures:
        assert line_of(one) in middle
    read = validated(AirframeDefinition, parse_yaml(new.encode(), "t-est.yaml"))
    written = [(one.by, f"{one.date}", one.figures, one.role) for one in read.sign_off]
    assert written == [(s["by"], s["date"], s["figures"], s.get("role")) for s in signatures]


@pytest.mark.parametrize("signatures", [[ONE], [ONE, TWO]], ids=["one", "two"])
@pytest.mark.parametrize(
    "old",
    [
        f"  # of 2025\n  - {OLD}  # by phone\n  # twice\n  - {OLD}",
        "  # of 2025\n  # by phone\n  by: 'No # 1'\n  # twice\n  date: 2025-01-31\n"
        "  figures: 0000-0001",
        "  # of 2025\n  [  # by phone\n  # twice\n  " + OLD + "]",
    ],
)
def test_comments_between_old_signatures_stand_above_the_new_ones(old, signatures):
    content = f"{BEFORE}sign off:{old}\n{AFTER}\n".encode()
    new = signed_off(content, "t-est.yaml", signatures).decode()
    assert new.startswith(f"{BEFORE}# of 2025\n# by phone\n# twice\nsign off:")
    assert new.endswith(f"{line_of(signatures[-1])}\n{AFTER}\n")
    assert new.count("#") == content.decode().count("#") - old.count("No #")


def test_a_last_line_without_an_end_is_left_so():
    content = f"{BEFORE}{AFTER[: -len('# the end')].rstrip()}".encode()
    new = signed_off(content, "t-est.yaml", [ONE])
    assert new.endswith(b"type: plain")
    assert new.replace(f"sign off: {line_of(ONE)}\n".encode(), b"") == content


def test_a_mark_of_byte_order_stays():
    content = b"\xef\xbb\xbf" + f"{BEFORE}type: plain\n".encode()
    assert signed_off(content, "t-est.yaml", [ONE]).startswith(content)


@pytest.mark.parametrize("name", ["null", "007", "2026-03-02", "a: b", "#1", "[x]", 'O"Hara', "no"])
def test_any_name_is_read_as_it_was_given(name):
    content = b"registration: T-EST\ntype: plain\n"
    new = signed_off(content, "t-est.yaml", [{**ONE, "by": name}])
    (one,) = validated(AirframeDefinition, parse_yaml(new, "t-est.yaml")).sign_off
    assert one.by == name


def test_a_file_that_would_not_say_the_same_is_refused():
    content = b"registration: T-EST\ntype: plain\n"
    with pytest.raises(DefinitionError, match="cannot be written here; write it by hand"):
        signed_off(content, "t-est.yaml", [{**ONE, "by": "T\u202eeal"}])  # which does not show
