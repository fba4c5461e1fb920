{# A case worked from the pointer to the ground or back, and put into words: what cardgen/lessons and
cardgen/words do, to which tests hold it. `AIRCRAFT` has what the aircraft's document says, and
`WORDS` the wordings; what a function returns is not a number where nothing is known. #}
"use strict";

{# -- words and numbers, by the rules of words/numbers.py and words/language.py #}

const language = (wordings) => {
  const SYMBOLS = { C: "°C", F: "°F", deg: "°" };
  const CLOSE = ["deg"];
  const symbol = (unit) => SYMBOLS[unit] || unit;

  const number = ({ value, high, entered, sense, decimals = 0 }) => {
    const ends = [value, high].filter((end) => end !== undefined && end !== null);
    return entered ? grouped(entered) : ends.map((end) => grouped(rounded(end, sense, decimals).toFixed(decimals))).join("–");
  };
  const withUnit = (quantity) => {
    if (!quantity.unit) return number(quantity);
    return number(quantity) + (CLOSE.includes(quantity.unit) ? "" : " ") + symbol(quantity.unit);
  };

  const say = (id, values = {}) =>
    wordings[id].replace(/\{(\w+)(?::(\w+))?\}/g, (_, blank, form) => written(values[blank], form));
  const written = (value, form) => {
    if (typeof value === "string") return value;
    if (Array.isArray(value)) return value.map((one) => written(one, form)).join(wordings["list-separator"]);
    if (value.id) return say(value.id, value.values);
    if (value.symbol) return symbol(value.symbol);
    return form === "number" ? number(value) : withUnit(value);
  };
  const text = (message) => (message ? say(message.id, message.values) : "");

  {# A step as it is printed: its number and the unit of that; and with its name and its reason. #}
  const figure = ({ quantity, form }) => {
    if (!quantity) return ["–", ""];
    const said = number(quantity);
    if (form === "heading") return [said === "0" ? "360°" : `${said.padStart(3, "0")}°`, ""];
    return [form === "signed" && !said.startsWith("−") ? `+${said}` : said, symbol(quantity.unit)];
  };
  const line = (step) => [say(`step-${step.id}`), ...figure(step), text(step.reason)];

  const limitPassed = ({ speed, limit, asCas, bound }) => {
    const moving = speed === "VLO" && bound.gear ? `-${bound.gear}` : "";
    const name = `passed-${speed}${moving}`;
    const values = { limit: asCas ? { id: "given-cas", values: { speed: limit } } : limit, flaps: bound.flaps || "" };
    const passed = name in wordings ? { id: name, values } : { id: "passed-other", values: { ...values, speed } };
    return bound.when ? say("passed-when", { passed, when: bound.when }) : say(passed.id, passed.values);
  };

  return { say, text, figure, line, limitPassed, number, withUnit, symbol };
};

{# -- the case #}

const reckoner = (aircraft) => {
  const { unit, units, flaps: settings } = aircraft;
  const NORMAL = "normal";
  const NOISE = 1e-6; // documents keep six decimals
  const AT_ALTITUDE = ["VNE", "VMO", "MMO"]; // the speeds that limit all flight
  const QUANTITIES = ["ias", "cas", "tas", "mach"];
  const IN_WORDS = ["VNO", "VA", "VO", "VRA", "VB", "VLO", "VW", "VT"];
  const BY_WEIGHT = ["VA", "VO"];
  const SET = ["VFE", "VLE"]; // that hold with flaps or gear out

  const message = (id, values = {}) => ({ id, values });
  const kept = (value) => +value.toFixed(6) + 0;
  const quantity = (value, of, decimals = 0, sense = "target") => ({ value: kept(value), unit: of, decimals, sense });
  {# As Python's format "g": six significant figures, of two as near the even one. #}
  const general = (value) => {
    const near = +value.toPrecision(6);
    const digits = value.toPrecision(60).replace(/[-.]|e.*/g, "").replace(/^0+/, "");
    const tied = /^5(0*)$/.test(digits.slice(6)) && /[02468]/.test(digits[5]);
    return String(tied ? +(2 * value - near).toPrecision(6) : near);
  };
  const entered = (value, of) => ({
    value: kept(value),
    unit: of,
    get entered() {
      return general(value); // hardly any is asked for at a key
    },
  });
  const known = (value) => (value === undefined || Number.isNaN(value) ? null : value + 0);
  const fmin = (a, b) => (Number.isNaN(a) ? b : Number.isNaN(b) ? a : Math.min(a, b));
  {# What was made last is given again for the same: a key mostly changes the speed alone. #}
  const lastly = (make) => {
    let [of, made] = [null, null];
    return (...given) => {
      if (!of || given.some((one, at) => !Object.is(one, of[at]))) [of, made] = [given, make(...given)];
      return made;
    };
  };
  const least = (list, by) => list.reduce((best, one) => (best === undefined || by(one) < by(best) ? one : best), undefined);

  {# -- reading curves #}

  const interpolated = (value, x, y) => {
    if (!(value >= x[0] && value <= x[x.length - 1])) return NaN;
    const above = x.findIndex((one) => one > value);
    if (above < 0) return y[y.length - 1];
    const at = above - 1;
    return ((y[above] - y[at]) / (x[above] - x[at])) * (value - x[at]) + y[at];
  };
  const read = (curve, value, back = false) => {
    if (!curve) return NaN;
    return back ? interpolated(value, curve.y, curve.x) : interpolated(value, curve.x, curve.y);
  };
  const rowsOf = ({ x }, value) => {
    if (!(value >= x[0] && value <= x[x.length - 1])) return null;
    const above = x.findIndex((one) => one >= value);
    return x[above] === value ? null : [above - 1, above];
  };

  const tables = new Map(); // by what they were asked for
  const table = (flaps, source = NORMAL, gear = "") => {
    const asked = [flaps, source, gear].join();
    if (!tables.has(asked)) tables.set(asked, fittingTable(flaps, source, gear));
    return tables.get(asked);
  };
  const fittingTable = (flaps, source, gear) => {
    const fitting = aircraft.calibration.filter(
      (one) =>
        (one.flaps || "") === (flaps || settings[0]) &&
        one.static_source === source &&
        (!gear || ["", gear].includes(one.gear || "")),
    );
    return fitting.find((one) => (one.gear || "") === gear) || fitting[0];
  };
  const own = (speed) => air.convert(speed, units.speed, unit);
  const manual = (speed) => air.convert(speed, unit, units.speed);
  const corrected = (shown) => (aircraft.bench ? read(aircraft.bench, shown) : shown);
  const shownAtIas = (ias) => (aircraft.bench ? read(aircraft.bench, own(ias), true) : own(ias));
  const shownAtCas = (cas, flaps, source, gear) => shownAtIas(read(table(flaps, source, gear), cas, true));

  {# -- altitude #}

  const altimeterTables = (flaps, source) => {
    const found = aircraft.altimeter.filter((one) => one.static_source === source);
    const exact = found.filter((one) => (one.flaps || "") === flaps);
    return exact.length ? exact : found.filter((one) => !one.flaps);
  };
  const around = (tables, altitude) => {
    const found = tables.filter((one) => one.altitude === undefined);
    const levels = tables.filter((one) => one.altitude !== undefined);
    const below = least(levels.filter((one) => one.altitude <= altitude), (one) => -one.altitude);
    const above = least(levels.filter((one) => one.altitude >= altitude), (one) => one.altitude);
    return below && above ? [...found, ...new Set([below, above])] : found;
  };
  const positionOf = (tables, ias, altitude) => {
    const added = tables.map((one) => read(one, ias));
    if (tables.length === 1) return added[0];
    if (added.some(Number.isNaN)) return NaN;
    return interpolated(altitude, tables.map((one) => one.altitude || 0), added);
  };
  const altitudeOf = (altimeter, ias, flaps, source) => {
    const bench = aircraft.altimeter_bench;
    const instrument = bench ? read(bench, altimeter.shown) - altimeter.shown : 0;
    const here = altimeter.shown + instrument;
    const tables = around(altimeterTables(flaps, source), here);
    let position = tables.length ? positionOf(tables, ias, here) : 0;
    if (!tables.length && aircraft.altimeter.some((one) => one.static_source === source)) position = NaN;
    let pressureAltitude = NaN;
    if (!Number.isNaN(here + position)) {
      const metres = air.toSi(here + position, units.altitude);
      pressureAltitude = air.fromSi(air.pressureAltitudeFromSetting(metres, altimeter.setting), units.altitude);
    }
    return { instrument, position, pressureAltitude, tables };
  };

  const airAt = lastly((altitude, oat) => {
    const metres = air.toSi(altitude, units.altitude);
    const pascals = air.pressure(metres);
    if (oat === null) return { pascals, kelvin: NaN };
    const kelvin = air.toSi(oat, units.temperature);
    return {
      pascals,
      kelvin,
      isaDeviation: air.degreesOf(air.isaDeviation(metres, kelvin), units.temperature),
      densityAltitude: air.fromSi(air.densityAltitude(metres, kelvin), units.altitude),
    };
  });

  {# -- limits #}

  const gearOf = (bound) => bound.gear || (["VLE", "VS0", "VREF"].includes(bound.speed) ? "down" : "");

  const casOf = (bound, flying) => {
    if (!["tas", "mach"].includes(bound.quantity)) return bound.cas ?? NaN;
    if (flying.altitude === null) return NaN;
    const metres = air.toSi(flying.altitude, units.altitude);
    const pascals = air.pressure(metres);
    if (bound.quantity === "mach") return air.fromSi(air.casFromMach(bound.value, pascals), units.speed);
    const kelvin = flying.oat === null ? air.temperature(metres) : air.toSi(flying.oat, units.temperature);
    return air.fromSi(air.casFromTas(air.toSi(bound.value, units.speed), pascals, kelvin), units.speed);
  };

  const at = (bound, value, altitude) => {
    const cas = bound.quantity === "ias" ? read(table(bound.flaps, NORMAL, gearOf(bound)), value) : value;
    return { ...bound, value, cas, altitude };
  };
  const between = (rows, here) => {
    const value = interpolated(here, rows.map((one) => one.altitude), rows.map((one) => one.value));
    const nearest = least(rows, (one) => Math.abs(one.altitude - here));
    return value === nearest.value ? nearest : at(nearest, value, here);
  };
  const atRows = (rows, quantity, here) => {
    const last = rows[rows.length - 1];
    if (here > last.altitude) {
      const fall = last.less_per_altitude;
      return fall ? at(last, last.value - fall * (here - last.altitude), here) : null;
    }
    const after = rows.findIndex((one) => one.altitude >= here);
    if (after === 0 || rows[after].altitude === here) return rows[after];
    const both = [rows[after - 1], rows[after]];
    if (quantity === "tas" || rows.some((one) => one.interpolate)) return between(both, here);
    return least(both, (one) => one.value);
  };
  {# What bounds are of each speed is known before any case is. #}
  const inGeneral = aircraft.bounds.filter((one) => !one.when);
  const conditioned = aircraft.bounds.filter(
    ({ when, sense, altitude }) => when && sense === "maximum" && altitude === undefined,
  );
  const unique = (list) => [...new Set(list)];
  const ofSpeed = (name) => {
    const bounds = inGeneral.filter((one) => one.speed === name);
    const rows = bounds.filter((one) => one.altitude !== undefined).sort((a, b) => a.altitude - b.altitude);
    const byQuantity = QUANTITIES.map((of) => [of, rows.filter((one) => one.quantity === of)]);
    return {
      fixed: bounds.filter((one) => one.altitude === undefined),
      rows: byQuantity.filter(([, some]) => some.length),
      last: least(rows, (one) => -one.altitude),
    };
  };
  const others = aircraft.bounds.filter(
    (one) => one.sense === "maximum" && ![...AT_ALTITUDE, ...IN_WORDS, ...SET].includes(one.speed),
  );
  const spoken = unique([...IN_WORDS, ...others.map((one) => one.speed)]);
  const speeds = new Map([...AT_ALTITUDE, ...spoken].map((name) => [name, ofSpeed(name)]));

  const byAltitude = (name, flying) =>
    speeds.get(name).rows.flatMap(([quantity, rows]) => {
      const here = flying.altitude;
      const bound = here === null ? least(rows, (one) => -one.value) : atRows(rows, quantity, here);
      return bound ? [bound] : [];
    });

  const reaches = (bound, flying) =>
    bound.from_altitude === undefined ||
    bound.quantity === "tas" ||
    (flying.altitude !== null && flying.altitude >= bound.from_altitude);

  const binding = inGeneral.filter(
    ({ speed, altitude }) => (AT_ALTITUDE.includes(speed) && altitude === undefined) || SET.includes(speed),
  );
  const bindingBounds = (flying) => [
    ...binding.filter(
      (one) =>
        (AT_ALTITUDE.includes(one.speed) && reaches(one, flying)) ||
        (one.speed === "VFE" && one.flaps === flying.flaps && flying.flaps !== settings[0]) ||
        (one.speed === "VLE" && flying.gear === "down"),
    ),
    ...AT_ALTITUDE.flatMap((name) => byAltitude(name, flying)),
  ];

  const atWeight = (bounds, weight) => {
    const given = bounds.map((one) => [one.weight ?? aircraft.weights[0], one]);
    if (weight === null || !given.length) return null;
    const lowest = (pairs) => least(pairs.map(([, one]) => one), (one) => one.value);
    if ((aircraft.only_approved || []).includes(bounds[0].speed)) {
      const lighter = given.filter(([of]) => of <= weight).map(([of]) => of);
      const held = lighter.length ? Math.max(...lighter) : Math.min(...given.map(([of]) => of));
      return lowest(given.filter(([of]) => of === held));
    }
    const heavier = given.filter(([of, one]) => of >= weight && (one.cas ?? null) !== null);
    if (!heavier.length) return null;
    const known = Math.min(...heavier.map(([of]) => of));
    const one = lowest(heavier.filter(([of]) => of === known));
    if (known === weight) return one;
    const cas = kept(one.cas * air.speedRatio(weight / known, 1));
    return { ...one, quantity: "cas", value: cas, cas, weight };
  };
  const fits = ({ flaps = "", gear = "" }, flying) => ["", flying.flaps].includes(flaps) && ["", flying.gear].includes(gear);
  const boundsInWords = (flying) => [
    ...spoken.flatMap((name) => {
      const bounds = speeds.get(name).fixed.filter((one) => reaches(one, flying));
      const light = BY_WEIGHT.includes(name) ? atWeight(bounds, flying.weight) : null;
      if (light) return [light, ...byAltitude(name, flying)];
      const moving = unique(bounds.map((one) => one.gear || "")).sort();
      const highest = moving
        .filter((gear) => !flying.gear || gear !== flying.gear)
        .map((gear) => least(bounds.filter((one) => (one.gear || "") === gear), (one) => -one.value));
      return [...highest, ...byAltitude(name, flying)];
    }),
    ...conditioned.filter((one) => fits(one, flying) && reaches(one, flying)),
  ];

  {# What the indicator may show at a limit: of an entered IAS no more than was entered, nor more
  than a static source that reads low shows. #}
  const mostShown = (bound, cas, flying) => {
    const gear = gearOf(bound);
    let most = shownAtCas(cas, bound.flaps, NORMAL, gear);
    if (bound.quantity === "ias") most = fmin(shownAtIas(bound.value), own(bound.value));
    if (flying.source === NORMAL) return most;
    return fmin(most, shownAtCas(cas, bound.flaps, flying.source, gear));
  };

  const boundsAt = lastly((flaps, gear, source, altitude, oat, weight) => {
    const flying = { flaps, gear, source, altitude, oat, weight };
    const bounding = (binding) => (bound) => {
      const cas = casOf(bound, flying);
      return { bound, binding, cas, most: mostShown(bound, cas, flying) };
    };
    return [...bindingBounds(flying).map(bounding(true)), ...boundsInWords(flying).map(bounding(false))];
  });
  const limitOf = ({ bound, binding, cas, most }, shown, flown) => {
    const asCas = Number.isNaN(most) || Number.isNaN(shown);
    const [limit, now, of] = asCas ? [cas, flown, units.speed] : [most, shown, unit];
    const said = Number.isNaN(limit) ? null : quantity(limit, of, 0, "maximum");
    return { speed: bound.speed, limit: said, binding, bound, asCas, isPassed: now > limit + NOISE };
  };

  const aboveTheLastRow = (altitude) => {
    for (const { last } of AT_ALTITUDE.map((name) => speeds.get(name))) {
      if (altitude !== null && last && altitude > last.altitude && !last.less_per_altitude) return last;
    }
    return null;
  };

  const minimumControl = (flaps) => {
    const found = inGeneral.filter((one) => one.speed === "VMC");
    const fitting = found.filter((one) => !one.flaps || one.flaps === flaps);
    const shown = (fitting.length ? fitting : found).map((one) => {
      if (one.quantity !== "ias") return shownAtCas(one.cas ?? NaN, one.flaps, NORMAL, "");
      const [most, entered] = [shownAtIas(one.value), own(one.value)];
      return Number.isNaN(most) ? entered : Math.max(most, entered);
    });
    return Math.max(...shown.filter((one) => !Number.isNaN(one))); {# of none, less than any #}
  };

  {# -- the stall #}

  const stallsOf = (flaps, gear) => {
    const fitting = aircraft.stall.filter((one) => one.flaps === flaps);
    const usual = flaps === settings[settings.length - 1] && flaps !== settings[0] ? "down" : "up";
    for (const wanted of gear ? [gear, ""] : ["", usual]) {
      const found = fitting.filter((one) => (one.gear || "") === wanted);
      if (found.length) return found;
    }
    return gear ? [] : fitting;
  };
  const stallOf = lastly((flaps, gear, source, weight, bank) => {
    const load = air.loadFactor(air.toSi(bank, "deg"));
    const fitting = stallsOf(flaps, gear);
    const given = fitting.filter((one) => one.weight === weight && (one.bank || 0) === bank).pop();
    if (given) {
      const cas = given.cas ?? NaN;
      const byIas = given.quantity === "ias" && source === NORMAL;
      return { given: true, load, cas, shown: byIas ? shownAtIas(given.value) : shownAtCas(cas, flaps, source, gear) };
    }
    const level = fitting.filter((one) => !one.bank && (one.cas ?? null) !== null);
    const from = least(level.filter((one) => one.weight >= weight), (one) => one.weight);
    if (!from) return { load, cas: NaN, shown: NaN, heaviest: Math.max(...level.map((one) => one.weight)) };
    const cas = from.cas * air.speedRatio(weight / from.weight, load);
    return { from, load, cas, shown: shownAtCas(cas, flaps, source, gear) };
  });

  {# -- the working #}

  const working = (curve, x, of) => {
    const rows = curve && !Number.isNaN(x) ? rowsOf(curve, x) : null;
    if (!rows) return null;
    const [first, second] = rows;
    return message("step-working", {
      x1: entered(curve.x[first], ""),
      y1: entered(curve.y[first], ""),
      x2: entered(curve.x[second], ""),
      y2: entered(curve.y[second], ""),
      x: entered(kept(x), ""),
      y: quantity(read(curve, x), of, 1),
    });
  };

  {# A case has `known` and `speed`; `flaps`, `source`, `gear`; `pressureAltitude` or `altimeter`
  (`shown`, and `setting` in Pa); `oat` or `isa`; `wind` (from, speed in kt) and `course`; `weight`
  and `bank`. What is not said is null. #}
  return (asked) => {
    const given = {
      flaps: settings[0], source: NORMAL, gear: "", pressureAltitude: null, altimeter: null, oat: null,
      isa: null, wind: null, course: null, weight: null, bank: 0, ...asked,
    };
    const done = { values: {}, steps: [], altimeter: [], stall: [], notes: [], passed: [], inForce: [] };
    const { known: what, speed } = given;
    const calibration = table(given.flaps, given.source, given.gear);
    let level = given.pressureAltitude;
    let oat = given.oat;
    let pascals = NaN;
    let kelvin = NaN;

    const fill = (name, value) => {
      done.values[name] = known(value);
    };
    const tell = (id, values) => done.notes.push(message(id, values));
    const speedOf = (value) => quantity(value, unit, 1);
    const step = (id, value, reason = null, form = "plain", formula = "", page = "", worked = null, list = done.steps) => {
      const said = typeof value === "number" ? (Number.isNaN(value) ? null : speedOf(value)) : value;
      list.push({ id, quantity: said, reason, form, formula, page: page || "", get working() { return worked && worked(); } });
    };

    const setting = () => {
      const gear = calibration ? calibration.gear || "" : given.gear;
      const name = `step-setting-${given.source}`;
      const values = { flaps: given.flaps };
      return gear ? message(`${name}-gear`, { ...values, gear: message(`gear-${gear}`) }) : message(name, values);
    };
    const outside = (of, subject) => {
      const values = { speed: subject, setting: setting() };
      if (!calibration) return tell(`note-${of}-no-table`, values);
      const { x } = calibration;
      const ends = { first: entered(x[0], ""), last: entered(x[x.length - 1], ""), unit: { symbol: units.speed } };
      return tell(`note-${of}-outside${aircraft.bench ? "-or-bench" : ""}`, { ...values, ...ends });
    };

    const oatAt = (altitude) => {
      if (given.isa === null) return given.oat;
      return air.fromSi(air.temperature(air.toSi(altitude, units.altitude)), units.temperature) + given.isa;
    };
    const casByTas = (altitude, warmth) => {
      const pressed = air.pressure(air.toSi(altitude, units.altitude));
      const cas = air.casFromTas(air.toSi(speed, unit), pressed, air.toSi(warmth, units.temperature));
      return air.fromSi(cas, units.speed);
    };

    {# A TAS means an IAS only at an altitude that is known, so that is looked for again. #}
    const byAltimeter = () => {
      const { altimeter } = given;
      const metres = air.pressureAltitudeFromSetting(air.toSi(altimeter.shown, units.altitude), altimeter.setting);
      let guess = air.fromSi(metres, units.altitude);
      let found;
      for (let tries = 0; tries < 50; tries += 1) {
        const warmth = what === "tas" ? oatAt(guess) : null;
        let cas = NaN;
        if (what === "cas") cas = manual(speed);
        else if (warmth !== null) cas = casByTas(guess, warmth);
        const ias = what === "ias" ? manual(corrected(speed)) : read(calibration, cas, true);
        found = altitudeOf(altimeter, ias, given.flaps, given.source);
        const { pressureAltitude } = found;
        if (Math.abs(pressureAltitude - guess) < 1e-6 || Number.isNaN(pressureAltitude) || what !== "tas") return found;
        guess = pressureAltitude;
      }
      return { ...found, pressureAltitude: NaN };
    };

    const altimeterSteps = ({ instrument, position, tables }) => {
      const add = (...those) => step(...those, done.altimeter);
      const bench = aircraft.altimeter_bench;
      const inUnit = (value) => (Number.isNaN(value) ? null : quantity(value, units.altitude));
      const formula = (curve) => (curve ? ["altimeter-correction", curve.page] : ["", ""]);
      let card = message("step-no-altimeter-card");
      if (bench) card = bench.page ? message("step-page", { page: bench.page }) : message("step-bench-card");
      let of = message(Number.isNaN(position) ? "step-altimeter-outside" : "step-no-altimeter-table");
      if (tables.length) {
        const values = { setting: message(`step-setting-${given.source}`, { flaps: given.flaps }) };
        const { page } = tables[0];
        of = page ? message("step-altimeter-table-page", { ...values, page }) : message("step-altimeter-table", values);
      }
      add("altimeter", inUnit(given.altimeter.shown), message("step-given"), "plain", "", "", null);
      add("altimeter-instrument", inUnit(instrument), card, "signed", ...formula(bench), null);
      add("altimeter-position", inUnit(position), of, "signed", ...formula(tables[0]), null);
    };

    const findAltitude = () => {
      if (given.altimeter) {
        const found = byAltimeter();
        level = known(found.pressureAltitude);
        if (aircraft.altimeter.length || aircraft.altimeter_bench) altimeterSteps(found);
      }
      if (given.isa !== null && level !== null) oat = oatAt(level);
    };

    const findAir = () => {
      if (level === null) return tell(given.altimeter ? "note-altimeter" : "note-no-altitude");
      const here = airAt(level, oat);
      ({ pascals, kelvin } = here);
      fill("pressure_altitude", level);
      if (oat === null) return tell("note-no-temperature");
      fill("isa_deviation", here.isaDeviation);
      return fill("density_altitude", here.densityAltitude);
    };

    const findCas = () => {
      if (what === "ias") {
        const cas = read(calibration, manual(corrected(speed)));
        if (Number.isNaN(cas)) outside("indicated", entered(speed, unit));
        return cas;
      }
      if (what === "cas") return manual(speed);
      return Number.isNaN(kelvin) ? NaN : casByTas(level, oat);
    };

    const findIndicated = (cas) => {
      let shown = speed;
      if (what !== "ias") {
        shown = shownAtCas(cas, given.flaps, given.source, given.gear);
        if (what !== "ias" && Number.isNaN(shown) && !Number.isNaN(cas)) outside("cas", quantity(cas, units.speed, 1));
      }
      const right = corrected(shown);
      const ownCas = what === "cas" ? speed : own(cas);
      fill("indicated_airspeed", shown);
      fill("instrument_correction", right - shown);
      fill("calibrated_airspeed", ownCas);
      const { bench } = aircraft;
      let card = message("step-no-bench-card");
      if (bench) card = bench.page ? message("step-page", { page: bench.page }) : message("step-bench-card");
      step("indicated", shown, message(what === "ias" ? "step-given" : "step-to-fly"));
      const formula = bench ? "correction" : "";
      step("instrument", right - shown, card, "signed", formula, bench && bench.page, () => working(bench, shown, unit));
      const page = calibration && calibration.page;
      const of = page
        ? message("step-table-page", { setting: setting(), page })
        : message("step-table", { setting: setting() });
      const way = what === "ias" ? "calibrated-airspeed" : "indicated-from-calibrated";
      step("position", ownCas - right, of, "signed", way, page, () => working(calibration, manual(right), units.speed));
      step("cas", ownCas, what === "cas" ? message("step-given") : null);
    };

    const findTrue = (cas) => {
      if (Number.isNaN(cas) || Number.isNaN(pascals)) return;
      const metres = air.toSi(cas, units.speed);
      const mach = air.machFromCas(metres, pascals);
      const eas = air.fromSi(air.easFromMach(mach, pascals), unit);
      fill("mach", mach);
      fill("equivalent_airspeed", eas);
      const impact = message("step-impact-pressure", { altitude: quantity(level, units.altitude) });
      step("compressibility", eas - air.fromSi(metres, unit), impact, "signed", "true-airspeed");
      step("eas", eas, message("step-mach", { mach: quantity(mach, "", 3) }));
      if (Number.isNaN(kelvin)) return;
      const tas = what === "tas" ? speed : air.fromSi(air.tasFromMach(mach, kelvin), unit);
      fill("true_airspeed", tas);
      const density = message("step-density-altitude", {
        altitude: quantity(done.values.density_altitude || 0, units.altitude),
      });
      step("density", tas - eas, density, "signed", "true-airspeed");
      step("tas", tas, what === "tas" ? message("step-given") : null);
    };

    const findGround = () => {
      if (!given.wind || given.course === null) return;
      const [from, blowing] = given.wind;
      const angles = [air.toSi(from, "deg"), air.toSi(blowing, "kt"), air.toSi(given.course, "deg")];
      const [head, cross] = air.windComponents(...angles).map((part) => air.fromSi(part, unit));
      fill("headwind", head);
      fill("crosswind", cross);
      const direction = quantity(from % 360 || 360, "deg");
      step("wind", quantity(blowing, "kt", 1), message("step-wind-from", { direction }));
      const parts = ["plain", "wind-components"];
      step(head >= 0 ? "headwind" : "tailwind", Math.abs(head), message("step-along"), ...parts);
      step("crosswind", Math.abs(cross), message(cross >= 0 ? "step-from-right" : "step-from-left"), ...parts);
      const tas = done.values.true_airspeed;
      if (tas === null) {
        tell("note-no-ground-speed");
        return;
      }
      const held = air.windTriangle(air.toSi(tas, unit), angles[2], angles[0], angles[1]);
      if (!held) {
        const across = Math.abs(cross) > tas;
        const wind = speedOf(across ? Math.abs(cross) : head);
        tell(across ? "note-crosswind-not-held" : "note-headwind-not-held", { wind, tas: speedOf(tas) });
        return;
      }
      const [heading, groundSpeed] = [air.fromSi(held[0], "deg"), air.fromSi(held[1], unit)];
      fill("heading", heading);
      fill("ground_speed", groundSpeed);
      step("heading", quantity(heading, "deg"), message("step-into-wind"), "heading", "ground-speed");
      step("ground-speed", groundSpeed, null, "plain", "ground-speed");
    };

    const findLimits = (cas) => {
      const shown = done.values.indicated_airspeed ?? NaN;
      const bounds = boundsAt(given.flaps, given.gear, given.source, level, oat, given.weight);
      const limits = bounds.map((one) => limitOf(one, shown, cas));
      done.passed = limits.filter((one) => one.isPassed);
      done.inForce = limits
        .filter((one) => one.binding && one.limit)
        .sort((a, b) => a.limit.value - b.limit.value);
      const slowest = minimumControl(given.flaps);
      if (shown < slowest - NOISE) tell("note-below-VMC", { speed: quantity(slowest, unit, 0, "minimum") });
      const last = aboveTheLastRow(level);
      if (last) {
        tell("note-above-the-last-row", { speed: last.speed, altitude: entered(last.altitude, units.altitude) });
      }
    };

    const findStall = (cas) => {
      if (given.weight === null) return;
      const { flaps, gear, source, weight, bank } = given;
      const found = stallOf(flaps, gear || "", source, weight, bank);
      fill("load_factor", found.load);
      fill("stall_speed", found.shown);
      fill("stall_calibrated", found.cas);
      const maximum = aircraft.weights[0];
      if (weight > maximum) tell("note-too-heavy", { maximum: entered(maximum, units.weight) });
      if ("heaviest" in found) {
        const { heaviest } = found; // of none, less than any number
        if (heaviest < 0) tell("note-no-stall", { flaps });
        else if (heaviest < maximum || weight <= maximum) tell("note-no-stall-so-heavy", { weight: entered(heaviest, units.weight) });
      } else if (Number.isNaN(found.shown) && !Number.isNaN(found.cas)) tell("note-stall-in-cas", {});
      const at = { weight: entered(weight, units.weight), bank: entered(bank, "deg"), flaps };
      const reason = message(found.given ? "step-stall-given" : "step-stall-at", at);
      const arithmetic = () =>
        message("step-stall-working", {
          vs: entered(found.from.cas, ""),
          weight: entered(weight, ""),
          known: entered(found.from.weight, ""),
          load: quantity(found.load, "", 3),
          cas: quantity(found.cas, units.speed, 1),
        });
      const formula = found.given ? "" : "stall-speed";
      const up = (value, of) => (Number.isNaN(value) ? null : quantity(value, of, 0, "minimum"));
      step("stall", up(found.shown, unit), reason, "plain", formula, "", found.from ? arithmetic : null, done.stall);
      step("stall-cas", up(found.cas, units.speed), null, "plain", formula, "", null, done.stall);
      const shown = done.values.indicated_airspeed;
      if (shown === null || Number.isNaN(found.shown + found.cas + cas)) return;
      fill("stall_margin", shown - found.shown);
      const times = message("step-stall-times", { times: quantity(cas / found.cas, "", 2, "maximum") });
      step("stall-margin", quantity(shown - found.shown, unit, 0, "maximum"), times, "signed", "", "", null, done.stall);
    };

    for (const name of RESULTS) fill(name, NaN);
    findAltitude();
    findAir();
    const cas = findCas();
    findIndicated(cas);
    findTrue(cas);
    findGround();
    findLimits(cas);
    findStall(cas);
    done.oat = oat;
    return done;
  };
};

const RESULTS = [
  "indicated_airspeed", "instrument_correction", "calibrated_airspeed", "equivalent_airspeed", "mach",
  "true_airspeed", "pressure_altitude", "isa_deviation", "density_altitude", "headwind", "crosswind", "heading",
  "ground_speed", "load_factor", "stall_speed", "stall_calibrated", "stall_margin",
];
