"""English wordings: the next aircraft, and what to mind in it."""

WORDINGS: dict[str, str] = {
    "next-title": "From {first} to {second}",
    "next-page": "From {first} to {second} – {school}",
    "next-of-types": "{first}, then {second}",
    "next-same-type": "both {type}",
    "next-mind": "What to mind first",
    "next-nothing": "Their cards print the same figures: mind what each says of itself.",
    "next-remarks": "Of {registration} itself",
    "next-how": (
        "Airspeeds are what each pointer shows, in its own unit, at the maximum weight; the "
        "difference is {second} less {first}, in {unit}."
    ),
    "next-caution": (
        "For training: this replaces no checkout. Verify every figure against the approved flight "
        "manual of {second}."
    ),
    "next-difference": "Difference",
    "next-figures": "Figures {first} and {second}.",
    "next-print": "To print, PDF",
    "next-list": "From one aircraft to another",
    "next-any": "From any aircraft to another",
    "next-any-how": (
        "Choose the aircraft that you fly and the one that is next. What to mind in it stands "
        "first, then the figures of both."
    ),
    "next-any-from": "From",
    "next-any-to": "To",
    "next-any-lacking": "The figures of one of the two could not be read here.",
    "next-any-no-script": "Without scripts there are the pages of the pairs that the school names.",
    "next-shown": "{value}",
    "next-own": "{name}",
    "next-of": "{name}, {setting}",
    "next-either": "{one}; {other}",
    "next-full": "full flaps",
    "next-at": "At {speed}, {setting}",
    "next-corrections": "What to add to IAS for CAS",
    "next-else": "Besides",
    "next-flaps": "Flap settings",
    "next-weight": "Maximum weight",
    "next-cruise": "Fastest cruise, TAS",
    "next-mach": "Limit by Mach number",
    "next-glide": "Glide ratio",
    "next-crosswind": "Demonstrated crosswind",
    # -- what an instructor would say
    "next-another-unit": (
        "The pointer reads in another unit: {one} is {other} on it. Read no figure of the old one."
    ),
    "next-gear-retracts": "The landing gear retracts: it is down before you land.",
    "next-gear-retracts-below": (
        "The landing gear retracts: it is down before you land, and not lowered above {speed}."
    ),
    "next-gear-retracts-both": (
        "The landing gear retracts: it is down before you land, not lowered above {speed}, and "
        "not raised above {up}."
    ),
    "next-one-engine-out": (
        "It has a second engine: with one out it is not held straight below VMC, {speed}."
    ),
    "next-no-engine": "It has no engine: every approach is the last.",
    "next-flaps-now": "It has flaps: {settings}.",
    "next-mach-limit": "High up a Mach number limits it: {mach}.",
    "next-lower-limit": "Lower: {name}, not above {speed}, {by} less.",
    "next-lower-limit-VFE-full": "Full flaps not above {speed}: {by} less.",
    "next-lower-limit-VNE": "Never above {speed}: {by} less.",
    "next-lower-limit-VNO": "Above {speed} in smooth air only: {by} less.",
    "next-lower-limit-VA": "No full control movement above {name}, {speed}: {by} less.",
    "next-lower-limit-VLE": "Gear down not above {speed}: {by} less.",
    "next-limit-now": "It has {name}: not above {speed}, where the old one has none.",
    "next-higher-stall": "It stalls faster: {name} is {speed}, {by} more.",
    "next-higher-minimum": "{name} is higher: not below {speed}, {by} more.",
    "next-paint-above-limit": (
        "The paint says too much: {name} is {limit} by the bench card, and painted at {painted}."
    ),
    "next-indicator-low": "Its pointer stands low: at {speed} it is {by} more by the bench card.",
    "next-indicator-high": "Its pointer stands high: at {speed} it is {by} less by the bench card.",
    "next-bench-gone": "It has no bench card: nothing is known of its indicator's own error.",
    "next-other-correction": (
        "On the approach {speed} on the pointer is {cas} CAS; the old one has {before} there."
    ),
    "next-no-alternate-source": "Its manual gives no table for the alternate static source.",
    "next-alternate-low": (
        "On the alternate static source the pointer stands low: at {speed} CAS is {by} more."
    ),
    "next-alternate-high": (
        "On the alternate static source the pointer stands high: at {speed} CAS is {by} less."
    ),
    "next-slower-approach": (
        "Slower on the approach: {name}, {speed}, {by} less; flown as the old one it floats."
    ),
    "next-glide-slower": "Best glide is slower: {speed}, {by} less.",
    "next-glide-faster": "Best glide is faster: {speed}, {by} more.",
    "next-worse-glide": "It glides less far: {ratio} to 1, not {before} to 1.",
    "next-lower-crosswind": "Its demonstrated crosswind is lower: {wind}, not {before}.",
    "next-other-flaps": "Its flap settings are {settings}, not {before}.",
    "next-no-flaps": "It has no flaps.",
    "next-gear-fixed": "Its landing gear is fixed.",
    "next-faster-cruise": "It cruises at up to {speed} TAS, {by} more: plan further ahead.",
    "next-arc-now": "Its dial has another mark: {arc}.",
    "next-arc-gone": "Its dial lacks a mark of the old one: {arc}.",
    "next-mark": "{words}",
}
