"""English wordings: whether a card that somebody holds is current."""

WORDINGS: dict[str, str] = {
    "sheet-code": "Code that tells a telephone whether this card is current: {address}",
    "current": "This card is current.",
    "current-signed": "Card {card} has what this page has. Signed by {signers}.",
    "current-much": "{count} entries, most",
    "current-not": "This card is not signed.",
    "current-not-signed": "Card {card} has what this page has, and nobody may fly by it so far.",
    "current-lapsed": "This card is not valid any longer.",
    "current-lapsed-since": (
        "Card {card} has what this page has, and its signature was valid to {date}."
    ),
    "current-superseded": "This card is superseded.",
    "current-superseded-by": "Card {card} was signed by {signer}.",
    "current-print": "Print it again.",
    "current-none": "No card of this aircraft is signed as it is now: nobody may fly by this one "
    "or by another.",
    "current-unrecorded": "What has changed since was not recorded.",
    "current-unknown": "This is not a signed card of this aircraft.",
    "current-unknown-mark": (
        "No card {mark} was signed for it. Compare the card's registration and mark; print it "
        "again."
    ),
    "current-then": "What was printed, and what is now",
    "current-column-what": "Figure",
    "current-column-then": "This card",
    "current-column-now": "Now",
    "current-words": "other words",
    "current-more": "{count} more figures have changed.",
    "asked": "Is a card current?",
    "asked-mark": "Its mark, from its foot",
    "asked-short": "A mark has eight digits and letters from A to F.",
    "asked-current": "It is current:",
    "asked-not": "It is not signed:",
    "asked-lapsed": "It is not valid any longer:",
    "asked-superseded": "It is superseded; what has changed stands on the page of",
    "asked-unknown": "It is not a signed card of this fleet.",
}
