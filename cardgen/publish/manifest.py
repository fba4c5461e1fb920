"""The manifest: which files of a site are ours, by a hash of each.

`cardgen.json` has all but PDFs, `cardgen-pdf.json` has those: they differ from machine to machine
and are often not committed, and what is committed shall be the same with them and without.
Neither has a time in it. Only the standard library is imported.
"""

import json
import re
from collections.abc import Collection, Iterable, Mapping
from pathlib import Path, PurePosixPath
from typing import Any

from cardgen.definition.files import content_of
from cardgen.definition.places import DefinitionError

MARK, PDF_MARK = "cardgen.json", "cardgen-pdf.json"
INNER = ".cardgen"  # a workshop in a site
MARKS = (PDF_MARK, MARK)  # in the order in which they are put in place
Owned = Mapping[
    str, frozenset[str]
]  # by path, the hashes that one of our files may have; none: any

# What a version wrote that had no list, and the PDFs of a site whose list of them is not there.
_BEFORE = re.compile(
    r"(index|formulas|glossary|keys)\.html|fleet\.pdf|assets/[^/]+\.(css|js|svg|png)"
    r"|schemas/[^/]+\.schema\.json|conversions/(index\.html|conversions\.(json|pdf)|[^/]+\.csv)"
    r"|(?P<aircraft>[^/]+)/(index\.html|card\.json|[^/]+\.csv|(card(-2up|-night)?|strip|pocket)\.pdf)"
)
_ANY: frozenset[str] = frozenset()
_LARGEST = 2**26  # bytes; of a fleet of a thousand aircraft it has some 6 MB


def folders_above(path: str) -> list[PurePosixPath]:
    """Return the folders of a site that one of its files stands in, from the innermost out."""
    return [*PurePosixPath(path).parents][:-1]


class ManifestError(ValueError):
    """There is a manifest that cannot be read."""


def manifest(about: Mapping[str, Any], files: Mapping[str, str]) -> str:
    """Return the text of a manifest: what it says of the site, and a line for each file."""
    return json.dumps({**about, "files": dict(sorted(files.items()))}, indent=1) + "\n"


def owned_in(site: Path) -> Owned | None:
    """Return which files of a folder are ours, or None where it has no manifest.

    Raises
    ------
    ManifestError
        If the manifest cannot be read.
    """
    said = _read(site / MARK)
    if said is None:
        return None
    if not isinstance(said.get("figures"), dict):
        raise ManifestError(MARK)
    sheets = _read(site / PDF_MARK)
    owned = {**_listed(said), **_listed(sheets or {}), **dict.fromkeys(MARKS, _ANY)}
    if "files" not in said:
        owned |= _of_before(site, said["figures"])
    elif sheets is None:
        found = _of_before(site, said["figures"])
        owned |= {path: _ANY for path in found if path.endswith(".pdf")}
    return owned


def _of_before(site: Path, aircraft: Collection[str]) -> dict[str, frozenset[str]]:
    files = (path.relative_to(site).as_posix() for path in (*site.glob("*"), *site.glob("*/*")))
    known = filter(None, map(_BEFORE.fullmatch, files))
    return {one[0]: _ANY for one in known if one["aircraft"] in {None, *aircraft}}


def together(*owned: Owned) -> Owned:
    """Return what is ours by one list or another."""
    paths = {path for one in owned for path in one}
    return {path: _either([one[path] for one in owned if path in one]) for path in paths}


def _either(hashes: Iterable[frozenset[str]]) -> frozenset[str]:
    each = list(hashes)
    return frozenset().union(*each) if all(each) else _ANY


def journal(owned: Owned) -> str:
    """Return the text that says what is ours while a site is a mix."""
    return json.dumps({path: sorted(hashes) for path, hashes in sorted(owned.items())})


def in_journal(path: Path) -> Owned | None:
    """Return what a journal says is ours, if there is one that holds."""
    try:
        plain = json.loads(content_of(path, path.name, _LARGEST))
        return {name: frozenset(hashes) for name, hashes in plain.items() if _is_inside(name)}
    except (OSError, ValueError, TypeError, AttributeError, RecursionError, DefinitionError):
        return None


def _read(path: Path) -> dict[str, Any] | None:
    try:
        said = json.loads(content_of(path, path.name, _LARGEST))
    except (FileNotFoundError, NotADirectoryError):
        return None
    except (ValueError, RecursionError, DefinitionError):
        said = None
    if not isinstance(said, dict):
        raise ManifestError(path.name)
    return said


def _listed(said: Mapping[str, Any]) -> dict[str, frozenset[str]]:
    files = said.get("files", {})
    if not isinstance(files, dict) or not all(isinstance(one, str) for one in files.values()):
        raise ManifestError(MARK)
    return {path: frozenset({hash_}) for path, hash_ in files.items() if _is_inside(path)}


def _is_inside(path: str) -> bool:
    """Whether a path leads to a file of the site, and to none of a repository in it."""
    return "\0" not in path and not {"", ".", "..", ".git"} & set(path.split("/"))
