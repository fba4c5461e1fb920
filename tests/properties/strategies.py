"""Random definitions that the reader takes, written and read as a user's files are.

Every figure stands alone on its line, so that a file and a line name one figure. The
aircraft are made up from numbers alone: no order among V-speeds is kept, tables are short,
and much lies outside of them.
"""

from decimal import Decimal
from functools import cached_property, lru_cache
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from hypothesis import strategies as st

from cardgen.air import airspeed, atmosphere
from cardgen.airframe.aircraft import Aircraft
from cardgen.cards.card import make_document
from cardgen.definition.fleet import Fleet, read_fleet
from cardgen.definition.model import School
from cardgen.definition.speeds import KINDS, SPEEDS
from cardgen.document.record import Document
from cardgen.units import convert, from_si, to_si

SPEED_UNITS = ("kt", "mph", "km/h")
TYPE, AIRFRAME, SCHOOL = "types/dotterel.yaml", "fleet/zz-dot.yaml", "school.yaml"


class Sample:
    """A school of one aircraft: its files, and what the reader made of them."""

    def __init__(self, files: dict[str, str], fleet: Fleet) -> None:
        self.files, self.fleet = files, fleet

    @cached_property
    def document(self) -> Document:
        """The card, which is made once however many properties are held against it."""
        return make_document(self.aircraft, self.school)

    @property
    def aircraft(self) -> Aircraft:
        """The aircraft, anew each time."""
        return Aircraft(self.fleet.aircraft[0])

    @property
    def school(self) -> School:
        """The school."""
        return self.fleet.school

    def line(self, file: str, number: int) -> str:
        """Return what stands on a line of a file, without its key or dash."""
        return self.files[file].split("\n")[number - 1].replace("- ", "").split(":")[-1].strip()

    def __repr__(self) -> str:
        return "\n" + "\n".join(f"--- {name}\n{text}" for name, text in self.files.items())


def read(files: dict[str, str]) -> Sample:
    """Write the files into a folder and read it."""
    with TemporaryDirectory() as name:
        folder = Path(name)
        for path, text in files.items():
            (folder / path).parent.mkdir(exist_ok=True)
            (folder / path).write_text(text, encoding="utf-8")
        return Sample(files, read_fleet(folder))


@st.composite
def samples(draw: st.DrawFn, cruise: bool = False) -> Sample:
    """Return a school, a type and an airframe that the reader takes, with cruise if need be."""
    make = _Maker(draw, cruise)
    files = {TYPE: make.type(), SCHOOL: make.school(), AIRFRAME: make.airframe()}
    return known(tuple((name, yaml(value)) for name, value in files.items()))


@lru_cache(maxsize=100)
def known(files: tuple[tuple[str, str], ...]) -> Sample:
    """Read files, unless another property has."""
    return read(dict(files))


def yaml(value: Any, indent: int = 0) -> str:
    """Return mappings and lists as YAML in block style, a figure to a line."""
    margin = " " * indent
    lines = []
    items = value.items() if isinstance(value, dict) else [("", item) for item in value]
    for key, item in items:
        head = f"{margin}{key}:" if isinstance(value, dict) else f"{margin}-"
        if isinstance(item, dict | list):
            lines.append(f"{head}\n{yaml(item, indent + 2)}")
        else:
            lines.append(f"{head} {item}\n")
    return "".join(lines)


_FLAPS = (
    ("0", "10", "20", "30", "40"),
    ("up", "T/O", "approach", "half", "landing"),
    ("-5", "0", "+5", "L1", "L2"),
)
_PAGES = ("2-3", "S12-4", "5-14", "appendix 3", "7")
_REMARKS = ("vents closed, heater on", 'Gear & flaps "up" <both>', "at 75 % power")
_SETTINGS = {
    "rpm": (2100, 2300, 2450),
    "manifold pressure": (20, 22, 24),
    "torque": (70, 85, 100),
    "N1": (88, 95, 101),
    "setting": (1, 2, 3),
}


class _Maker:
    """Draws one type, school and airframe that fit each other."""

    def __init__(self, draw: st.DrawFn, cruise: bool) -> None:
        self.draw, self.cruises = draw, cruise
        self.kind = draw(st.sampled_from([k for k in KINDS if k != "glider" or not cruise]))
        self.unit = draw(st.sampled_from(SPEED_UNITS))
        self.metric = draw(st.booleans())
        self.altitude_unit = "m" if self.metric else "ft"
        self.temperature_unit = draw(st.sampled_from(("C", "F")))
        self.flaps = list(draw(st.sampled_from(_FLAPS))[: self.whole(1, 5)])
        self.maximum = self.whole(600, 9000)
        self.weights = [self.maximum * share // 100 for share in self.several(40, 99, 0, 2)]
        # The stall, the fastest speed and the ceiling, about; the rest is drawn around them.
        knots = self.whole(60, 95) if self.kind == "turbine" else self.whole(30, 70)
        self.slow = round(convert(float(knots), "kt", self.unit))
        times = self.whole(25, 31) if self.kind == "turbine" else self.whole(20, 32)
        self.fast = self.slow * times // 10
        self.ceiling = 9000 if self.kind == "turbine" else 5000  # m

    # -- small things ------------------------------------------------------------------------

    def maybe(self, chance: int = 2) -> bool:
        """Return True once in `chance` times, about; False where examples shrink."""
        return self.whole(1, chance) == chance

    def whole(self, least: int, most: int) -> int:
        return self.draw(st.integers(least, most))

    def several(self, least: int, most: int, few: int, many: int) -> list[int]:
        """Return different numbers, the least first."""
        numbers = st.integers(least, most)
        return sorted(self.draw(st.lists(numbers, min_size=few, max_size=many, unique=True)))

    def some(self, of: Any, few: int = 0) -> list[Any]:
        """Return some of a sequence, in its order."""
        of = list(of)
        kept = self.draw(st.lists(st.booleans(), min_size=len(of), max_size=len(of)))
        chosen = [one for one, keep in zip(of, kept, strict=True) if keep]
        return chosen if len(chosen) >= few else of[:few]

    def text(self, number: Decimal | int) -> str:
        """Return a number as somebody may write it."""
        how = self.whole(0, 11)
        said = f"{number}"
        if how == 9 and "." not in said:
            return f"{said}.0"
        if how == 10 and "." in said:
            return f"{said}0"
        return f"+{said}" if how == 11 and not said.startswith("-") else said

    def figure(self, least: int, most: int) -> str:
        """Return a figure, seldom with a decimal."""
        number = self.whole(least, most)
        if self.maybe(6):
            return self.text(number + Decimal(self.whole(1, 9)) / 10)
        return self.text(number)

    def speed(self, low: float = 0.8, high: float = 1.1) -> str:
        """Return a speed from a share of the slowest to a share of the fastest."""
        return self.figure(int(self.slow * low), int(self.fast * high))

    def page(self) -> dict[str, str]:
        return {} if self.maybe(5) else {"page": self.draw(st.sampled_from(_PAGES))}

    def levels(self, few: int, many: int) -> list[int]:
        """Return different altitudes in the manual's unit."""
        size, top = (100, self.ceiling) if self.metric else (500, self.ceiling * 3)
        return [size * n for n in self.several(-1, top // size, few, many)]

    def temperatures(self, few: int, many: int) -> list[str]:
        low, high = (-40, 45) if self.temperature_unit == "C" else (-40, 113)
        return [self.text(one) for one in self.several(low, high, few, many)]

    def rising(self, start: float, steps: list[int]) -> list[str]:
        """Return numbers that rise by tenths of the steps."""
        tenths = [round(start * 10)]
        for step in steps:
            tenths.append(tenths[-1] + step)
        return [self.text(Decimal(n) / 10 if n % 10 else n // 10) for n in tenths]

    # -- the type ----------------------------------------------------------------------------

    def type(self) -> dict[str, Any]:
        units = {
            "speed": self.unit,
            "altitude": self.altitude_unit,
            "temperature": self.temperature_unit,
            "weight": self.draw(st.sampled_from(("lb", "kg"))),
        }
        self.flows = not self.maybe(4)
        if self.flows:
            flows = ("gal/h", "L/h", "lb/h", "kg/h")
            units["fuel flow"] = self.draw(st.sampled_from(flows))
        self.distances = self.maybe()
        if self.distances:
            units["distance"] = self.draw(st.sampled_from(("nm", "km", "mi")))
        found: dict[str, Any] = {
            "name": "Dotterel 40",
            "kind": self.kind,
            "manual": {
                "title": "Pilot's handbook",
                "number": "DT40-H",
                "revision": "3",
                "date": "2024-03-09",
            },
            "units": units,
            "flaps": self.flaps,
            "weights": {
                "maximum": self.text(self.maximum),
                "others": [self.text(weight) for weight in self.weights] or "[]",
            },
            "speeds": self.speeds(),
            "calibration": self.calibrations(),
        }
        if len(self.flaps) == 1 and self.flaps[0] == "0" and self.maybe():
            del found["flaps"]
        if self.maybe():
            found["other speeds"] = {
                "window open": {**self.entry(), "sense": "maximum"},
                "cruise climb": {"ias": f"{self.slow} to {self.fast}", **self.page()},
            }
        if self.maybe():
            found["markings"] = self.markings()
        if self.maybe():
            found["stall"] = self.stall()
        if self.kind != "glider" and (self.cruises or self.maybe()):
            found["cruise"] = self.cruise()
        if self.maybe():
            found["glide"] = {"ratio": self.figure(6, 50), **self.page()}
        if self.maybe(4):
            units["distance"] = self.draw(st.sampled_from(("nm", "km", "mi")))
            found["glide"] = [self.glide() for _ in range(self.whole(1, 3))]
        if self.maybe(3):
            units["sink"] = self.draw(st.sampled_from(("ft/min", "m/s", "kt")))
            found["polar"] = [self.polar(units["sink"]) for _ in range(self.whole(1, 2))]
        if self.maybe(4):
            found["weights"]["names"] = {"least pilot": self.figure(50, 120), "ramp": self.maximum}
        if self.maybe():
            found["crosswind"] = {"demonstrated": self.figure(5, 40), **self.page()}
            if self.maybe(4):
                found["crosswind"]["unit"] = self.draw(st.sampled_from((*SPEED_UNITS, "m/s")))
        return found

    def glide(self) -> dict[str, Any]:
        found = {"distance": self.figure(1, 4), "for height": self.figure(1000, 1500)}
        if self.maybe():
            found["ratio"] = self.figure(6, 50)
        if self.maybe():
            found[self.draw(st.sampled_from(("ias", "cas")))] = self.speed(1.2, 0.7)
        if self.maybe():
            found["flaps"] = self.draw(st.sampled_from(self.flaps))
        return {**found, **self.page()}

    def polar(self, unit: str) -> dict[str, Any]:
        points = self.whole(2, 6)
        steps = st.lists(st.integers(10, self.fast * 8 // points), min_size=points - 1)
        speeds = self.rising(self.slow, self.draw(steps)[: points - 1])
        least, most = {"ft/min": (100, 900), "m/s": (1, 6), "kt": (1, 9)}[unit]
        found: dict[str, Any] = {
            self.draw(st.sampled_from(("ias", "cas", "tas"))): speeds,
            "sink": [self.figure(least, most) for _ in speeds],
        }
        if self.maybe():
            found["weight"] = self.text(self.maximum)
        if self.maybe():
            found["flaps"] = self.draw(st.sampled_from(self.flaps))
        if self.maybe(3):
            found["altitude"] = self.text(self.draw(st.sampled_from((1000, 2000))))
        return {**found, **self.page()}

    def calibrations(self) -> list[dict[str, Any]]:
        settings = [(one, "normal") for one in self.flaps] + [(self.flaps[0], "alternate")]
        chosen = self.some(settings[1:])
        if not chosen or not self.maybe(10):
            chosen = [settings[0], *chosen]
        return [self.calibration(*one) for one in chosen]

    def calibration(self, flaps: str, source: str) -> dict[str, Any]:
        points = self.whole(2, 6)
        stride = round((self.fast - self.slow) * 10 / (points - 1))
        least = max(1, stride // 4)
        steps = st.lists(st.integers(least, stride), min_size=points - 1, max_size=points - 1)
        table: dict[str, Any] = {"static source": source} if source != "normal" else {}
        if flaps != self.flaps[0] or self.maybe():
            table["flaps"] = flaps
        if self.maybe(4):
            table["when"] = self.draw(st.sampled_from(_REMARKS))
        table |= self.page()
        ias = self.rising(self.slow * self.whole(80, 105) / 100, self.draw(steps))
        cas = self.rising(self.slow * self.whole(85, 110) / 100, self.draw(steps))
        off = [Decimal(b) - Decimal(a) for a, b in zip(ias, cas, strict=True)]
        if max(map(abs, off)) > 50:
            return {**table, "ias": ias, "cas": cas}
        less = [-one for one in off]
        rows = {"ias": [*map(Decimal, ias)], "cas": [*map(Decimal, cas)]}
        add, take = {"add to ias": off, "subtract from ias": less}, {"add to cas": less}
        return {**table, **self.printed(rows, add, {**take, "subtract from cas": off})}

    def speeds(self) -> dict[str, Any]:
        known = [name for name, speed in SPEEDS.items() if self.kind in speed.kinds]
        needed = [name for name in known if self.kind in SPEEDS[name].required]
        if len(self.flaps) == 1:
            known.remove("VFE")
        more = self.some(known)
        return {name: self.entries(name) for name in known if name in needed or name in more}

    def entries(self, name: str) -> Any:
        """Return the entries of a speed, in one of the ways that manuals give it."""
        match name:
            case "MMO":
                return {"mach": self.mach(), **self.page()}
            case "VREF" if self.maybe():
                return {"times VS0": f"1.{self.whole(2, 4)}", **self.page()}
            case "VNE" if self.kind == "glider" and self.maybe():
                level = self.levels(1, 1)[0]
                tas = {"tas": self.speed(1.5, 1.2), "from altitude": self.text(level)}
                return [self.entry(), {**tas, **self.page()}]
            case "VMO":  # with its CAS, so that it meets MMO inside the standard atmosphere
                return {**self.page(), "ias": self.speed(1.5), "cas": f"{self.fast}"}
            case "VNE" | "VX" | "VY" if self.maybe(3):
                levels = self.levels(2, 3)
                said = {"between": "interpolate"} if self.maybe() else {}
                rows = [self.entry(altitude=self.text(level), ias=True) for level in levels]
                return [{**rows[0], **said}, *rows[1:]]
            case "VA" | "VO" | "best glide" if self.maybe():
                weights = [self.maximum, *self.some(self.weights)]
                return [self.entry(weight=self.text(weight)) for weight in weights]
            case "VS1" | "VFE" | "VLE" if self.maybe():
                flaps = self.some(self.flaps, few=1)
                return [self.entry(flaps=setting) for setting in flaps]
            case "VFE":
                return self.entry(flaps=self.draw(st.sampled_from(self.flaps[1:])))
        return self.entry()

    def entry(self, ias: bool = False, **condition: str) -> dict[str, str]:
        said = dict(condition)
        form = 0 if ias else self.whole(0, 5)
        if form != 5:
            said["ias"] = self.speed()
        if form >= 3:
            said["cas"] = self.speed()
        if not condition and self.maybe(6):
            said["flaps"] = self.draw(st.sampled_from(self.flaps))
        if not condition and self.maybe(6):
            said["gear"] = self.draw(st.sampled_from(("up", "down")))
        if self.maybe(6):
            said["when"] = self.draw(st.sampled_from(_REMARKS))
        return {**said, **self.page()}

    def mach(self) -> str:
        """Return a Mach number that meets the fastest speed at some height below the ceiling."""
        pressure = atmosphere.pressure(float(self.whole(1000, 9000)))
        number = airspeed.mach_from_cas(to_si(float(self.fast), self.unit), pressure)
        return self.text(Decimal(f"{number:.2f}"))

    def markings(self) -> dict[str, Any]:
        arcs = {"white", "green", "yellow"}
        own = {
            "single-engine": ("yellow",),
            "multi-engine": ("yellow", "blue line", "red radial"),
            "glider": ("yellow", "blue line", "yellow triangle"),
            "turbine": ("blue line", "red radial"),
        }[self.kind]
        chosen = self.some(("white", "green", *own, "red line"), few=1)
        return {
            name: {"from": self.speed(), "to": self.speed(), **self.page()}
            if name in arcs
            else {"at": self.speed(), **self.page()}
            for name in chosen
        }

    def stall(self) -> dict[str, Any]:
        banks = self.several(0, 75, 1, 3)
        rows = []
        for flaps in self.some(self.flaps, few=1):
            row: dict[str, Any] = {} if flaps == self.flaps[0] else {"flaps": flaps}
            if self.maybe(4):
                row["weight"] = self.text(min(self.weights, default=self.maximum))
            if self.maybe(6):
                row["gear"] = self.draw(st.sampled_from(("up", "down")))
            for key in self.draw(st.sampled_from((("ias", "cas"), ("ias",), ("cas",)))):
                row[key] = [self.speed(0.8, 0.7) for _ in banks]
            rows.append(row)
        weight = self.text(self.maximum)
        banks_said = [self.text(bank) for bank in banks]
        return {"weight": weight, "bank": banks_said, **self.page(), "rows": rows}

    def cruise(self) -> dict[str, Any] | list[dict[str, Any]]:
        """Return a table, or seldom two that their names tell apart."""
        if not self.maybe(4):
            return self.cruise_table()
        return [{"name": name, **self.cruise_table()} for name in ("economy", "best power")]

    def cruise_table(self) -> dict[str, Any]:
        axes: dict[str, list[str]] = {"altitude": [self.text(one) for one in self.levels(1, 3)]}
        said: dict[str, Any] = {}
        air = self.draw(st.sampled_from(("isa", "oat", "", "held")))
        if air == "oat":
            axes["oat"] = self.temperatures(1, 3)
        elif air == "isa":
            axes["isa"] = [self.text(10 * one) for one in self.several(-3, 3, 1, 3)]
        elif air == "held":
            said[self.draw(st.sampled_from(("isa", "oat")))] = self.text(10)
        for name in self.some(_SETTINGS)[:2]:
            axes[name] = [self.text(one) for one in self.some(_SETTINGS[name], few=1)[:2]]
        if self.maybe(3):
            axes["cowl flaps °"] = ["0", "15"]
            said["settings"] = ["cowl flaps °"]
        figures = {
            "tas": lambda: self.speed(1.2),
            "power": lambda: self.figure(40, 100),
            "ias": lambda: self.speed(1.2),
            "endurance": lambda: self.text(Decimal(self.whole(10, 90)) / 10),
            "CHT": lambda: self.text(self.whole(-20, 400)),
        }
        if self.flows:
            figures["fuel flow"] = lambda: self.text(Decimal(self.whole(300, 4000)) / 100)
        if self.distances:
            figures["range"] = lambda: self.figure(100, 900)
        results = ["tas", *self.some([name for name in figures if name != "tas"])]
        if "CHT" in results:
            said["results"] = ["CHT"]
        if self.maybe(4):
            said["tas unit"] = self.unit if self.maybe() else "km/h"
        columns = self.draw(st.permutations([*axes, *results]))
        lines: list[dict[str, str]] = [{}]
        for name, values in axes.items():
            lines = [{**line, name: value} for line in lines for value in values]
        lines = self.some(lines, few=1) if self.maybe() else lines
        gaps, rows = self.maybe(3), []
        for line in self.draw(st.permutations(lines[:16])):
            found = {name: figures[name]() for name in results}
            if gaps and self.maybe(3):
                found[self.draw(st.sampled_from(results))] = "n/a"
            rows.append([{**found, **line}[name] for name in columns])
        said |= {"columns": columns, "rows": rows, **self.page()}
        if self.maybe():
            said["weight"] = self.text(self.maximum)
        return said

    # -- the airframe ------------------------------------------------------------------------

    def airframe(self) -> dict[str, Any]:
        shown = self.unit
        found: dict[str, Any] = {"registration": "ZZ-DOT", "type": Path(TYPE).stem}
        if self.maybe():
            shown = self.draw(st.sampled_from(SPEED_UNITS))
            found["indicator"] = {"unit": shown}
        if self.maybe():
            found["serial"] = "77"
        if self.maybe():
            found["instrument correction"] = self.bench(shown)
        if self.maybe(3):
            found["supplements"] = [self.supplement()]
        if self.maybe(4):
            found["remarks"] = [self.draw(st.sampled_from(_REMARKS))]
        return found

    def bench(self, unit: str) -> dict[str, Any]:
        """Return a bench card whose corrected readings rise as the readings do."""
        points = self.whole(2, 5)
        slow, fast = (round(convert(float(x), self.unit, unit)) for x in (self.slow, self.fast))
        stride = round((fast - slow) * 13 / (points - 1))
        shown, right = [round(slow * self.whole(6, 10))], []
        right.append(shown[0] + self.whole(-30, 30))
        for _ in range(points - 1):
            step = self.whole(max(1, stride // 3), stride)
            shown.append(shown[-1] + step)
            right.append(right[-1] + max(1, step + self.whole(-40, 40)))
        off = [Decimal(b - a) / 10 for a, b in zip(shown, right, strict=True)]
        return {
            **self.page(),
            **({"date": "2025-01-20"} if self.maybe() else {}),
            **self.printed(
                {
                    "indicated": [Decimal(one) / 10 for one in shown],
                    "true": [Decimal(one) / 10 for one in right],
                },
                {
                    "correction": off,
                    "add to indicated": off,
                    "subtract from indicated": [-one for one in off],
                },
                {"add to true": [-one for one in off], "subtract from true": off},
            ),
        }

    def printed(
        self,
        rows: dict[str, list[Decimal]],
        of_first: dict[str, list[Decimal]],
        of_second: dict[str, list[Decimal]],
    ) -> dict[str, Any]:
        """Return two rows as they are, or one of them with what is to be added or subtracted."""
        first, second = ({name: rows[name]} for name in rows)
        forms = [rows]
        forms += [{**first, name: row} for name, row in of_first.items()]
        forms += [{**second, name: row} for name, row in of_second.items()]
        form = self.draw(st.sampled_from(forms))
        return {
            name: [f"{one}" if name in rows else f"{one:+}" if one else "0" for one in row]
            for name, row in form.items()
        }

    def supplement(self) -> dict[str, Any]:
        found: dict[str, Any] = {"title": "Vortex tabs", "number": "SUP-4"}
        speeds = [name for name, speed in SPEEDS.items() if self.kind in speed.kinds]
        if len(self.flaps) == 1:
            speeds.remove("VFE")
        chosen = self.some(speeds)[: self.whole(0, 3)]
        if chosen:
            found["speeds"] = {name: self.entries(name) for name in chosen}
        if self.maybe(3):
            found["markings"] = self.markings()
        if self.maybe(3):
            found["calibration"] = self.calibrations()
        if self.maybe(4):
            found["stall"] = self.stall()
        if self.kind != "glider" and self.maybe(4):
            found["cruise"] = self.cruise()
        return found

    # -- the school --------------------------------------------------------------------------

    def school(self) -> dict[str, Any]:
        grid: dict[str, Any] = {
            "ias": [self.text(one) for one in self.several(self.slow, self.fast, 1, 3)],
            "altitude": [self.text(one) for one in self.levels(1, 3)],
            "oat": self.temperatures(1, 3),
        }
        if self.maybe():
            grid["tas"] = [self.text(one) for one in self.several(self.slow, self.fast, 1, 2)]
        if self.cruises or self.maybe():
            cruise = {"altitude": self.levels(1, 3), "oat": self.temperatures(1, 3)}
            grid["cruise"] = {key: [str(one) for one in value] for key, value in cruise.items()}
        kind = self.kind if not self.maybe(8) else next(k for k in KINDS if k != self.kind)
        return {"name": "Saltings <Flying> & Soaring", "reference speeds": {kind: grid}}


def altitude_in(aircraft: Aircraft, metres: float) -> float:
    """Return an altitude in the manual's unit."""
    return float(from_si(metres, aircraft.units.altitude))
