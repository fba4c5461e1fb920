"""Building the site of a fleet: only what is not there yet, and all or nothing.

Whether there is anything to do is found here, with no more than the standard library; what makes
a site (`making.py`) is imported only then.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING

from cardgen.publish.keys import inputs_of
from cardgen.publish.place import OnlyError, finish, is_unfinished, placing, refuse_within
from cardgen.publish.record import Record, read_record, write_record
from cardgen.publish.store import store_in, unhindered

if TYPE_CHECKING:
    from concurrent.futures import Executor

    from cardgen.definition.places import Fault

Progress = Callable[[int, int, str], None]  # parts done, of how many, the one that is under work


@dataclass(frozen=True)
class Order:
    """What is to be built, and how; see `build`."""

    definitions: Path
    progress: Progress
    pdfs: bool
    only: Collection[str]
    keep_going: bool
    strict: bool
    executor: Executor | None
    workers: int | None


@dataclass(frozen=True)
class Built:
    """What a build did.

    Attributes
    ----------
    made : tuple of str
        The files that were made.
    reused : int
        How many files were taken as they were.
    counts : Counter
        How many ``documents``, ``pages`` and ``sheets`` (an aircraft's PDFs) were made, and how
        many ``layouts`` of a page of PDF that took.
    warnings : int
        How many warnings the pages tell.
    faults : tuple of Fault
        For which aircraft were left out.
    edited : mapping
        What is kept of files that were edited by hand and are no more made, by their paths.
    """

    made: tuple[str, ...]
    reused: int
    warnings: int
    counts: Counter[str] = field(default_factory=Counter)
    faults: tuple[Fault, ...] = ()
    edited: Mapping[str, str] = field(default_factory=dict)


def silent(done: int, total: int, what: str) -> None:
    """Tell nobody how far a build is."""


def build(
    definitions: Path,
    out: Path,
    progress: Progress = silent,
    pdfs: bool = True,
    *,
    cache: Path | None = None,
    fresh: bool = False,
    only: Collection[str] = (),
    keep_going: bool = False,
    strict: bool = False,
    untrusted: bool = False,
    executor: Executor | None = None,
    workers: int | None = None,
) -> Built:
    """Build a fleet's site, and put it in place when all of it is built.

    The site is the same whatever was there before, however it is built. No part of it depends on
    the day.

    Parameters
    ----------
    definitions : Path
        The folder of YAML files; its ``templates`` folder, if any, overrides ours.
    out : Path
        Where the site shall stand.
    progress : callable
        Told of each part that is begun or done.
    pdfs : bool
        Whether to make the PDFs too, which takes most of the time.
    cache : Path, optional
        A folder that keeps what was made, for the next build; see `store.default_folder`.
    fresh : bool
        Whether to make all anew, whatever the cache has.
    only : collection of str
        The registrations of the aircraft to make; all else stays as it stands in the site.
    keep_going : bool
        Whether to leave out aircraft that have faults, and build the others.
    strict : bool
        Whether a warning that is not accepted is a fault too.
    untrusted : bool
        Whether the folder's templates and picture, which are code, and its files to copy are
        left alone.
    executor : Executor, optional
        Where PDFs are made, such as a cluster's; else processes of this machine.
    workers : int, optional
        How many of those; as many as the machine has cores where left out.

    Returns
    -------
    Built
        What was done.

    Raises
    ------
    DefinitionError
        If a definition has faults, or a check finds an error in one.
    OnlyError
        If `only` names what there is not, or there is no site of ours to put it in.
    PlaceError
        If `out` holds something that is not a site, or is in what the site is made of.
    HinderedError
        If something that is not ours stands in the way, or another build is at work.
    PdfError
        If a system library for PDFs is missing, or a process that makes them is ended.
    ClusterError
        If a cluster's worker would print other sheets.
    """
    refuse_within(definitions, out, "--out")
    if cache is not None:
        refuse_within(definitions, cache, "--cache")
    inputs = inputs_of(definitions, pdfs, untrusted)
    store = store_in(cache, fresh)
    before = read_record(store.record(out))
    known = not (fresh or only or strict)
    if known and before and before.key == inputs.key and before.stands(out):
        if is_unfinished(out):
            finish(out)
        return Built((), len(before.paths), before.warnings)
    with placing(out) as place:
        before = read_record(store.record(out))  # of another build, if one was at work till now
        if only and before is None:
            raise OnlyError(f"nothing is known of a site in {out}; build all of it first")

        from cardgen.publish.filling import Filling
        from cardgen.publish.making import made

        order = Order(definitions, progress, pdfs, only, keep_going, strict, executor, workers)
        site = Filling(place.new, place.out, before, store)
        inputs, faults = made(order, inputs, site, place.workshop / "scratch", place.refuse)
        edited = place.put(site.hashes)
        if cache is not None:
            key = "" if only or faults else inputs.key
            with unhindered():
                write_record(store.record(out), out, key, site.parts)
            store.bound({hash_ for part in site.parts.values() for hash_ in part.files.values()})
    warnings = Record("", site.parts, {}).warnings
    return Built(tuple(site.made), site.reused, warnings, site.counts, faults, edited)
