"""English wordings: pages, what their script says, and drawings."""

WORDINGS: dict[str, str] = {
    # -- every page
    "caution-1": (
        "Reference only: verify against the approved flight manual and the aircraft's own markings "
        "and placards."
    ),
    "caution-2": "The manual, the operator's procedures and local rules prevail.",
    "caution-3": "Not for use in certification or dispatch.",
    "page-skip": "Skip to the figures",
    "page-site": "Site",
    "page-fleet": "Fleet",
    "page-conversions": "Conversions",
    "page-glossary": "Glossary",
    "page-formulas": "Formulas",
    "page-tables": "Tables",
    "page-csv": "{title}, CSV",
    "page-json": "All figures, JSON",
    "page-no-script": (
        "Without scripts this page does not say where each number comes from: see this file."
    ),
    "page-made-by": "Made by cardgen {version}",
    "theme": "Theme",
    "theme-auto": "As the device",
    "theme-night": "Night, red",
    "theme-dark": "Dark",
    "theme-light": "Light",
    # -- an aircraft's page
    "page-airspeeds": "{registration} airspeeds – {school}",
    "page-straight": "The same on a straight scale",
    "fact-reads": "Indicator reads",
    "fact-serial": "Serial",
    "fact-mark": "Figures",
    "fact-manual": "Manual",
    "fact-supplement": "Supplement",
    "findings": "What the checks found",
    "finding-error": "error",
    "finding-warning": "warning",
    "finding-note": "note",
    "finding-accepted": "Accepted: {reason}",
    "prints": "To print, PDF",
    "print-card": "Kneeboard card",
    "print-card-what": "PDF, all sheets",
    "print-card-2up": "Two to a page",
    "print-card-2up-what": "cut marks; both sides, flip on the long edge",
    "print-card-night": "Night card",
    "print-card-night-what": "for red cockpit light",
    "print-strip": "Strip",
    "print-strip-what": "speeds only",
    "print-pocket": "Pocket card",
    "print-pocket-what": "speeds, stall and CAS",
    "example": "Example",
    "computed-by": "Computed by",
    "left-off": "Left off: {missing}.",
    "changed": "{paper} changed {speed}: the manual gives {before}.",
    "changed-new": "{paper} changed {speed}.",
    "paper": "{title} {number}",
    "paper-unnumbered": "{title}",
    "paper-bench-card": "bench card",
    "paper-revision": "revision {revision}",
    # -- whether it is signed
    "unsigned": "Not signed.",
    "unsigned-card": (
        "No instructor has released this card. Compare it with the manual before you use it."
    ),
    "unsigned-fleet": (
        "No instructor has released these cards. Compare them with the manuals before you use them."
    ),
    "outdated": "Out of date.",
    "outdated-card": (
        "{by} signed figures {figures} on {date}, and these are others. Compare this card with "
        "the manual before you use it."
    ),
    "signed": "Signed by {by} on {date}, for these figures.",
    "signed-recomputed": "Computed or laid out differently since signing.",
    "sign-how": "Sign it",
    "sign-title": "To sign this card",
    "sign-what": (
        "Compare the card with the manual, the supplements and the bench card; then write this "
        "line into the file of {registration}, with your name and the day:"
    ),
    "sign-line": "sign off: {by: NAME, date: YYYY-MM-DD, figures: {figures}, card: {card}}",
    "sign-holds": (
        "It holds until a figure that was copied from paper changes. Where a new release of "
        "cardgen or another grid of the school's computes the rest differently, the page says so."
    ),
    # -- the switch of units, and where a number comes from
    "units": "Speeds",
    "units-as-printed": "As printed",
    "units-converted": "Converted to {unit}, rounded for reading.",
    "units-beside": "What the indicator shows stays; {unit} stands small beside it.",
    "origin-entered": "Entered: {paper}",
    "origin-entered-page": "Entered: page {page} of {paper}",
    "origin-computed": "Computed: {formula}",
    "origin-computed-from": "Computed: {formula}: {inputs}",
    "origin-input": "{name} {value}",
    "origin-printed": "Printed: {printed}. {origin}",
    "origin-and-small": "{origin}. Small figure: {small}",
    # -- the fleet's page
    "fleet-cards": "Airspeed cards",
    "fleet-how": (
        "Find the aircraft by its registration; open its page, or print its kneeboard card."
    ),
    "fleet-open": "Not signed, or out of date:",
    "fleet-open-which": "{registrations}. Compare them with the manuals before you use them.",
    "fleet-find": "Find",
    "fleet-kind": "Kind",
    "fleet-all": "All",
    "fleet-found": "{shown} of {all}",
    "fleet-none": "None found.",
    "fleet-column-registration": "Registration",
    "fleet-column-type": "Type",
    "fleet-column-reads": "Reads",
    "fleet-column-card": "Card",
    "fleet-column-manual": "Manual",
    "fleet-column-mark": "Figures",
    "fleet-card-of": "Kneeboard card of {registration}, PDF",
    "fleet-pdf": "Whole fleet (PDF)",
    # -- the pages of conversions, formulas and the glossary
    "conversions": "Conversion tables",
    "conversions-what": "For every aircraft. Standard atmosphere of ICAO Doc 7488.",
    "conversions-pdf": "Kneeboard sheets (PDF)",
    "conversions-json": "All figures (JSON)",
    "formulas": "How these numbers are made",
    "formulas-what": (
        "A figure that a manual gives is printed as it was entered. Every other figure is computed "
        "from those, by one of the rules below. A computed maximum is rounded down, a computed "
        "minimum up, all else to the nearest. Outside a manual's table there is no value."
    ),
    "formulas-source": "Source: {source}.",
    # -- drawings
    "drawing-title-dial": "Airspeed indicator of {registration}",
    "drawing-title-ladder": "Airspeed scale of {registration}",
    "drawing-title-calibration": "Calibration curve of {registration}",
    "drawing-title-true-airspeed": "True airspeed of {registration}",
    "drawing-titled": "{title}: {description}",
    "drawing-and": "{before}; {then}",
    "drawing-white": "white",
    "drawing-green": "green",
    "drawing-yellow": "yellow",
    "drawing-arc": "{arc} arc {low} to {high}",
    "drawing-flaps": "flaps {flaps}",
    "drawing-flaps-to": "flaps {flaps} to {speed}",
    "drawing-red-line": "red line {speed}",
    "drawing-blue-line": "blue line {speed}",
    "drawing-red-radial": "lower red line {speed}",
    "drawing-yellow-triangle": "yellow triangle {speed}",
    "drawing-shows": "Indicator shows, {unit}",
    "drawing-ias": "IAS, {unit}",
    "drawing-cas-less-shown": "CAS less what it shows, {unit}",
    "drawing-cas-less-ias": "CAS less IAS, {unit}",
    "drawing-no-error": "no error",
    "drawing-no-flaps": "no flaps",
    "drawing-alternate": "alternate static",
    "drawing-alternate-flaps": "alternate, {flaps}",
    "drawing-errors": "What to add for CAS, {unit}",
    "drawing-curve": "{name}: add {first} at {first_speed}, {last} at {last_speed}",
    "drawing-tas": "TAS, {unit}",
    "drawing-altitude": "Pressure altitude, {unit}; bold: indicated",
    "drawing-isa": "ISA",
    "drawing-isa-by": "ISA {deviation}",
    "drawing-tas-described": "TAS, {unit}, by what the indicator shows, standard temperature",
    "drawing-tas-line": "{shown}: {low} at {low_altitude}, {high} at {high_altitude}",
    "swatch-white": "hollow band",
    "swatch-green": "solid band",
    "swatch-yellow": "striped band",
    "swatch-red-line": "solid line",
    "swatch-red-radial": "short solid line",
    "swatch-blue-line": "broken line",
    "swatch-yellow-triangle": "triangle",
    "swatch-flap-limit": "narrow band",
}
