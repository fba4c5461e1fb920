"""English wordings: the working of a case."""

WORDINGS: dict[str, str] = {
    "step-indicated": "IAS",
    "step-instrument": "Instrument correction",
    "step-position": "Position error correction",
    "step-cas": "CAS",
    "step-compressibility": "Compressibility correction",
    "step-eas": "EAS",
    "step-density": "Density correction",
    "step-tas": "TAS",
    "step-headwind": "Headwind",
    "step-tailwind": "Tailwind",
    "step-crosswind": "Crosswind",
    "step-heading": "Heading",
    "step-ground-speed": "Ground speed",
    "step-pressure-altitude": "Pressure altitude",
    "step-density-altitude-name": "Density altitude",
    "step-isa-deviation": "ISA deviation",
    "step-wind": "Wind",
    "step-wind-from": "from {direction}",
    "step-working": (
        "{x1} is {y1} and {x2} is {y2}: {y1} + ({x} − {x1}) ÷ ({x2} − {x1}) × ({y2} − {y1}) = {y}"
    ),
    "step-stall": "Stall, IAS",
    "step-stall-cas": "Stall, CAS",
    "step-stall-margin": "Above the stall",
    "step-stall-at": "flaps {flaps}, {weight}, bank {bank}",
    "step-stall-given": "flaps {flaps}, {weight}, bank {bank}, as the manual gives it",
    "step-stall-times": "{times} times the stall speed in CAS",
    "step-stall-working": "{vs} × √({weight} ÷ {known}) × √{load} = {cas}",
    "passed-VNE": "Above VNE, {limit}: never to be exceeded.",
    "passed-VMO": "Above VMO, {limit}: not to be exceeded on purpose.",
    "passed-MMO": "Above MMO, here {limit}: not to be exceeded on purpose.",
    "passed-VFE": "Above VFE for flaps {flaps}, {limit}.",
    "passed-VLE": "Above VLE, {limit}, with the landing gear down.",
    "passed-VNO": "Above VNO, {limit}: smooth air only, and with caution.",
    "passed-VA": (
        "Above VA, {limit}: no full or abrupt movement of the controls; lower when lighter."
    ),
    "passed-VO": (
        "Above VO, {limit}: no full or abrupt movement of the controls; lower when lighter."
    ),
    "passed-VB": "Above VB, {limit}: not in severe turbulence.",
    "passed-other": "Above {speed}, {limit}.",
    "passed-when": "{passed} That is for: {when}.",
    "passed-VRA": "Above VRA, {limit}: not in rough air.",
    "passed-VLO": "Above VLO, {limit}: the landing gear is not to be moved.",
    "passed-VLO-down": "Above VLO, {limit}: the landing gear is not to be extended.",
    "passed-VLO-up": "Above VLO, {limit}: the landing gear is not to be retracted.",
    "passed-VW": "Above VW, {limit}: not on the winch.",
    "passed-VT": "Above VT, {limit}: not on aerotow.",
    "step-altimeter": "Altimeter shows",
    "step-altimeter-instrument": "Altimeter's bench card",
    "step-altimeter-position": "Altimeter correction",
    "step-no-altimeter-card": "none is given for this altimeter",
    "step-no-altimeter-table": "the manual gives none for this static source",
    "step-altimeter-outside": "outside the manual's tables",
    "step-altimeter-table": "altimeter correction, {setting}",
    "step-altimeter-table-page": "altimeter correction, {setting}, page {page}",
    "step-given": "given",
    "step-to-fly": "to fly",
    "step-bench-card": "bench card",
    "step-page": "{page}",
    "step-no-bench-card": "none is given for this indicator",
    "step-table": "calibration table, {setting}",
    "step-table-page": "calibration table, {setting}, page {page}",
    "step-setting-normal": "flaps {flaps}, normal static source",
    "step-setting-alternate": "flaps {flaps}, alternate static source",
    "step-setting-normal-gear": "flaps {flaps}, {gear}, normal static source",
    "step-setting-alternate-gear": "flaps {flaps}, {gear}, alternate static source",
    "step-impact-pressure": "impact pressure at a pressure altitude of {altitude}",
    "step-mach": "Mach {mach}",
    "step-density-altitude": "density altitude {altitude}",
    "step-along": "along the course",
    "step-from-right": "from the right",
    "step-from-left": "from the left",
    "step-into-wind": "into the wind",
    "note-no-altitude": "No altitude was given: true airspeed is left out.",
    "note-altimeter": (
        "The altimeter's corrections do not reach what it shows here: pressure altitude and true "
        "airspeed are left out."
    ),
    "note-no-temperature": "No temperature was given: true airspeed is left out.",
    "note-no-ground-speed": "Without a true airspeed there is no heading or ground speed.",
    "note-above-the-last-row": "Not above {altitude}: the manual gives no {speed} higher.",
    "note-below-VMC": "Below VMC, {speed}: with an engine failed it may not be kept straight.",
    "note-no-stall": "With flaps {flaps} no CAS at the stall is known to reckon this from.",
    "note-no-stall-so-heavy": "No stall speed above {weight}: the manual gives none so heavy.",
    "note-stall-in-cas": "The tables do not reach the stall: only its CAS is known.",
    "note-too-heavy": "Above the maximum weight, {maximum}: not approved.",
    "note-crosswind-not-held": (
        "The wind cannot be held: the crosswind, {wind}, is above the true airspeed, {tas}: no "
        "heading holds this course."
    ),
    "note-headwind-not-held": (
        "The wind cannot be held: the headwind, {wind}, leaves no way along this course at a true "
        "airspeed of {tas}."
    ),
    "note-indicated-no-table": (
        "IAS {speed} has no partner: the manual gives no calibration table for {setting}."
    ),
    "note-cas-no-table": (
        "A CAS of {speed} has no partner: the manual gives no calibration table for {setting}."
    ),
    "note-indicated-outside": (
        "IAS {speed} lies outside the calibration table for {setting} (manual's IAS {first} to "
        "{last} {unit})."
    ),
    "note-indicated-outside-or-bench": (
        "IAS {speed} lies outside the calibration table for {setting} (manual's IAS {first} to "
        "{last} {unit}) or the bench card."
    ),
    "note-cas-outside": (
        "A CAS of {speed} lies outside the calibration table for {setting} (manual's IAS {first} "
        "to {last} {unit})."
    ),
    "note-cas-outside-or-bench": (
        "A CAS of {speed} lies outside the calibration table for {setting} (manual's IAS {first} "
        "to {last} {unit}) or the bench card."
    ),
    "reference-only": "Reference only: verify against the approved flight manual.",
}
