"""What the rules of difference ask of one aircraft, as plain data: for the page of any two.

`templates/next.js` holds two of these against each other as `differences` and `sheet` do.
"""

from functools import cache
from typing import Any

from pydantic import TypeAdapter

from cardgen.document.record import Curve, Document, Message, Quantity, Radial
from cardgen.lessons.transition.facts import Facts


def traits(document: Document) -> dict[str, Any]:
    """Return what is asked of an aircraft, in the order in which it is told."""
    facts, head, basis = Facts(document), document.head, document.basis
    markings = basis.markings
    return {
        "registration": head.registration,
        "type": head.type,
        "kind": head.kind,
        "unit": facts.unit,
        "manual": head.units.speed,
        "mark": document.marks.card,
        "remarks": list(head.remarks),
        "flaps": list(basis.flaps),
        "retracts": facts.retracts,
        "weight": _plain(Quantity(basis.weights[0], head.units.weight)),
        "cruise": _plain(facts.cruise),
        "mach": _plain(facts.mach),
        "glide": _plain(facts.given("glide/ratio")),
        "crosswind": _plain(facts.given("crosswind/demonstrated")),
        "arcs": facts.arcs(),
        "tightened": [_plain(one) for one in (markings.tightened if markings else ())],
        "bench": _plain(basis.bench),
        "speeds": {
            key: [one.block, _plain(one.name), _plain(one.quantity)]
            for key, one in facts.speeds.items()
        },
        "calibration": [_plain(one) for one in basis.calibration],
    }


def _plain(record: Message | Quantity | Curve | Radial | None) -> Any:
    if record is None:
        return None
    return _adapters()[type(record)].dump_python(record, mode="json", exclude_defaults=True)


@cache
def _adapters() -> dict[type, TypeAdapter[Any]]:
    """Return what puts each kind of record into plain data, which is dear to make."""
    return {kind: TypeAdapter(kind) for kind in (Message, Quantity, Curve, Radial)}
