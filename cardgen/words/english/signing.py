"""English wordings: signatures, on pages and sheets, in findings, and when a card is signed."""

_FINDINGS = {
    "finding-unsigned": "nobody has signed this card",
    "finding-unsigned-partial": "not all have signed this card; asked for: {asked}",
    "finding-signature": "signed for figures {signed}, and those copied now are {mark}; compare "
    "the card with the manual, then sign it: cardgen signoff",
    "finding-signature-lapsed": "the signature was valid to {date}",
    "finding-signature-recomputed": "some of the card is computed or tabulated otherwise than when "
    "it was signed",
    "finding-signature-record": "no record of this card is signed by {by} on {date} with these "
    "marks; was this line or a record edited by hand?",
    "finding-record-unread": "the record cannot be read",
    "finding-record-line": "the record was edited: line {line} is none of a record",
    "finding-record-date": "the record is of {stated} by its own words, and of {found} by its name",
    "finding-record-aircraft": "the record is of {stated}, and stands with those of {found}",
    "finding-record-figures": "the record was edited: it states figures {stated}, and its lines "
    "come to {found}",
    "finding-record-card": "the record was edited: it states card {stated}, and its lines come to "
    "{found}",
    "finding-record-manual": "the record was edited: it states the manual {stated}, and its lines "
    "say {found}",
    "finding-record-revision": "the record was edited: it states revision {stated}, and its lines "
    "say {found}",
    "look-unsigned": "the card beside the manual; then cardgen signoff",
    "look-signature": "what has changed since it was signed",
    "look-signature-lapsed": "the card beside the manual; then cardgen signoff",
    "look-signature-record": "the file's history, for who edited it",
    "look-signature-recomputed": "what has changed since it was signed",
}
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
    "signed-recomputed": "Computed or laid out differently since signing.",
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
    "signoff-otherwise": "And what stands otherwise, or no longer:",
    "signoff-more": "With this it is signed by {signers}. The school asks for {asked}.",
    "signoff-ask": "Sign {registrations} as {by} on {date}? yes or no:",
    "signoff-not": "Nothing was signed.",
    "signoff-wrote": "Wrote {file}",
}
WORDINGS: dict[str, str] = {**_FINDINGS, **_PAGES, **_SHEETS, **_COMMAND}
