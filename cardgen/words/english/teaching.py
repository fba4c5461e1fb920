"""English wordings: the page that teaches how it works; what its script says begins with `told`."""

WORDINGS: dict[str, str] = {
    "teach": "How it works",
    "teach-title": "How it works: {registration}",
    "teach-page": "{registration}, how it works – {school}",
    "teach-what": (
        "From the pressure that moves the pointer to the speed over the ground, with the figures "
        "of this aircraft's own card."
    ),
    "teach-caution": (
        "For training. Fly by the approved flight manual and the aircraft's own markings, and as "
        "your instructor says."
    ),
    "teach-own": (
        "The figures begin with {speed}: {ias:shown} IAS, without flaps, at a pressure altitude "
        "of {altitude} and {isa}, course {course}, wind from {from} at {wind}."
    ),
    "teach-own-none": "The card has no speed that a true airspeed can be reckoned from.",
    "teach-middle": "the middle of the green arc",
    "teach-way": "The way from the pointer to the ground",
    "teach-back": "All figures of {registration}",
    "teach-work": "Work a case of your own",
    "teach-print": "Print as a handout",
    "teach-source": "Source: {source}.",
    "teach-common": "Common practice:",
    "teach-no-script": "Without scripts the drawings stand still, each as is said below it.",
    "teach-move": "Move",
    "told-value": "{value}",
    # -- what letters of formulas stand for
    "symbol-total": "total pressure",
    "symbol-static": "static pressure",
    "symbol-impact": "impact pressure",
    "symbol-shut-in": "static pressure shut in",
    "symbol-sea-level-pressure": "1013.25 hPa, standard at sea level",
    "symbol-sea-level-sound": "661.5 kt, speed of sound there",
    "symbol-instrument": "instrument correction",
    "symbol-position": "position error taken out, by the manual's table",
    "symbol-mach": "Mach number",
    "symbol-temperature": "air temperature in kelvin",
    "symbol-gas": "1.4, and the gas constant of air",
    "symbol-density": "density of the air",
    "symbol-sea-level-density": (
        "standard density at sea level; this form leaves out compressibility"
    ),
    "symbol-wind-angle": "angle between course and where the wind is from",
    "symbol-wind-speed": "wind speed",
    "symbol-drift": "angle of the nose into the wind",
    # -- sliders
    "slider-cas": "CAS",
    "slider-altitude": "Pressure altitude",
    "slider-gained": "Height gained since",
    "slider-shown": "What the pointer shows",
    "slider-ias": "IAS",
    "slider-setting": "Flaps and static source",
    "slider-isa": "Warmer than standard",
    "slider-from": "Wind from",
    "slider-wind": "Wind speed",
    # -- the instrument
    "teach-title-pressure": "What moves the pointer",
    "teach-pressure-1": (
        "The pitot tube faces the flow and stops the air in its mouth. So it feels the total "
        "pressure: that of the air around, and what stopping the flow adds. The static opening "
        "lies along the flow and feels the pressure of the air around alone."
    ),
    "teach-pressure-2": (
        "In the indicator total pressure fills a capsule, and static pressure the case around it. "
        "The capsule swells with the difference, the impact pressure, and moves the pointer. "
        "Without errors the pointer shows [CAS]: the true airspeed that has this impact pressure "
        "in standard air at sea level."
    ),
    "teach-pressure-3": (
        "Height changes both pressures alike, so that the same difference gives the same reading "
        "at any height. Twice the speed gives about four times the difference."
    ),
    "teach-source-pressure": (
        "FAA-H-8083-25B, chapter 8, pitot-static flight instruments (from memory); 14 CFR 1.1, "
        "calibrated airspeed; NASA RP-1046; pressures by ICAO Doc 7488"
    ),
    "teach-missing-pressure": "the card has no speed that its tables carry to CAS",
    "drawing-title-pressure": "Airspeed indicator, pitot tube and static opening",
    "drawing-title-blocked": "The same with the static opening blocked",
    "drawing-title-arcs": "Airspeed indicator of {registration}",
    "drawing-title-position": "What to add to IAS for CAS, {registration}",
    "drawing-title-true": "TAS over altitude at one IAS, {registration}",
    "drawing-title-wind": "Triangle of course, heading and wind",
    "teach-pitot": "pitot tube",
    "teach-static": "static opening",
    "teach-blocked": "blocked",
    "teach-capsule": "capsule",
    "teach-case": "case",
    "told-pressure": (
        "At a CAS of {cas} and a pressure altitude of {altitude} the pitot tube feels {total} and "
        "the static opening {static}. The difference, {impact}, moves the pointer."
    ),
    # -- a blocked static source
    "teach-title-blocked": "A blocked static source",
    "teach-blocked-1": (
        "Ice, tape or an insect over the static opening shuts in the case the pressure of that "
        "moment. At the same height the pointer stays right. Higher up the pitot tube feels less "
        "and the case does not: the pointer shows too little. Lower down it shows too much."
    ),
    "teach-blocked-2": (
        "Too much is the trap: on a descent the pointer promises a margin over the stall that is "
        "not there. Meanwhile the altimeter stays where it was and the vertical speed indicator "
        "at zero."
    ),
    "teach-blocked-3": (
        "Which way the pointer errs is certain. How far is reckoned for standard air and an "
        "indicator without errors, at one true CAS: take it as a size, not as a correction."
    ),
    "teach-blocked-4": (
        "A blocked pitot tube is another fault: with its drain open the pointer falls to zero. "
        "With the drain blocked too, the pressure is shut in the capsule, and the pointer rises "
        "as the aircraft climbs and falls as it descends, as an altimeter's would."
    ),
    "teach-blocked-5": "What to do, the flight manual says.",
    "teach-alternate": (
        "This aircraft has a table for its alternate static source: another opening, other "
        "errors, and so another IAS for the same CAS."
    ),
    "teach-no-alternate": "This card has no table for an alternate static source.",
    "teach-blocked-figures": "What the pointer shows with the static source blocked, {unit}",
    "teach-gained": "height gained",
    "teach-shown": "shown",
    "teach-source-blocked": (
        "FAA-H-8083-25B, chapter 8, blockage of the pitot-static system (from memory); pressures "
        "by ICAO Doc 7488, airspeed by NASA RP-1046"
    ),
    "teach-missing-blocked": "the card has no speed that its tables carry to CAS",
    "told-blocked-higher": (
        "Blocked at {altitude}, now {gained} higher, at a true CAS of {cas}: the pointer shows "
        "{shown}, {gap} too little."
    ),
    "told-blocked-lower": (
        "Blocked at {altitude}, now {gained} lower, at a true CAS of {cas}: the pointer shows "
        "{shown}, {gap} too much."
    ),
    "told-blocked-level": (
        "Blocked at {altitude}, still there, at a true CAS of {cas}: the pointer shows {shown}, "
        "and is right."
    ),
    "told-blocked-stop": (
        "Blocked at {altitude}, now {gained} higher, at a true CAS of {cas}: the pressure in the "
        "case is above that in the capsule, and the pointer rests at its stop."
    ),
    # -- arcs
    "teach-title-arcs": "What the arcs mean",
    "teach-arcs-1": (
        "Arcs and lines are painted in what the pointer shows, [IAS], as wing and structure feel "
        "the impact pressure as the pointer does. So one mark serves at much the same reading for "
        "any height, while the TAS behind it grows."
    ),
    "teach-arcs-altitude": (
        "Some limits of this aircraft are not so: they are true airspeeds or Mach numbers, or "
        "fall with height, and come below the red line high up. The card's table of limits by "
        "altitude has them."
    ),
    "teach-arcs-tightened": (
        "Black ticks are limits that this indicator's bench card puts nearer than the paint."
    ),
    "teach-source-arcs": (
        "FAA-H-8083-25B, chapter 8, airspeed indicator markings; 14 CFR 23.1545, before 23-64 "
        "(from memory), and CS-22.1545; the manual's page stands on the card"
    ),
    "teach-missing-arcs": "the card has no markings",
    "told-arc": "At {speed} the pointer stands in the {arcs} arc.",
    "told-arcs": "At {speed} the pointer stands in these arcs: {arcs}.",
    "told-in-white": "Flaps may be out, as far as their own limits allow.",
    "told-in-green": "The range of normal flight.",
    "told-in-yellow": "In smooth air only, and with caution.",
    "told-above-red": "At {speed} the pointer stands above the red line: never.",
    "told-no-arc": "At {speed} the pointer stands outside all arcs.",
    # -- position error
    "teach-title-position": "From IAS to CAS",
    "teach-position-1": (
        "No opening on an aircraft feels quite the pressure of the free air: the flow around the "
        "aircraft has another. What that puts on the pointer is the [position error]. It goes "
        "with the angle at which the wing meets the air, and flaps change the flow again. Slow, "
        "at a large angle, the pitot tube may be askew to the flow too."
    ),
    "teach-position-2": (
        "So [IAS] and [CAS] mostly part when slow, where the angle is large and the pointer is "
        "moved by little."
    ),
    "teach-common-position": "A table is read linearly between its points.",
    "teach-position-largest": (
        "In this aircraft, without flaps, the gap is largest at {speed:shown} IAS: {gap}."
    ),
    "teach-position-largest-slow": (
        "In this aircraft, without flaps, the gap is largest at the slow end of the table, at "
        "{speed:shown} IAS: {gap}."
    ),
    "teach-position-largest-fast": (
        "In this aircraft, without flaps, the gap is largest not slow, but at the fast end of the "
        "table, at {speed:shown} IAS: {gap}."
    ),
    "teach-position-hectopascal": (
        "One hectopascal more in the capsule moves the pointer by {by_slow} at {slow} CAS, but by "
        "{by_fast} at {fast}, since impact pressure grows with the square of the speed."
    ),
    "teach-position-bench": (
        "This one indicator has an error of its own too: its bench card's [instrument correction] "
        "is added first, and is in these figures."
    ),
    "teach-position-figures": "IAS and CAS at both ends of the manual's tables, {unit}",
    "teach-setting": "setting",
    "teach-ias-slow": "slow IAS",
    "teach-ias-fast": "fast IAS",
    "teach-cas": "CAS",
    "teach-source-position": (
        "the manual's calibration tables; FAA-H-8083-25B, chapter 8, calibrated airspeed (from "
        "memory); NASA RP-1046, position error"
    ),
    "teach-missing-position": (
        "the indicator's bench card does not reach the manual's calibration table"
    ),
    "told-position-little": (
        "With {setting}, IAS {ias:shown} is CAS {cas}: the pointer shows {gap} too little."
    ),
    "told-position-much": (
        "With {setting}, IAS {ias:shown} is CAS {cas}: the pointer shows {gap} too much."
    ),
    "told-position-none": "With {setting}, IAS {ias:shown} is CAS {cas}: the pointer is right.",
    "told-source-normal": "the normal static source",
    "told-source-alternate": "the alternate static source",
    "told-hectopascal": "There one hectopascal moves the pointer by {by}.",
    # -- true airspeed
    "teach-title-true": "From CAS to TAS",
    "teach-true-1": (
        "Higher up there is less air in the same space, and in warm air less than in cold. To "
        "bring the same impact pressure to the pitot tube the aircraft has to meet it faster. So "
        "at one [CAS] the [TAS] grows with height and with warmth."
    ),
    "teach-true-2": (
        "The wing feels the impact pressure too, and so the stall comes at much the same IAS at "
        "any height. The way over the ground, and the room for a turn, go with TAS."
    ),
    "teach-true-3": (
        "Between the two stands [EAS]: stopped air is squeezed, which the scale allows for as it "
        "is at sea level. High up and fast, EAS is a little less than CAS; the exact figure for "
        "TAS has it in it."
    ),
    "teach-common-true": "2 % for each 1,000 ft is a rule of thumb, shown beside the exact figure.",
    "teach-true-figures": "TAS at {ias:shown} IAS, in that unit",
    "teach-source-true": (
        "14 CFR 1.1, true airspeed; ICAO Doc 7488; NASA RP-1046; rule of thumb: FAA-H-8083-25B, "
        "chapter 8, true airspeed"
    ),
    "teach-missing-true": "the card has no speed that its tables carry to CAS",
    "teach-tas-axis": "Speed, {unit}",
    "teach-altitude-axis": "Pressure altitude, {unit}",
    "told-true": (
        "IAS {ias:shown} is CAS {cas}. At {altitude} and {oat} that is a TAS of {tas}, "
        "{more:number} % more; the density altitude is {density}."
    ),
    "told-true-less": (
        "IAS {ias:shown} is CAS {cas}. At {altitude} and {oat} that is a TAS of {tas}, "
        "{more:number} % less; the density altitude is {density}."
    ),
    "told-thumb": "By the rule of thumb it is {thumb}.",
    # -- wind
    "teach-title-wind": "From TAS to ground speed",
    "teach-wind-1": (
        "The air moves over the ground and takes the aircraft along. [GS](GS) is TAS with the "
        "wind added to it as arrows are: to fly along the course, the nose is turned into the "
        "wind."
    ),
    "teach-wind-2": (
        "The pointer does not feel a steady wind: it knows only the air around it. Upwind and "
        "downwind it shows the same at the same flight through the air; gusts and changes of the "
        "wind it does feel."
    ),
    "teach-common-wind": (
        "One arrowhead: heading and TAS. Two: course and ground speed. Three: wind."
    ),
    "teach-wind-figures": "With a wind of {wind}, course 360°; ground speed in {unit}",
    "teach-wind-from": "wind from",
    "teach-heading": "heading",
    "teach-ground": "ground speed",
    "teach-source-wind": "FAA-H-8083-25B, chapter 16, wind triangle (from memory)",
    "teach-missing-wind": "the card has no speed that its tables carry to TAS",
    "told-wind": (
        "Course {course}, TAS {tas}, wind from {from} at {wind}: heading {heading}, ground speed "
        "{ground}."
    ),
    "told-label-tas": "TAS {tas}",
    "told-label-air": "TAS {tas}",
    "told-label-along": "GS {ground}",
    "told-label-wind": "{wind}",
    "told-wind-head-right": "Of the wind {along} is headwind, and {across} comes from the right.",
    "told-wind-head-left": "Of the wind {along} is headwind, and {across} comes from the left.",
    "told-wind-tail-right": "Of the wind {along} is tailwind, and {across} comes from the right.",
    "told-wind-tail-left": "Of the wind {along} is tailwind, and {across} comes from the left.",
}
