"""English wordings: what the checks find, where to look, and who says so.

Altitudes, weights and whatever may be negative are said as they were typed,
so that they can be searched for in the definition.
"""

_FINDINGS = {
    "finding-acceptance": "{rule} is no rule that can be accepted",
    "finding-acceptance-gone": "no figure {figure} is copied here",
    "finding-acceptance-gone-near": "no figure {figure} is copied here; did you mean {near}?",
    "finding-acceptance-idle": "{rule} finds nothing; take the acceptance out",
    "finding-acceptance-idle-there": "{rule} finds nothing at {figure}; take the acceptance out",
    "finding-acceptance-value": "{figure} is {now}, and was accepted at {value}",
    "finding-acceptance-wide": "{rule} is accepted wherever it is found; name the figure, and "
    "write instead: {lines}",
    "finding-row-finer": "{here} between multiples of 10; a copying slip?",
    "finding-row-steps": "{here} stands between {before} and {after}; by the steps beside it "
    "expected {expected}",
    "finding-sister-rows": "the table is entered with {here}, and those beside it with "
    "{other} in its stead",
    "finding-speeds-exchanged": "{speed} is IAS {ias}, CAS {cas}, and {other} the other way round; "
    "were IAS and CAS exchanged?",
    "finding-calibration-turned": "IAS {ias} is CAS {cas}, and at the other end {high_ias} is "
    "{high_cas}, where most indicators err to the other side, and CAS stands in round figures; "
    "were IAS and CAS exchanged?",
    "finding-stall-by-calibration": "by the calibration table the IAS in this row are no stalls of "
    "one weight: {ias} at {bank} makes {found} CAS in level flight, and {other} at {other_bank} "
    "{other_found}; were IAS and CAS exchanged there, or is it a copying slip?",
    "finding-cruise-settings-twice": "two rows for the same altitude, temperature and settings, as "
    "in no other place of the table",
    "finding-column-with-setting": "{column} is {here} at {setting} {at}, and {usual} in all other "
    "rows of it",
    "finding-emergency-descent": "{speed} is {here}, which is one digit off {limit}, {value}; such "
    "a descent is flown at a limit",
    "finding-glide-weights": "the speed of best glide is given at {speed}, and the glide at "
    "{glide}; was one misread?",
    "finding-altitude-of-one-row": "altitude {here:typed} has one row, and so has {other:typed}; "
    "is one of them misread?",
    "finding-unsigned": "nobody has signed this card",
    "finding-unsigned-partial": "not all have signed this card; asked for: {asked}",
    "finding-signature": "signed for figures {signed}, and those copied now are {mark}; compare "
    "the card with the manual, then sign it: cardgen signoff",
    "finding-signature-date": "signed on {date}, which is still to come",
    "finding-signature-lapsed": "the signature was valid to {date}",
    "finding-signature-recomputed": "the copied figures are as they were signed, and what else "
    "the card says has changed since",
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
    "finding-alternate-reads-low": "IAS {ias} on the alternate source is {normal} on the normal "
    "one; expected less: were add and subtract exchanged?",
    "finding-altimeter-side": "at IAS {ias} the altimeter is to be corrected by {altitude}, and "
    "the airspeed's error makes it {expected}; were add and subtract exchanged?",
    "finding-alternate-side": "IAS {ias} is CAS {cas} on the alternate source and {normal} on the "
    "normal one; expected less: were IAS and CAS exchanged?",
    "finding-alternate-static": "IAS {ias} to CAS {cas} on the alternate source is far from what "
    "the normal source's table gives; a copying slip?",
    "finding-altitude-unit-high": "cruise reaches {highest:typed}; are the altitudes in feet?",
    "finding-altitude-unit-low": "cruise ends at {highest:typed}; are the altitudes in metres?",
    "finding-altitudes-round": "{speed} is given at {altitude:typed}; expected a round altitude",
    "finding-approach-margin": "VREF is {times} times VS0; expected about 1.3",
    "finding-bench-card-age": "dated {date}, more than 24 months ago",
    "finding-bench-card-age-no-date": "the instrument correction has no date",
    "finding-bench-card-range": "{speed}, IAS {ias}, is outside the bench card",
    "finding-bench-card-reach": "the bench card goes up to {last:typed}, and the aircraft to "
    "{top}; is it of another indicator?",
    "finding-bench-card-start": "the bench card begins at {first:typed}, and the aircraft stalls "
    "at {low}; is it of another indicator?",
    "finding-bench-card-words": "the card says that the instrument reads {said}, and by its "
    "figures it reads {found}; was a sign turned, or add and subtract exchanged?",
    "finding-bench-card-size": "a correction of {correction:typed}; expected 10 kt at the most",
    "finding-by-weight": "{speed} at {weight:typed} is {cas} CAS; the square root of the weights "
    "makes it {expected}",
    "finding-calibration-entered": "the table is entered with {here}, beside {beside}, and with "
    "others that are no multiples of 5; is it in another unit?",
    "finding-calibration-exchanged": "the table is entered with {here}, and beside it stands "
    "{beside}, a multiple of 5, as elsewhere in it; were IAS and CAS exchanged?",
    "finding-calibration-points": "only {count} points; expected 4 or more",
    "finding-calibration-range-end": "ends at {end} IAS; expected {speed}, {expected}, or more",
    "finding-calibration-range-start": "begins at {start} CAS; expected 1.3 times the stall "
    "speed, {expected}, or less",
    "finding-calibration-round": "{figure} among multiples of 5; a copying slip?",
    "finding-calibration-side": "begins with IAS {ias} and CAS {cas}, and the table for flaps up "
    "with IAS {clean_ias} and CAS {clean_cas}; were IAS and CAS exchanged?",
    "finding-calibration-smooth": "IAS {ias} to CAS {cas} stands off the curve of the points "
    "beside it; a copying slip?",
    "finding-calibration-steps": "CAS {cas} at IAS {ias} is {apart} from CAS {clean} with flaps "
    "up; a copying slip?",
    "finding-climb-by-altitude-fall": "{speed} goes from {below} to {here}; expected a fall",
    "finding-climb-by-altitude-rise": "{speed} goes from {below} to {here}; expected a rise",
    "finding-climb-speeds-apart": "{slow} and {fast} are {here:typed} apart here and "
    "{below:typed} lower down; expected them to come together with altitude",
    "finding-climb-speeds-order": "{slow} is {slow_value} and {fast} {fast_value}; expected "
    "{slow} lower",
    "finding-climb-speeds-part": "{slow} is given at altitudes that {fast} is not",
    "finding-crossover": "VMO and MMO meet at {level:typed}; expected between 5,000 and 40,000 ft",
    "finding-crossover-nowhere": "VMO and MMO meet outside the standard atmosphere",
    "finding-cruise-ias": "IAS {ias} stands beside TAS {tas}, which makes it {expected:typed} in "
    "that air",
    "finding-cruise-in-green": "TAS {tas} is CAS {cas} here; expected between {low} and {high}",
    "finding-cruise-margin": "VNO is {share} of VNE; expected 0.89 at the most",
    "finding-cruise-power": "{column} is {here:typed} here and {less:typed} at less {setting}; "
    "expected it to rise",
    "finding-cruise-row-twice": "a row for these conditions stands above already",
    "finding-cruise-smooth": "{column} is {here:typed}; the rows on either side make it about "
    "{expected:typed}",
    "finding-cruise-product": "{column} is {here:typed} beside {others}; the other rows make it "
    "about {expected:typed}",
    "finding-cruise-axis": "{column} {here:typed} stands in this row only, and {likely:typed} "
    "lacks such a row: was {likely:typed} read as {here:typed}?",
    "finding-cruise-round": "{column} {here:typed} stands among multiples of {step:typed}; a "
    "copying slip?",
    "finding-cruise-row-missing": "no row for {row}, and the rows beside it are there; was one "
    "left out?",
    "finding-cruise-surface": "{column} is {here:typed}; the rest of the table makes it about "
    "{expected:typed}",
    "finding-cruise-surface-meant": "{column} is {here:typed}; the rest of the table makes it "
    "about {expected:typed}: was {meant} read as {here:typed}?",
    "finding-curve": "{name} is {here:typed} at {at:typed}; the curve of the other points makes it "
    "about {expected:typed}",
    "finding-curve-at": "{here:typed} with {figure:typed} beside it stands off the curve of the "
    "other points: was {meant} read as {here:typed}?",
    "finding-curve-meant": "{name} is {here:typed} at {at:typed}; the curve of the other points "
    "makes it about {expected:typed}: was {meant} read as {here:typed}?",
    "finding-cruise-unit": "TAS {tas} is CAS {cas} here; cruise is flown up to about {most}: is "
    "the unit right?",
    "finding-date-in-future": "dated {date}, which is in the future",
    "finding-definition": "{said}",
    "finding-flap-limits-fall": "VFE is {more_limit} with flaps {more} and {less_limit} with "
    "flaps {less}; expected it to fall as flaps extend",
    "finding-flown-speeds": "{speed} is {value}; expected between the stall at {stall} and {end}",
    "finding-fuel-by-drag": "{share} % of the heat of fuel flow {flow:typed} moves the aircraft, "
    "by its glide and TAS; expected {low} to {high} %: are the units right?",
    "finding-fuel-by-drag-unit": "{share} % of the heat of fuel flow {flow:typed} moves the "
    "aircraft, by its glide and TAS; expected {low} to {high} %: was one copied in {unit}?",
    "finding-fuel-by-power": "fuel flow {flow:typed} stands beside {column} {power:typed}; the "
    "other rows make it about {expected:typed}",
    "finding-fuel-unit": "fuel flow {flow:typed} at TAS {tas}; is the unit right?",
    "finding-largest-error-low": "the largest position error, {error}, stands at {ias} IAS; in "
    "most aircraft it stands at low speed",
    "finding-markings-match": "the {end} is {painted} and {speed} {value}; expected the same",
    "finding-markings-order-green": "the green arc runs from {start} to {end}",
    "finding-markings-order-white": "the white arc runs from {start} to {end}",
    "finding-markings-order-yellow": "the yellow arc runs from {start} to {end}",
    "finding-not-at-or-below": "{low} is {greatest} and {high} {least}; expected {low} at or "
    "below {high}",
    "finding-not-below": "{low} is {greatest} and {high} {least}; expected {low} below {high}",
    "finding-page-named": "no page; expected the page that the figures were read from",
    "finding-position-error": "CAS {cas} is {apart} from IAS {ias}; expected {most} at the most",
    "finding-row-by-drag": "TAS {tas} stands beside fuel flow {flow:typed}; by drag and the other "
    "rows it is about {expected:typed}: is one of another row?",
    "finding-rpm-spread": "RPM goes from {low:typed} to {high:typed}; were columns exchanged?",
    "finding-settings-recur": "manifold pressure {here:typed} and each other stands in one row, "
    "and fuel flow, such as {flow:typed}, in several; were columns exchanged?",
    "finding-settings-together": "{column} is {here:typed} here, and {usual:typed} in every other "
    "row with {setting} {at:typed}",
    "finding-sign-off-age": "signed on {signed}; {title} {number} is of {date}, expected a "
    "sign-off after it",
    "finding-speed-against-table": "{speed}: IAS {ias} is CAS {expected} by the calibration "
    "table for flaps {flaps}, and CAS {cas} here",
    "finding-speed-against-table-outside": "{speed}: IAS {ias} is outside the calibration table "
    "for its flap setting, {start} to {end}",
    "finding-speed-unit": "{speed}: IAS {ias} and CAS {cas} are in the ratio of {one} to "
    "{other}; was one copied in another unit?",
    "finding-stall-against-speeds": "the stall table gives {table} {measure} with flaps {flaps}, "
    "and the stall speed is {speed}",
    "finding-stall-against-table": "IAS {ias} is CAS {expected} by the calibration table, and "
    "CAS {cas} here",
    "finding-stall-by-bank": "stall at {bank} of bank is {cas} CAS; the load factor makes it "
    "{expected}",
    "finding-stall-order": "the stall speed with flaps {more} is above that with flaps {less}; "
    "expected it to fall as flaps extend",
    "finding-stall-by-weight": "stall at {weight:typed} is {stall} {measure}; the square root of "
    "the weights makes it {expected}",
    "finding-altimeter-by-altitude": "{here} at IAS {ias}; the table of a lower altitude makes it "
    "about {expected} in this air",
    "finding-calibration-beyond": "ends at {end} IAS; expected no more than a little above {limit}",
    "finding-climb-rises": "{speed} is {here} IAS, and {below} at the altitude below; expected it "
    "to change little, and the other way",
    "finding-limit-by-altitude": "{speed} is {here} IAS, and {below} at the altitude below; "
    "expected {least} or more, and no rise",
    "finding-glide-at-weights": "a glide of {ratio}, and {other} at another weight; expected the "
    "same",
    "finding-markings-range": "a mark at {here}; expected between {low} and {high}",
    "finding-minimum-sink": "a minimum sink of {sink:typed}; expected between {low:typed} and "
    "{high:typed}",
    "finding-named-speed-use": "{speed} is {value}; expected between {low} and {high} by what it "
    "is for",
    "finding-row-setting": "{column} {here:typed} among multiples of {step:typed}; a copying slip?",
    "finding-speed-pair": "{speed} is {value:typed} and {other} {beside:typed}; expected {low} to "
    "{high}",
    "finding-cruise-by-fuel": "tas {fast} on {more}, and {slow} on {less} in the same air; a "
    "copying slip?",
    "finding-polar-bends": "sink {here:typed} at {at}; those beside it make it {low:typed} to "
    "{high:typed}",
    "finding-speed-apart": "{speed}: IAS {ias} and CAS {cas} are far apart; a copying slip?",
    "finding-bank-round": "a bank of {bank} among multiples of 5; a copying slip?",
    "finding-stall-ias-by-bank": "stall is {ias} IAS at {bank} of bank; the load factor makes it "
    "about {expected}",
    "finding-stall-rises": "stall is {ias} IAS at more bank than {less}; expected it to rise",
    "finding-stall-row": "stall is {cas} CAS; the load factor and the other banks make it "
    "{expected}",
    "finding-supplement-apart": "{speed} is {after:typed} by the supplement and {before:typed} by "
    "the manual; is the supplement of another type?",
    "finding-tas-limit": "TAS {tas} from {altitude:typed} is CAS {cas} there, and VNE below is "
    "CAS {below}; expected about the same",
    "finding-column-of-a-kind": "{column} is {here:typed}; expected {low:typed} to {high:typed}: "
    "were columns exchanged, or a figure misread?",
    "finding-cruise-altitude": "cruise at {highest:typed} in a {kind} aircraft; is the unit right?",
    "finding-cruise-range": "a range of {far:typed} at TAS {tas} in {hours:typed} h; is the unit "
    "right?",
    "finding-crosswind-of-a-kind": "a crosswind of {wind:typed} is {share} of the stall speed; "
    "expected 0.15 to 0.6: is the unit right?",
    "finding-fuel-by-weight": "fuel flow {flow:typed} at TAS {tas} and a weight of {weight:typed}; "
    "are the units right?",
    "finding-fuel-by-weight-unit": "fuel flow {flow:typed} at TAS {tas} and a weight of "
    "{weight:typed}: was one copied in {unit}?",
    "finding-glide-of-a-kind": "a glide of {ratio:typed} in a {kind} aircraft; expected {low} to "
    "{high}",
    "finding-glide-sink": "a sink of {sink:typed} makes a glide of {ratio:typed}, and "
    "{given:typed} is given; is the unit right?",
    "finding-load-factor": "{speed} is {cas} CAS; the stall speed and a load factor of {factor} "
    "make it {expected}",
    "finding-polar-glide": "the polar makes the best glide {best:typed}, and {given:typed} is "
    "given; are the units right?",
    "finding-rotation": "{speed} is {cas} CAS and VMC {control}; expected it above VMC",
    "finding-speed-of-a-kind": "{speed} is {times} times the stall speed; expected {low:typed} to "
    "{high:typed}",
    "finding-speed-of-a-kind-unit": "{speed} is {times} times the stall speed; expected "
    "{low:typed} to {high:typed}: it looks like {unit}",
    "finding-stall-of-a-kind": "a stall speed of {knots} kt in a {kind} aircraft; expected {low} "
    "to {high}: is the unit right?",
    "finding-temperature-unit": "{oat:typed} where standard air has {standard}; is the unit right?",
    "finding-type-unused": "no airframe is a {type}",
    "finding-units-together": "{one} and {other} seldom stand in one manual; is each unit right?",
    "finding-units-turbine": "a turbine aircraft's speeds are seldom in {unit}; is the unit right?",
    "finding-temperature-lapse": "from {low:typed} to {high:typed} air falls by {change} here, "
    "and standard air by {standard}; is the unit right?",
    "finding-pilot-weight": "{name}, {weight:typed}; is the unit right?",
    "finding-weight-misread": "given for {weight:typed}, which is no weight of the type; was "
    "{likely:typed} read as {weight:typed}?",
    "finding-weight-of-maximum": "given for {weight:typed}, and the maximum weight is "
    "{maximum:typed}; a copying slip?",
    "finding-altitude-odd": "given for {altitude:typed}; expected a round altitude",
    "finding-glide-height": "a glide for {height:typed}; expected a round height, such as 1000",
    "finding-named-speed": "{speed} is {value}; expected between {low} and {high}",
    "finding-weight-unit": "a maximum weight of {weight:typed} is unusual for a {kind} aircraft; "
    "is the unit right?",
    "finding-weights-known": "{speed} is given at {weight:typed}, which is not among the weights "
    "of the type",
    "finding-weights-of-a-kind": "{weight:typed} is above the maximum weight, {maximum:typed}",
}
_PARTS = {
    "finding-blue-line": "blue line",
    "finding-green-end": "green arc's end",
    "finding-green-start": "green arc's start",
    "finding-lower-red-line": "lower red line",
    "finding-no-value": "unknown",
    "finding-red-line": "red line",
    "finding-white-end": "white arc's end",
    "finding-white-start": "white arc's start",
    "finding-yellow-end": "yellow arc's end",
    "finding-yellow-start": "yellow arc's start",
    "finding-other-mark": "mark of a flap setting",
    "finding-yellow-triangle": "yellow triangle",
}
_LOOKS = {
    "look-acceptance": "the names of rules that check prints",
    "look-accepted": "the figure in the manual, and whether it is still to be accepted",
    "look-unsigned": "the card beside the manual; then cardgen signoff",
    "look-signature": "what has changed since it was signed",
    "look-signature-record": "the file's history, for who edited it",
    "look-altitude": "the altitude beside the speed",
    "look-approach-speeds": "the approach speeds in section 4",
    "look-bench-card": "the bench card",
    "look-calibration": "the airspeed calibration in section 5 of the manual",
    "look-climb-speeds": "the climb speeds in section 4",
    "look-cruise": "the cruise performance in section 5 of the manual",
    "look-definition": "the definition file",
    "look-flap-limits": "the flap limits in section 2",
    "look-fleet-folder": "the fleet folder",
    "look-glide-speeds": "the glide speeds in section 3",
    "look-limitations": "the airspeed limitations in section 2 of the manual",
    "look-manual-date": "the revision date of the manual",
    "look-markings": "the indicator markings in section 2 of the manual",
    "look-page": "the page that the figures were read from",
    "look-revisions": "the manual's revisions",
    "look-speeds": "the speeds in sections 3 and 4",
    "look-stall": "the stall speeds in section 5 of the manual",
    "look-units": "the units that the manual prints beside its figures",
    "look-weights": "the weight limits in section 2",
}
_REPORT = {
    "report-accept": "To accept it, under accepted: {line}",
    "report-accept-elsewhere": "To accept it, under accepted in {file}: {line}",
    "report-accepted": "Accepted: {reason}",
    "report-bench-card": "Bench card",
    "report-look": "Look at {look}. Rule: {source}.",
    "report-no-figure": "No figure was copied from page {page}.",
    "report-no-page": "{document}, no page named",
    "report-page": "{document}, page {page}",
    "severity-error": "error",
    "severity-note": "note",
    "severity-warning": "warning",
    "source-common-practice": "common practice",
}
WORDINGS: dict[str, str] = {**_FINDINGS, **_PARTS, **_LOOKS, **_REPORT}
