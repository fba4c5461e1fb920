"""The stall in a bank, and manoeuvring speed at a weight: by the root of the lift."""

import math

from cardgen.air.load import load_factor
from cardgen.document.practice import Answer, Question
from cardgen.document.record import Bound, Quantity
from cardgen.document.rounding import kept, rounded
from cardgen.lessons.practice import flying
from cardgen.lessons.practice.kinds import Draw, LackingError, kind, numbered, step
from cardgen.units import to_si

_BANKS = (15.0, 20.0, 25.0, 35.0, 40.0, 50.0, 55.0)  # that no manual prints: those are looked up
_FLAPS_TO = 45.0  # as far as an instructor banks with flaps out
_STEPS = 10.0  # of weight, between the lightest and the heaviest


@kind("stall-in-bank")
def _stall_in_bank(draw: Draw) -> Question | None:
    basis = draw.document.basis
    known = [one.flaps for one in basis.stall if draw.chain.table(one.flaps)]
    flaps = draw.one(dict.fromkeys(known), "stall")
    bank = draw.one(_BANKS)
    if flaps != basis.flaps[0] and bank > _FLAPS_TO:
        return None
    weight = draw.one(basis.weights)
    stall, table = flying.stall(draw, flaps, weight), draw.chain.table(flaps)
    if stall is None or stall.cas is None or stall.weight is None or table is None:
        return None
    lighter = math.sqrt(weight / stall.weight)
    load = float(load_factor(to_si(bank, "deg")))
    cas = stall.cas * lighter * math.sqrt(load)

    def pointer(cas: float) -> float:
        return draw.chain.shown_at_cas(cas, flaps, gear=table.gear)

    shown = pointer(cas)
    if math.isnan(shown):
        return None
    ways = (pointer(stall.cas * lighter * math.sqrt(rounded(load, decimals=2))),)
    worked = [
        step(
            "stall",
            Quantity(stall.cas, draw.manual.speed),
            "at-weight",
            weight=_pounds(draw, stall),
        ),
        step("load", Quantity(kept(load), decimals=2), "cosine-of-bank"),
        step("root", Quantity(kept(math.sqrt(load)), decimals=3), "root"),
        *(
            []
            if lighter == 1.0
            else [step("lighter", Quantity(kept(lighter), decimals=3), "weights")]
        ),
        step("stall-cas", Quantity(kept(cas), draw.manual.speed, decimals=1), "product"),
        step("pointer", draw.speed(shown, 1), "back"),
        step("up", draw.speed(math.ceil(shown - 1e-6)), "minimum"),
    ]
    return numbered(
        "stall-in-bank",
        {
            "setting": flying.said(draw, table),
            "bank": Quantity(bank, "deg"),
            "weight": Quantity(weight, draw.manual.weight),
        },
        Answer(shown, draw.unit, sense="minimum", ways=ways),
        [
            ("load-factor", pointer(stall.cas * lighter * load)),
            ("no-bank", pointer(stall.cas * lighter)),
            ("as-cas-slow", draw.chain.own(cas)),
            *([] if lighter == 1.0 else [("full-weight", pointer(stall.cas * math.sqrt(load)))]),
        ],
        worked,
        case={"flaps": flaps, "bank": bank, "weight": weight},
    )


def _pounds(draw: Draw, bound: Bound) -> Quantity:
    return Quantity(bound.weight or 0.0, draw.manual.weight)


@kind("va-at-weight")
def _va_at_weight(draw: Draw) -> Question | None:
    basis = draw.document.basis
    name = "VO" if any(one.speed == "VO" for one in basis.bounds) else "VA"
    bounds = [one for one in basis.bounds if one.speed == name and one.cas is not None]
    if not bounds or name in basis.only_approved:
        raise LackingError("manoeuvring")
    heaviest, lightest = basis.weights[0], min(basis.weights)
    if lightest == heaviest:
        raise LackingError("weights")
    weight = draw.whole(lightest, heaviest, 50 if draw.manual.weight == "lb" else 10)
    given = [(one.weight or heaviest, one) for one in bounds]
    heavier = [one for one in given if one[0] > weight]
    if not heavier or weight in {one[0] for one in given}:
        return None
    known, bound = min(heavier, key=lambda one: one[0])
    assert bound.cas is not None
    ratio = weight / known
    cas = bound.cas * math.sqrt(ratio)
    pointer = draw.chain.shown_at_cas
    shown = pointer(cas)
    if math.isnan(shown):
        return None
    ways = (pointer(bound.cas * rounded(math.sqrt(ratio), decimals=3)),)
    worked = [
        step(
            "known",
            Quantity(bound.cas, draw.manual.speed),
            "at-weight",
            weight=Quantity(known, draw.manual.weight),
        ),
        step("lighter", Quantity(kept(math.sqrt(ratio)), decimals=3), "weights"),
        step("known-cas", Quantity(kept(cas), draw.manual.speed, decimals=1), "product"),
        step("pointer", draw.speed(shown, 1), "back"),
        step("down", draw.speed(math.floor(shown + 1e-6)), "maximum"),
    ]
    return numbered(
        "va-at-weight",
        {"name": name, "weight": Quantity(weight, draw.manual.weight)},
        Answer(shown, draw.unit, sense="maximum", ways=ways),
        [
            ("proportional", pointer(bound.cas * ratio)),
            ("not-lowered", pointer(bound.cas)),
            ("faster-lighter", pointer(bound.cas / math.sqrt(ratio))),
            ("as-cas-slow", draw.chain.own(cas)),
        ],
        worked,
        case={"speed": name, "weight": weight},
    )
