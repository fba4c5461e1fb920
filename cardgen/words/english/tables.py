"""English wordings: the tables, their headings, reading rules, notes and examples."""

WORDINGS: dict[str, str] = {
    "list-separator": ", ",
    "several": "{parts}",
    "unit": "{unit}",
    "number": "{number:number}",
    "wind": "{wind:number}",
    "wind-both": "{wind:number} ({own})",
    "angle": "{angle}",
    "oat": "{oat:close}",
    "isa": "[ISA]",
    "isa-deviation": "[ISA] {deviation}",
    "alternate": "alternate",
    "add": "add",
    "take-off": "take off",
    "kind-single-engine": "single-engine",
    "kind-multi-engine": "multi-engine",
    "kind-glider": "glider",
    "kind-turbine": "turbine",
    # what else a finder finds a kind by
    "kind-single-engine-also": "one engine",
    "kind-multi-engine-also": "twin, two engines",
    "kind-glider-also": "sailplane",
    "kind-turbine-also": "turboprop, jet",
    # -- the names of V-speeds and markings, and what they mean
    "speed-VS0": "VS0",
    "speed-VS1": "VS1",
    "speed-VMC": "VMC",
    "speed-VSSE": "VSSE",
    "speed-VR": "VR",
    "speed-VX": "VX",
    "speed-VY": "VY",
    "speed-VXSE": "VXSE",
    "speed-VYSE": "VYSE",
    "speed-best-glide": "best glide",
    "speed-minimum-sink": "minimum sink",
    "speed-approach": "approach",
    "speed-VREF": "VREF",
    "speed-VA": "VA",
    "speed-VO": "VO",
    "speed-VRA": "VRA",
    "speed-VB": "VB",
    "speed-VW": "VW",
    "speed-VT": "VT",
    "speed-VFE": "VFE",
    "speed-VLO": "VLO",
    "speed-VLE": "VLE",
    "speed-VNO": "VNO",
    "speed-VNE": "VNE",
    "speed-VMO": "VMO",
    "speed-MMO": "MMO",
    "meaning-VS0": "Stall, landing configuration",
    "meaning-VS1": "Stall, as configured",
    "meaning-VMC": "Minimum control, one engine out",
    "meaning-VSSE": "Safe intentional one engine out",
    "meaning-VR": "Rotation",
    "meaning-VX": "Best angle of climb",
    "meaning-VY": "Best rate of climb",
    "meaning-VXSE": "Best angle, one engine out",
    "meaning-VYSE": "Best rate, one engine out",
    "meaning-best-glide": "Best glide",
    "meaning-minimum-sink": "Minimum sink",
    "meaning-approach": "Approach",
    "speed-winch-minimum": "winch minimum",
    "speed-aerotow-minimum": "aerotow minimum",
    "meaning-winch-minimum": "Winch launch, at the least",
    "meaning-aerotow-minimum": "Aerotow, at the least",
    "meaning-VREF": "Landing reference",
    "meaning-VA": "Manoeuvring",
    "meaning-VO": "Operating manoeuvring",
    "meaning-VRA": "Rough air",
    "meaning-VB": "Gusts of the greatest intensity",
    "meaning-maximum": "not above",
    "meaning-minimum": "not below",
    "meaning-VW": "Winch launch",
    "meaning-VT": "Aerotow",
    "meaning-VFE": "Flaps extended",
    "meaning-VLO": "Landing gear operating",
    "meaning-VLO-extension": "Landing gear extension",
    "meaning-VLO-retraction": "Landing gear retraction",
    "meaning-VLE": "Landing gear extended",
    "meaning-VNO": "Maximum structural cruise",
    "meaning-VNE": "Never exceed",
    "meaning-VMO": "Maximum operating",
    "meaning-MMO": "Maximum operating Mach number",
    "marking-white": "White arc",
    "marking-green": "Green arc",
    "marking-yellow": "Yellow arc",
    "marking-red-line": "Red line",
    "marking-blue-line": "Blue line",
    "marking-red-radial": "Lower red line",
    "marking-yellow-triangle": "Yellow triangle",
    "meaning-white": "flaps may be out",
    "meaning-green": "normal operation",
    "meaning-yellow": "smooth air only, with caution",
    "meaning-red-line": "do not exceed",
    "meaning-blue-line": "best rate of climb, one engine out",
    "meaning-blue-line-glider": "approach or climb mark",
    "meaning-red-radial": "minimum control, one engine out",
    "meaning-yellow-triangle": "lowest recommended approach speed",
    # -- what a figure holds for, and how a manual gives it
    "flaps": "flaps {flaps}",
    "gear-up": "gear up",
    "gear-down": "gear down",
    "gear-up-only": "up",
    "gear-down-only": "down",
    "from": "from {altitude}",
    "sink": "sink {sink}",
    "less-above": "above that {less} less for each {each}",
    "times-VS0-short": "{times} VS0",
    "given-times-VS0": "{times} times VS0",
    "given-ias": "{speed} IAS",
    "given-tas": "{speed} TAS",
    "given-cas": "{speed} CAS",
    "given-mach": "Mach {mach}",
    # -- headings of columns
    "column-speed": "Speed",
    "column-when": "When",
    "column-meaning": "Meaning",
    "column-page": "Page",
    "column-marking": "Marking",
    "column-from": "From",
    "column-to": "To",
    "column-ias-from": "Manual's from",
    "column-ias-to": "to",
    "column-shown-from": "[IAS] from",
    "column-shown-to": "to",
    "column-ias": "[IAS]",
    "column-manual-ias": "[Manual's IAS](manual-IAS)",
    "column-cas": "[CAS]",
    "column-mach": "[Mach]",
    "column-cas-of": "[CAS] {unit}",
    "column-isa-warmer": "[ISA] +{warmer:number}",
    "column-manual-air": "As given",
    "column-tas": "[TAS]",
    "column-by": "Set by",
    "column-weight": "Weight",
    "column-pressure-altitude": "[Pressure altitude](pressure-altitude)",
    "column-all": "All",
    "column-flaps": "Flaps {flaps}",
    "column-alternate": "Alternate static",
    "column-flaps-alternate": "Flaps {flaps}, alternate static",
    "column-flaps-within": "flaps {flaps}",
    "column-alternate-within": "alternate static",
    "column-flaps-alternate-within": "flaps {flaps}, alternate static",
    "column-flaps-gear": "Flaps {flaps}, {gear}",
    "column-flaps-gear-alternate": "Flaps {flaps}, {gear}, alternate static",
    "column-flaps-gear-within": "flaps {flaps}, {gear}",
    "column-flaps-gear-alternate-within": "flaps {flaps}, {gear}, alternate static",
    "column-normal": "Normal static source",
    "column-instrument": "Instrument",
    # corrections as they are printed
    "column-at": "At",
    "column-row-ias": "[Manual's IAS](manual-IAS)",
    "column-row-cas": "[CAS]",
    "column-row-normal-ias": "[Normal source's IAS](alternate-static-source)",
    "column-row-add-to-ias": "Add to [IAS](manual-IAS)",
    "column-row-subtract-from-ias": "Subtract from [IAS](manual-IAS)",
    "column-row-add-to-cas": "Add to [CAS]",
    "column-row-subtract-from-cas": "Subtract from [CAS]",
    "column-instrument-indicated": "[IAS]",
    "column-instrument-true": "Corrected",
    "column-instrument-add-to-indicated": "Add",
    "column-instrument-subtract-from-indicated": "Subtract",
    "column-instrument-add-to-true": "Add",
    "column-instrument-subtract-from-true": "Subtract",
    "column-altimeter-card-indicated": "Altimeter shows",
    "column-altimeter-card-true": "Corrected",
    "column-altimeter-card-add-to-indicated": "Add",
    "column-altimeter-card-subtract-from-indicated": "Subtract",
    "column-rpm": "Rpm",
    "column-manifold-pressure": "Manifold pressure",
    "column-torque": "Torque",
    "column-N1": "N1",
    "column-setting": "Setting",
    "column-fuel-flow": "Fuel flow",
    "column-endurance": "Endurance",
    "column-range": "Range",
    "column-own": "{name}",
    "column-manual-ias-of": "[Manual's IAS](manual-IAS) {unit}",
    "column-endurance-of": "Endurance {unit}",
    "column-range-of": "Range {unit}",
    "column-oat-of": "[OAT] {unit}",
    "column-isa-of": "From [ISA]",
    "column-tas-of": "[TAS] {unit}",
    "column-ias-of": "[IAS] {unit}",
    "column-fuel-flow-of": "Fuel {unit}",
    "column-power-of": "Power {unit}",
    "column-rpm-of": "Rpm",
    "column-manifold-pressure-of": "MP {unit}",
    "column-torque-of": "Torque {unit}",
    "column-N1-of": "N1 {unit}",
    "column-setting-of": "Setting",
    "column-power": "Power",
    "column-angle": "Angle",
    "column-wind": "Wind",
    "column-height": "Height",
    "column-glide": "Glide",
    "column-add": "Add",
    "column-temperature": "Temperature",
    "column-pressure": "Pressure",
    "column-distance": "Distance",
    "still": "still",
    "head": "head {wind}",
    "tail": "tail {wind}",
    # -- headings over columns and blocks
    "block-limits": "Limits",
    "block-flown": "Flown speeds",
    "block-one-engine": "One engine out",
    "block-flaps": "Flaps {flaps}",
    "block-flaps-within": "flaps {flaps}",
    "block-flaps-cas-only": "Flaps {flaps}; blank: only CAS known",
    "block-flaps-cas-only-within": "flaps {flaps}",
    "block-cas-only": "Blank: only CAS known",
    "block-flaps-gear": "Flaps {flaps}, {gear}",
    "block-flaps-gear-within": "flaps {flaps}, {gear}",
    "block-flaps-gear-cas-only": "Flaps {flaps}, {gear}; blank: only CAS known",
    "block-flaps-gear-cas-only-within": "flaps {flaps}, {gear}",
    "block-position": "{setting}; at {start}",
    "block-altimeter-altitude": "{setting}; at {altitude}",
    "block-indicator": "[IAS] {shown:shown}, [CAS] {cas}",
    "block-tas": "[TAS] {tas}",
    "setting-rpm": "{value} rpm",
    "setting-manifold-pressure": "{value} inHg",
    "setting-torque": "{value} % torque",
    "setting-N1": "{value} % N1",
    "setting-power": "{value} % power",
    "setting-setting": "setting {value}",
    "setting-ias": "IAS {value:shown}",
    "setting-own": "{name} {value}",
    "group-bank": "Bank {bank}",
    "group-cas": "[CAS], {unit}",
    "group-indicate": "[IAS], {unit}",
    "group-position": "[Position](position-error)",
    "group-alternate": "[Alternate static source](alternate-static-source)",
    "group-tas": "[TAS], {unit}, by [outside air temperature](OAT)",
    "group-tas-and-fuel": "[TAS], {unit}, and fuel flow, {fuel}",
    "group-tas-only": "[TAS], {unit}",
    "group-tas-pair": "[TAS] by [outside air temperature](OAT)",
    "group-tas-pair-isa": "[TAS] by difference from standard temperature, °C",
    "group-tas-isa": "[TAS], {unit}, by difference from standard temperature, °C",
    "group-factor-isa": "[TAS] ÷ [CAS] by difference from standard temperature",
    "group-rule-isa": "Rule less exact, {unit}, by difference from standard temperature",
    "group-indicate-isa": "[IAS], {unit}, by difference from standard temperature",
    "group-factor": "[TAS] ÷ [CAS] by [outside air temperature](OAT)",
    "group-rule": "Rule less exact, {unit}",
    "group-cruise": "Cruise",
    "group-economy": "{unit} by wind, kt",
    "group-headwind": "Headwind, kt",
    "group-tailwind": "Tailwind, kt",
    "group-headwind-within": "headwind",
    "group-tailwind-within": "tailwind",
    "group-crosswind": "Crosswind, {unit}, by angle to the runway",
    "group-density-altitude": (
        "[Density altitude](density-altitude), ft, by [outside air temperature](OAT)"
    ),
    "group-wind-angle": "By angle between wind and runway",
    "group-minutes": "Minutes by [ground speed](GS), kt",
    "beside-crosswind": "cross",
    "beside-headwind": "head",
    # -- titles
    "title-fleet-pdf": "{school} airspeed cards",
    "title-speeds": "Airspeeds",
    "title-markings": "Indicator markings",
    "title-altitude-limits": "Limit by altitude",
    "title-calibration": "Calibrated airspeed",
    "title-indicated": "IAS for a CAS",
    "title-corrections": "Corrections",
    "title-position": "Position error as printed",
    "title-instrument": "Instrument correction",
    "title-altimeter": "Altimeter correction",
    "title-altimeter-card": "Altimeter's bench card",
    "title-stall": "Stall speed",
    "title-manoeuvring": "Manoeuvring speed",
    "title-by-weight": "{speed} by weight",
    "title-true-airspeed": "True airspeed",
    "title-tas-factor": "TAS factor",
    "title-rule-of-thumb": "How far the rule of thumb is off",
    "title-airspeed-for-tas": "IAS for a TAS",
    "title-cruise": "Cruise",
    "title-cruise-at": "Cruise by OAT",
    "title-of": "{title}: {of}",
    "title-at-page": "page {page}",
    "title-economy": "Distance on fuel",
    "title-ground-speed": "Ground speed",
    "title-crosswind": "Crosswind",
    "title-crosswind-limit": "Maximum demonstrated crosswind, {crosswind}",
    "title-crosswind-limit-short": "Maximum demonstrated crosswind",
    "title-glide": "Glide distance",
    "title-speed-units": "Knots, mph and km/h",
    "title-weight-units": "Pounds and kilograms",
    "title-distance-units": "Nautical miles, statute miles and kilometres",
    "title-height-units": "Feet and metres",
    "title-fuel-units": "US gallons and litres",
    "how-units": "Find the number at the left; read what it is from one unit in the other.",
    "column-number": "Number",
    "column-unit-to-unit": "{target}",
    "group-from-unit": "of {source}",
    "title-pressure-altitude": "Pressure altitude by altimeter setting, {unit}",
    "title-standard-atmosphere": "Standard atmosphere",
    "title-density-altitude": "Density altitude",
    "title-crosswind-headwind": "Crosswind and headwind",
    "title-time": "Time en route",
    # -- reading rules
    "how-speeds": (
        "Find the speed by its name; fly by the large figure, the [IAS] of this very indicator."
    ),
    "how-markings": (
        "What the coloured arcs and lines on the indicator mean; trust the placards over this."
    ),
    "how-altitude-limits": (
        "Find the [pressure altitude](pressure-altitude) at the left, or the next higher one; do "
        "not fly faster than the speed beside it."
    ),
    "how-calibration": (
        "Find the [IAS] at the left; read [CAS], {unit}, under the flap setting and static source."
    ),
    "how-indicated": (
        "Find the [CAS] wanted at the left; read the [IAS] to fly, {unit:shown}, under the flap "
        "setting and static source."
    ),
    "how-corrections": (
        "Find the [IAS] at the left; correct for the instrument, then for the [position "
        "error](position-error), and on the [alternate static source](alternate-static-source) for "
        "that as well."
    ),
    "how-position": (
        "Find the setting, then the speed at the left; beside it stands what the manual prints, "
        "and what that comes to."
    ),
    "how-instrument": (
        "Find the speed at the left; beside it stands what the [bench "
        "card](instrument-correction) says."
    ),
    "how-altimeter": (
        "Find the setting, then the [manual's IAS](manual-IAS) at the left; correct the altitude "
        "shown by what stands beside it."
    ),
    "how-altimeter-card": (
        "Find the altitude at the left; beside it stands what the altimeter's bench card says."
    ),
    "how-stall": (
        "Find the flap setting and the weight, or the next heavier, at the left; under the bank of "
        "a level turn read [IAS] and [CAS] at the stall."
    ),
    "how-manoeuvring": (
        "Find the weight, or the next lighter, at the left; do not use full or abrupt controls "
        "above the speed beside it."
    ),
    "how-approach": (
        "Find the weight, or the next heavier, at the left; beside it is the speed to cross the "
        "threshold at with landing flaps, in calm air."
    ),
    "how-true-airspeed": (
        "Find the [IAS], then the [pressure altitude](pressure-altitude) at the left; read [TAS], "
        "{unit}, under the [outside air temperature](OAT)."
    ),
    "how-tas-factor": (
        "Find the [pressure altitude](pressure-altitude) at the left; multiply [CAS] by the factor "
        "under the [outside air temperature](OAT)."
    ),
    "how-rule-of-thumb": (
        "[CAS] plus 2 % for each 1,000 ft, less the exact [TAS]: find the [IAS] and the [pressure "
        "altitude](pressure-altitude) at the left; read {unit} "
        "under the [outside air temperature](OAT)."
    ),
    "how-airspeed-for-tas": (
        "Find the [TAS] wanted, then the [pressure altitude](pressure-altitude) at the left; read "
        "the [IAS] to fly under the [outside air temperature](OAT)."
    ),
    "how-cruise": (
        "Find the [pressure altitude](pressure-altitude) and power setting at the left; read [TAS] "
        "and fuel flow under the temperature."
    ),
    "how-cruise-at": (
        "Find the power setting, then the [pressure altitude](pressure-altitude) at the left; read "
        "[TAS] under the [outside air temperature](OAT)."
    ),
    "how-cruise-at-fuel": (
        "Find the power setting, then the [pressure altitude](pressure-altitude) at the left; read "
        "[TAS] under the [outside air temperature](OAT). The small figure is fuel flow."
    ),
    "how-economy": (
        "Find the [pressure altitude](pressure-altitude) and power setting at the left; read "
        "nautical miles on one {fuel} of fuel under the wind along the course."
    ),
    "how-ground-speed": (
        "Find the [TAS], {unit}, at the left; read [ground speed](GS) under the wind along the "
        "course."
    ),
    "how-crosswind-limit": (
        "Find the angle between wind and runway, or the next greater, at the left; beside it is "
        "the wind speed at which the crosswind is the greatest that was demonstrated."
    ),
    "how-crosswind": (
        "Find the wind speed, or the next greater, at the left; read the crosswind under the angle "
        "between wind and runway, or the next greater."
    ),
    "how-glide": (
        "Find the height above the ground, or the next lower, at the left; beside it is how far "
        "the aircraft glides in still air at its best glide speed."
    ),
    "how-pressure-altitude": (
        "Find the [altimeter setting](QNH); add the correction beside it to the altitude shown."
    ),
    "how-standard-atmosphere": (
        "Find the [pressure altitude](pressure-altitude); read the standard temperature and "
        "pressure across."
    ),
    "how-density-altitude": (
        "Find the [pressure altitude](pressure-altitude) at the left; read [density "
        "altitude](density-altitude), ft, under the [outside air temperature](OAT)."
    ),
    "how-crosswind-headwind": (
        "Find the wind speed at the left; read the crosswind under the angle between wind and "
        "runway, and the headwind beside it."
    ),
    "how-time": ("Find the distance at the left; read minutes under the [ground speed](GS)."),
    # -- notes
    "note-rounded-whole": "A maximum is rounded down and a minimum up to a whole {unit}.",
    "note-limit-falls": "The limit falls with altitude: see Limit by altitude.",
    "note-vmc-falls": (
        "With unsupercharged engines VMC falls with altitude and the stall speed in [IAS] does "
        "not: higher up the aeroplane may stall before VMC is reached (common practice)."
    ),
    "note-differs-unit": (
        "Why the [manual's IAS](manual-IAS) differs: this indicator reads {indicator}, the manual "
        "{manual}. Keep within the indicator's own arcs as well."
    ),
    "note-differs-bench": (
        "Why the [manual's IAS](manual-IAS) differs: the [bench card](instrument-correction) "
        "corrects it. Keep within the indicator's own arcs as well."
    ),
    "note-differs-bench-dated": (
        "Why the [manual's IAS](manual-IAS) differs: the [bench card](instrument-correction) of "
        "{date} corrects it. Keep within the indicator's own arcs as well."
    ),
    "note-differs-both": (
        "Why the [manual's IAS](manual-IAS) differs: this indicator reads {indicator}, the manual "
        "{manual}; the [bench card](instrument-correction) corrects it. Keep within the "
        "indicator's own arcs as well."
    ),
    "note-differs-both-dated": (
        "Why the [manual's IAS](manual-IAS) differs: this indicator reads {indicator}, the manual "
        "{manual}; the [bench card](instrument-correction) of {date} corrects it. Keep within the "
        "indicator's own arcs as well."
    ),
    "note-red-line-low": "The red line holds low down; the limit falls with altitude.",
    "note-altitude-limits": "Rounded down, at any temperature.",
    "note-altitude-limits-warm": (
        "Rounded down. A [TAS] limit is met at less when the air is warmer: beside the standard "
        "atmosphere, air 20 °C warmer."
    ),
    "note-tas-binds-below": (
        "In such warm air the limit of TAS {tas} is the lower one from {altitude} on, below the "
        "{named} from which the manual names it."
    ),
    "note-no-limit-known": (
        "A dash: the manual's tables do not reach there, so that no limit is known."
    ),
    "note-not-above": "Not above {altitude}: the manual gives no limit higher.",
    "note-crossover": "The altitude that is not round is where VMO and MMO meet.",
    "note-table-ends-and-limit": (
        "A dash: the manual's table does not reach there. In brackets: above the limit at every "
        "altitude, or above that for the flaps."
    ),
    "note-table-ends-and-limit-gear": (
        "A dash: the manual's table does not reach there. In brackets: above the limit at every "
        "altitude, or above that for the flaps or with the gear down."
    ),
    "note-table-ends": "A dash: the table of the normal source does not reach there.",
    "note-altimeter-altitudes": (
        "Printed for an altitude: between two of them linear, nothing outside them."
    ),
    "note-when": "{setting}: {when}.",
    "note-add-and-take-off": (
        "Add: the corrected airspeed is higher than shown. Take off: it is lower."
    ),
    "note-bench-card": (
        "Instrument: what the [bench card](instrument-correction) says of this indicator."
    ),
    "note-no-bench-card": (
        "No [bench card](instrument-correction) is given for this indicator: no [instrument "
        "correction](instrument-correction)."
    ),
    "note-alternate": (
        "[Alternate static source](alternate-static-source): where it says take off, the indicator "
        "reads higher than on the normal source and the aircraft is slower than it seems."
    ),
    "note-stall": "Stall: coordinated, level. Rounded up.",
    "note-flaps-load-factor": (
        "Flaps out: level flight at {bank} of bank is 2.0 g, the certification minimum (14 CFR "
        "23.345, before 23-64); the manual prevails."
    ),
    "note-only-approved": "The manual approves no {speed} but its own: none is computed.",
    "note-all-computed": "Computed throughout: {tables}.",
    "note-computed": "Figures in italics are computed, upright ones as the paper gives them.",
    "note-cas-only": "Blank: only CAS is known, as the calibration table does not reach so far.",
    "note-stall-when": "The manual's stall table: {when}.",
    "note-ias-only": (
        "A dash under CAS: the manual gives IAS only, and its calibration table does not reach so "
        "far."
    ),
    "note-blank-air": (
        "Blank: air that hardly occurs, warmer than [ISA] +40 °C, or colder than −55 °C."
    ),
    "note-paint-in-cas": (
        "The manual marks this indicator at speeds in [CAS]. From and to: as painted. [IAS]: where "
        "the pointer stands at the marked speed; white arc with full flaps, others without."
    ),
    "note-not-marked": "No mark on the indicator: {settings}.",
    "note-paint-and-bench-card": (
        "From and to: as painted, which no bench card moves. [IAS]: where this pointer stands "
        "there by the [bench card](instrument-correction); a limit never beyond the paint. Black "
        "ticks on the drawing: limits that it tightens."
    ),
    "note-flaps-up-pressure-altitude": (
        "Flaps and gear up, normal static source. At a [pressure altitude](pressure-altitude): set "
        "29.92 inHg or 1013 hPa, or correct by the [altimeter setting](QNH)."
    ),
    "note-warming": (
        "[OAT] is that of still air. Above [Mach] 0.3 (here to {mach}) a probe shows more, by up "
        "to {rise} here: take the ram rise off first, as the manual says."
    ),
    "note-beyond": "In brackets: faster than the limit there.",
    "note-sonic": "A dash: as fast as sound there, for which nothing is computed.",
    "note-left-off": "Left off, outside the calibration table: {speeds}.",
    "note-compressibility": (
        "Leaves [compressibility](compressibility) out: gives up to {most} too much in this table, "
        "at [CAS] {cas}."
    ),
    "note-rule-of-thumb": (
        "Plus: the rule gives too much. Minus: too little. The rule knows no temperature."
    ),
    "note-flaps-up-table-ends": ("Flaps and gear up. A dash: outside the calibration table."),
    "note-as-manual": "As the manual gives it.",
    "note-as-manual-page": "As the manual gives it, page {page}.",
    "note-as-manual-weight": "As the manual gives it at {weight}.",
    "note-as-manual-weight-page": "As the manual gives it at {weight}, page {page}.",
    "note-not-available": "A dash: the manual gives no figure there.",
    "note-not-available-beside": (
        "Nor is anything read across a row for which the manual gives no figure."
    ),
    "note-of-table": "{table}. {note}",
    "note-between-rows": "Linear between the manual's rows. A dash: outside them.",
    "note-between-rows-weight": (
        "Linear between the manual's rows at {weight}. A dash: outside them."
    ),
    "note-economy": (
        "Nearest standard temperature. Rounded down. Without climb or reserve: no range."
    ),
    "note-along-the-course": "Wind along the course; a crosswind takes a little more.",
    "note-headwind-as-fast": "A dash: the headwind is as fast as the aircraft.",
    "note-crosswind-limit": (
        "The [maximum demonstrated crosswind](demonstrated-crosswind) is {crosswind}: a limit only "
        "where the manual says so. Rounded down."
    ),
    "note-crosswind": "Rounded up. In brackets: more than the demonstrated {crosswind}.",
    "note-glide": "Glide ratio {ratio}, still air, rounded down.",
    "note-standard-setting": "With {setting} set, the altimeter shows pressure altitude itself.",
    "note-dry-air": "Dry air; humid air lifts the density altitude a little more.",
    "note-wind-unit": ("In the unit of the wind speed. Crosswind is rounded up, headwind down."),
    "note-time": "Rounded up to the whole minute.",
    # -- who sets a limit
    "set-by": "{speed}",
    "set-by-tas": "{speed}, TAS {tas}",
    "set-by-mach": "{speed} {mach}",
    # -- what is missing for a table
    "missing-markings": "the definition has no markings",
    "missing-altitudes": "the school gives no altitudes for {kind}",
    "missing-reference-speeds": "the school gives no reference speeds for {kind}",
    "missing-reference-in-table": "no reference speed lies inside the calibration table",
    "missing-air": "none of the school's altitudes and temperatures occur for it",
    "missing-tas": "the school gives no tas for {kind}",
    "missing-stall": "VS0 and VS1 have no CAS, and no calibration table gives it",
    "missing-manoeuvring": "the definition gives neither VA nor VO",
    "missing-approach": "the definition gives no VREF",
    "missing-approach-figure": "the manual gives VREF as a range",
    "missing-cruise": "the definition has no cruise table",
    "missing-cruise-altitudes": "the school gives no cruise altitudes for {kind}",
    "missing-cruise-between": "the manual's rows do not reach the school's altitudes and air",
    "missing-fuel-flow": "the cruise table gives no fuel flow",
    "missing-crosswind": "the definition gives no demonstrated crosswind",
    "missing-glide": "the definition gives no glide ratio",
    # -- examples
    "example-ias": "IAS {shown:shown}",
    "example-calibration": "With {at}: CAS is {cas}.",
    "example-calibration-setting": "With {at}, {setting}: CAS is {cas}.",
    "example-turn": "at {bank} of bank",
    "example-level": "wings level",
    "example-stall": "At {weight}, {turn}: it stalls at IAS {found:shown}.",
    "example-stall-cas": (
        "At {weight}, {turn}: it stalls at IAS {found:shown}, which is CAS {cas}."
    ),
    "example-stall-flaps": "At {weight}, {flaps}, {turn}: it stalls at IAS {found:shown}.",
    "example-stall-flaps-cas": (
        "At {weight}, {flaps}, {turn}: it stalls at IAS {found:shown}, which is CAS {cas}."
    ),
    "example-true-airspeed": "{at}, pressure altitude {altitude}, {oat} outside: TAS is {tas}.",
    "example-true-airspeed-kt": (
        "{at}, pressure altitude {altitude}, {oat} outside: TAS is {tas}, which is {knots}."
    ),
    "example-ground-speed": "TAS {tas} with {wind} of {kind}: ground speed is {speed}.",
    "example-crosswind-limit": (
        "{angle} off the runway: a wind of {wind} has the demonstrated crosswind."
    ),
    # -- what formulas take
    "input-ias": "manual's IAS",
    "input-cas": "CAS",
    "input-tas": "TAS",
    "input-mach": "Mach",
    "input-indicated": "IAS",
    "input-flaps": "flaps",
    "input-gear": "gear",
    "input-normal-ias": "normal source's IAS",
    "input-true": "corrected",
    "input-altitude-shown": "altimeter shows",
    "input-static-source": "static source",
    "input-weight": "weight",
    "input-known-weight": "given at",
    "input-bank": "bank",
    "input-vs": "VS in CAS",
    "input-va": "VA in CAS",
    "input-vo": "VO in CAS",
    "input-vref": "VREF in CAS",
    "input-vmc": "not below VMC in CAS",
    "input-vmo": "VMO in CAS",
    "input-mmo": "MMO",
    "input-times-VS0": "times VS0",
    "input-pressure-altitude": "pressure altitude",
    "input-oat": "OAT",
    "input-isa": "ISA",
    "input-power": "power",
    "input-rpm": "rpm",
    "input-manifold-pressure": "manifold pressure",
    "input-torque": "torque",
    "input-n1": "N1",
    "input-setting": "setting",
    "input-wind": "wind",
    "input-angle": "angle",
    "input-fuel-flow": "fuel flow",
    "input-demonstrated-crosswind": "demonstrated crosswind",
    "input-height": "height",
    "input-glide-ratio": "glide ratio",
    "input-number": "number",
    "input-speed": "speed",
    "input-altimeter-setting": "altimeter setting",
    "input-distance": "distance",
    "input-ground-speed": "ground speed",
}
