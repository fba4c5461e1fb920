"""Cruise tables as they are entered: what is set, what comes of it, and which table is which."""

import pytest
import yaml

from cardgen.definition.cruise import (
    Cruise,
    axes,
    held_temperature,
    laid_over,
    results,
    settings,
    temperature,
    told_apart,
)
from cardgen.definition.group import validated
from cardgen.definition.places import DefinitionError
from cardgen.definition.reading import parse_yaml


def cruise(text: str) -> Cruise:
    return validated(Cruise, parse_yaml(text.encode(), "cruise.yaml"))


def named(**keys: object) -> Cruise:
    said = {"columns": ["altitude", "tas"], "rows": [[2000, 100]], **keys}
    return cruise(yaml.safe_dump(said, allow_unicode=True))


# At 65 % the manifold pressure falls with altitude: power is set, the rest comes of it.
BY_POWER = """
columns: [altitude, power, rpm, manifold pressure, tas]
rows:
  - [2000, 65, 2400, 23, 110]
  - [2000, 55, 2300, 21, 100]
  - [4000, 65, 2450, 22, 112]
  - [4000, 55, 2350, 20, 102]
"""


def test_power_is_set_where_nothing_else_stands_at_more_altitudes_or_the_definition_says_so():
    assert settings(cruise(BY_POWER)) == ["power"]
    fixed = BY_POWER.replace("2450", "2400").replace("2350", "2300")
    assert settings(cruise(fixed)) == ["rpm"]
    assert settings(cruise(fixed + "settings: [power]\nresults: [rpm]")) == ["power"]
    both = cruise(fixed + "settings: [power]")
    assert settings(both) == ["rpm", "power"]
    assert results(both) == ["manifold pressure", "tas"]


def test_columns_of_the_manuals_own_name_are_what_the_definition_says():
    table = cruise("""
columns: [altitude, cowl flaps, isa, tas, CHT]
settings: [cowl flaps]
results: [CHT]
rows: [[2000, 1, 0, 100, 380], [2000, 2, 0, 98, 350], [2000, 1, 20, 101, -], [2000, 2, 20, 99, n/a]]
""")
    assert axes(table) == ["altitude", "isa", "cowl flaps"]
    assert results(table) == ["tas", "CHT"]
    assert [row[4] for row in table.rows] == [380, 350, None, None]


def test_a_usual_setting_with_a_figure_that_is_not_available_is_a_result():
    table = cruise("""
columns: [altitude, rpm, manifold pressure, tas]
rows: [[2000, 2400, 23, 110], [2000, 2200, n/a, 100], [4000, 2400, 23, 112], [4000, 2200, 21, 101]]
""")
    assert settings(table) == ["rpm"]
    assert results(table) == ["manifold pressure", "tas"]


@pytest.mark.parametrize(
    ("said", "held"),
    [("isa: 0", ("isa", 0)), ("oat: 15", ("oat", 15)), ("weight: 2000", None)],
)
def test_one_temperature_is_said_once(said, held):
    table = cruise(f"columns: [altitude, tas]\nrows: [[2000, 100]]\n{said}")
    assert held_temperature(table) == held
    assert temperature(table) is None
    assert axes(table) == ["altitude"]


def test_a_temperature_that_comes_of_the_altitude_is_no_axis():
    """A table for the standard atmosphere that prints its temperature at each altitude."""
    table = cruise("""
isa: 0
columns: [altitude, oat, tas]
results: [oat]
rows: [[2000, 11, 100], [4000, 7, 102]]
""")
    assert axes(table) == ["altitude"]
    assert results(table) == ["oat", "tas"]
    assert held_temperature(table) == ("isa", 0)


@pytest.mark.parametrize("nothing", ["~", "na", "--", "null"])
def test_only_a_dash_or_na_is_not_available(nothing):
    with pytest.raises(DefinitionError, match="expected a number"):
        cruise(f"columns: [altitude, tas]\nrows:\n - [2000, 100]\n - [4000, {nothing}]")


# -- several tables ----------------------------------------------------------------------------


def parts(*tables: Cruise) -> list[str]:
    return ["/".join(one.values()) for one in told_apart(tables)]


def test_tables_are_told_apart_by_name_or_weight_or_page_whichever_does_first():
    assert parts(named(name="economy")) == [""]
    economy, power = named(name="economy", page="5-1"), named(name="best power", page="5-1")
    assert parts(economy, power) == ["economy", "best-power"]
    light, heavy = named(weight=1800, page="5-1"), named(weight=2300, page="5-1")
    assert parts(light, heavy) == ["weight-1800", "weight-2300"]
    assert parts(named(page="5-1"), named(page="5-2")) == ["page-5-1", "page-5-2"]
    both = [named(name="economy", weight=weight) for weight in (1800, 2300)]
    assert parts(*both, power) == ["economy/weight-1800", "economy/weight-2300", "best-power"]


def test_the_order_of_tables_changes_no_identifier():
    tables = [named(name="economy"), named(name="best power"), named(weight=1800)]
    assert sorted(parts(*tables)) == sorted(parts(*reversed(tables)))


def test_a_supplement_restates_the_tables_of_its_names_or_else_all():
    economy, power = named(name="economy", page="5-1"), named(name="best power", page="5-2")
    new, other = named(name="economy", page="S-1"), named(page="S-2")
    assert laid_over([economy, power], []) == [economy, power]
    assert laid_over([economy, power], [new]) == [new, power]
    assert laid_over([economy, power], [other]) == [other]
    assert laid_over([], [other]) == [other]
    light, heavy = named(weight=1800), named(weight=2300)
    assert laid_over([light, heavy], [named(weight=1800, page="S-1")])[1:] == [heavy]
