"""English wordings: sheets."""

WORDINGS: dict[str, str] = {
    "cautions": (
        "Reference only: verify against the approved flight manual and the aircraft's own markings "
        "and placards. The manual, the operator's procedures and local rules prevail. Not for use "
        "in certification or dispatch."
    ),
    "sheet-document": "{name} airspeed card",
    "sheet-document-two-up": "{name} airspeed card, two to a side",
    "sheet-document-night": "{name} airspeed card, night",
    "sheet-document-strip": "{name} speeds, strip",
    "sheet-conversions": "Conversions",
    "sheet-speeds": "Speeds",
    "sheet-calibrated": "CAS and stall",
    "sheet-true": "True airspeed",
    "sheet-cruise": "Cruise and wind",
    "sheet-wind": "Wind and glide",
    "sheet-shared": "Sheet",
    "sheet-night": "Night · {title}",
    "sheet-number": "{number} of {of}",
    "sheet-indicator": "Indicator reads {unit}",
    "sheet-manual": "{title} {number}, revision {revision}, {date}",
    "sheet-shared-source": "Standard atmosphere, ICAO Doc 7488. For every aircraft.",
    "sheet-unsigned": "NOT SIGNED",
    "sheet-outdated": "OUT OF DATE",
    "sheet-signed": "Signed {date}",
    "sheet-recomputed": "Signed {date}, recomputed since",
    "sheet-ias": "[IAS]",
    "sheet-cas": "[CAS]",
    "sheet-key": "Key",
    "sheet-marking": "Marking",
    "sheet-flap-limit": "Flap limit",
    "sheet-see-vfe": "see VFE",
    "sheet-supplement": "With supplement {number}, {title}.",
    "sheet-supplement-revision": "With supplement {number}, {title}, revision {revision}.",
    "sheet-left-off": "Left off: {title}; {missing}.",
    "sheet-strip-more": "The full card has what else is known of each speed.",
    "sheet-figures": "Figures {mark}",
    "sheet-current": "current version: {address}",
    "sheet-made-by": "cardgen {version}",
    "sheet-picture": "Picture of {school}",
}
