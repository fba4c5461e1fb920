"""English wordings: signatures, on pages and sheets, and when a card is signed."""

_PAGES = {
    "unsigned": "Not signed.",
    "unsigned-card": (
        "No instructor has released this card. Compare it with the manual before you use it."
    ),
    "unsigned-fleet": (
        "No instructor has released these cards. Compare them with the manuals before you use them."
    ),
    "doubtful": "Not signed as its record has it.",
    "doubtful-card": (
        "The signature of {by} of {date} is not what was recorded. Compare this card with the "
        "manual before you use it."
    ),
    "partial": "Not signed by all.",
    "partial-card": (
        "Signed by {signers} only. Compare this card with the manual before you use it."
    ),
    "outdated": "Out of date.",
    "outdated-card": (
        "{by} signed figures {figures} on {date}, and these are others. Compare this card with "
        "the manual before you use it."
    ),
    "signed": "Signed by {signers}, for these figures.",
    "signed-signer": "{by} on {date}",
    "signed-signer-role": "{by}, {role}, on {date}",
    "signed-and": "{before} and {then}",
    "signed-recomputed": "What else the card says has changed since.",
    "signed-to": "Valid to {date}.",
    "signed-lapsed": "Lapsed.",
    "signed-changed": "Changed since {date}: {subjects}.",
    "signed-changed-cell": "changed",
    "signed-more": "{count} more",
    "signed-papers": "manual or supplements",
    "signed-remarks": "remarks",
    "signed-gone": "what stands there no longer",
    "signed-copied": "what was copied from the manual",
    "signed-states": "Signed states",
    "signed-states-how": "Each state of this card that was signed, the last first.",
    "signed-state": "{signer}, figures {figures}, card {card}",
    "signed-state-changed": "It changed: {subjects}.",
    "signed-state-first": "The first.",
    "signed-state-same": "It changed nothing.",
    "sign-how": "Sign it",
    "sign-title": "To sign this card",
    "sign-what": (
        "Compare the card with the manual, the supplements and the bench card; then, where the "
        "definitions are:"
    ),
    "sign-command": "cardgen signoff {registration} --by NAME",
    "sign-holds": (
        "It holds until a figure that was copied from paper changes. Where a new release of "
        "cardgen or another grid of the school's computes the rest differently, the page says so."
    ),
    "fleet-column-signed": "Signed",
    "fleet-signed-to": "due {date}",
    "fleet-signed-not": "no",
    "fleet-signed-changed": "changed since",
}
_SHEETS = {
    "sheet-unsigned": "NOT SIGNED",
    "sheet-doubtful": "SIGNATURE DOES NOT HOLD",
    "sheet-outdated": "OUT OF DATE",
    "sheet-partial": "NOT SIGNED BY ALL",
    "sheet-signed": "Signed {date}",
    "sheet-signed-to": "Signed {date}, valid to {last}",
    "sheet-recomputed": "Signed {date}, recomputed since",
    "sheet-recomputed-to": "Signed {date}, valid to {last}, recomputed since",
    "sheet-valid": "Valid with {manual}",
}
_COMMAND = {
    "signoff-card": "{registration}, {type}: to be signed. Compare each figure with its page.",
    "signoff-first": "This card was never signed.",
    "signoff-same": "Nothing printed or copied has changed since {by} signed on {date}.",
    "signoff-since": "Changed since {by} signed on {date}:",
    "signoff-gone": "{table}: {count} entries gone",
    "signoff-otherwise": "And what stands otherwise, or no longer:",
    "signoff-more": "With this it is signed by {signers}. The school asks for {asked}.",
    "signoff-ask": "Sign {registrations} as {by} on {date}? yes or no:",
    "signoff-not": "Nothing was signed.",
    "signoff-wrote": "Wrote {file}",
}
WORDINGS: dict[str, str] = {**_PAGES, **_SHEETS, **_COMMAND}
