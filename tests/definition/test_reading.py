import pytest

from cardgen.definition.places import DefinitionError, Figure
from cardgen.definition.reading import parse_yaml


def message(content: bytes) -> str:
    with pytest.raises(DefinitionError) as caught:
        parse_yaml(content, "type.yaml")
    return str(caught.value)


def test_a_figure_keeps_its_text_and_place():
    figure = parse_yaml(b"a: 1\nspeeds:\n  VNE: 151.0\n", "type.yaml")["speeds"]["VNE"]
    assert (figure, figure.text, str(figure.place)) == (151.0, "151.0", "type.yaml:3:8")


@pytest.mark.parametrize("text", ["no", "on", "12:30", "1e3", "0x10", "2023-05-12", "5-9", "1_0"])
def test_what_only_yaml_1_1_takes_for_something_else_stays_words(text):
    assert parse_yaml(f"key: {text}".encode(), "f")["key"] == text


@pytest.mark.parametrize("text", ["12", "-3.5", "+2", ".5", "007"])
def test_numbers(text):
    figure = parse_yaml(f"key: {text}".encode(), "f")["key"]
    assert isinstance(figure, Figure)
    assert (figure, figure.text) == (float(text), text)


def test_quoted_digits_are_words():
    assert parse_yaml(b'serial: "1043"', "f")["serial"] == "1043"


def test_every_duplicate_key_is_found():
    said = message(b"a: 1\nb: 2\na: 3\nb: 4\n")
    assert "type.yaml:3:1: the key a stands on line 1 already" in said
    assert "type.yaml:4:1: the key b stands on line 2 already" in said


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"a: [1, 2\nb: 3", "type.yaml:2:2: not YAML"),
        (b"a: &x 1\nb: *x", "type.yaml:2:4: found the alias *x"),
        (b"a: !!python/object:os.system 1", "type.yaml:1:4: found the tag"),
        (b"a: 1\n---\nb: 2", "type.yaml:2:1: found a second YAML document"),
        (b"- 1\n- 2", "type.yaml:1:1: found a list, expected a mapping"),
        (b"", "type.yaml:1:1: found nothing"),
        (b"a: 1\nb: \xff", "type.yaml:2:4: byte 0xFF is not UTF-8"),
        (b"a: \x07", "type.yaml:1:4: found the character U+0007, expected"),
        (b"a: " + b"[" * 30 + b"]" * 30, "nested deeper than 20 levels"),
        (b"#" * (1024 * 1024 + 1), "at most 1 MiB"),
        (b"{[1]: 2}", "a key that is not a word"),
    ],
)
def test_what_is_refused(content, said):
    assert said in message(content)
