"""Whether somebody has released a card, and for the figures that it has now."""

from typing import Literal

from cardgen.document.record import Marks, Signature

State = Literal["unsigned", "outdated", "signed", "recomputed"]


def state_of(signature: Signature | None, marks: Marks) -> State:
    """Return whether a signature holds.

    Parameters
    ----------
    signature : Signature, optional
    marks : Marks
        Of the card as it is now.

    Returns
    -------
    str
        ``unsigned``; ``outdated`` where a copied figure has changed since;
        ``recomputed`` where only what is computed or tabulated has; ``signed``.
    """
    if signature is None:
        return "unsigned"
    if signature.figures != marks.figures:
        return "outdated"
    return "recomputed" if signature.card not in ("", marks.card) else "signed"
