"""Long runs, of which a run of the tests takes a fixed sample; `pytest -m long` takes them whole.

How much was left out is said at the end of the run. A test that is given `sample` chooses from all
that it could try; a property says by `examples` how many random ones it is held against.
"""

import random
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from typing import Any, TypeVar

import pytest
from hypothesis import HealthCheck, seed, settings

SEED = 20241107
Thing = TypeVar("Thing")
Sample = Callable[[str, Sequence[Thing], int], Sequence[Thing]]

for profile in ("sample", "long"):
    settings.register_profile(profile, deadline=None, derandomize=True)


def is_long() -> bool:
    """Whether long runs are taken whole."""
    return settings.get_current_profile_name() == "long"


def pytest_configure(config: pytest.Config) -> None:
    settings.load_profile("long" if config.option.markexpr == "long" else "sample")


@pytest.fixture
def sample(record_property: Callable[[str, object], None]) -> Sample[Any]:
    """Choose some of what could be tried, in its order, or all of it in a long run."""

    def choose(what: str, whole: Sequence[Thing], few: int) -> Sequence[Thing]:
        chance = random.Random(SEED)
        tried = (
            whole
            if is_long()
            else [whole[i] for i in sorted(chance.sample(range(len(whole)), few))]
        )
        record_property("sampled", (what, len(tried), len(whole)))
        return tried

    return choose


def examples(few: int, whole: int) -> Callable[[Thing], Thing]:
    """Hold a property against a few random examples, or more of them in a long run.

    Properties begin from one seed, so that what is drawn alike is the same, and made once.
    """
    tried = whole if is_long() else few

    def hold(test: Thing) -> Thing:
        slow = [HealthCheck.too_slow, HealthCheck.data_too_large]
        held = seed(SEED)(settings(max_examples=tried, suppress_health_check=slow)(test))
        return pytest.mark.examples(tried, whole)(held)

    return hold


def some(what: str, whole: Sequence[str], few: Sequence[str]) -> list[Any]:
    """Return parameters of which a run takes a few, and a long run the others."""
    assert set(few) <= set(whole)
    share = pytest.mark.part(what, len(whole) / len(few))
    return [pytest.param(one, marks=share if one in few else pytest.mark.long) for one in whole]


_SAMPLING = {"sample", "built", "only"}  # fixtures


@pytest.hookimpl(tryfirst=True)
def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Note what is sampled; begin with what takes longest, so that nothing waits for it."""
    items.sort(key=lambda item: item.get_closest_marker("longest") is None)
    for item in items:
        for part in item.iter_markers("part"):
            item.user_properties.append(("sampled", (part.args[0], 1, part.args[1])))
        held = item.get_closest_marker("examples")
        if held:
            item.user_properties.append(("sampled", ("random examples", *held.args)))
        sampled = held or item.get_closest_marker("sampled")
        if is_long() and (sampled or _SAMPLING & set(getattr(item, "fixturenames", ()))):
            item.add_marker("long")


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    tried: Counter[str] = Counter()
    whole: dict[str, float] = {}
    for what, some, all_of_them in _recorded(terminalreporter, "sampled"):
        tried[what] += some
        whole[what] = whole.get(what, 0) + all_of_them
    if whole:
        said = "; ".join(f"{what} {tried[what]:,} of {whole[what]:,.0f}" for what in whole)
        terminalreporter.write_line(f"sampled: {said} (pytest -m long runs all)")
    for said in _recorded(terminalreporter, "measured"):
        terminalreporter.write_line(f"measured: {said}")
    figures = [f"{name} {figure}" for name, figure in _recorded(terminalreporter, "figure")]
    if figures:
        terminalreporter.write_line(f"figures: {'; '.join(figures)}")


def _recorded(reporter: pytest.TerminalReporter, wanted: str) -> Iterator[Any]:
    for outcome in ("passed", "failed"):
        for report in reporter.getreports(outcome):
            for name, value in report.user_properties:
                if name == wanted and report.when == "call":
                    yield value
