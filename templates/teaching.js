{# What the lessons' drawings come to where a reader moves a slider: the same as cardgen/lessons/teaching
reckons and render/teaching.py draws, to which tests hold it. `AIRCRAFT` has what the document says. #}
"use strict";

// -- what a drawing comes to

const taught = (aircraft) => {
  const { unit, units } = aircraft;
  const reckon = reckoner(aircraft);
  const COURSE = 360;
  const NOTHING = 0.05;
  const SAME = 1e-6;
  const POINTS = 13;
  const SHUT = 1e-9;

  const message = (id, values = {}) => ({ id, values });
  const kept = (value) => +value.toFixed(6) + 0;
  const quantity = (value, of = "", decimals = 0) => ({ value: kept(value), unit: of, decimals });
  const direction = (degrees) => {
    const whole = rounded(kept(degrees), "target", 0) % 360 || 360;
    return { value: whole, unit: "deg", entered: String(whole).padStart(3, "0") };
  };
  const hectopascals = (pascals) => quantity(air.fromSi(pascals, "hPa"), "hPa", 1);
  const pressureAt = (altitude) => air.pressure(air.toSi(altitude, units.altitude));
  const at = (known, speed, pressureAltitude, isa) => ({ known, speed, pressureAltitude, isa });
  const limits = ({ passed }) => passed.filter((one) => one.binding).map((one) => ({ limit: one }));
  const byAHectopascal = (cas) => {
    const impact = air.impactOfCas(air.toSi(cas, unit)) + air.toSi(1, "hPa");
    return quantity(air.fromSi(air.casOfImpact(impact), unit) - cas, unit, 1);
  };

  const pressure = (given, { cas, altitude }) => {
    const still = pressureAt(altitude);
    const impact = air.impactOfCas(air.toSi(cas, unit));
    const labels = {
      total: hectopascals(still + impact), static: hectopascals(still), case: hectopascals(still), shown: quantity(cas, unit),
    };
    const values = {
      cas: labels.shown, altitude: quantity(altitude, units.altitude), total: labels.total, static: labels.static,
      impact: hectopascals(impact),
    };
    const said = [message("told-pressure", values), ...limits(reckon(at("cas", cas, altitude, 0)))];
    return { said, labels, drawn: { shown: [kept(cas)], impact: [impact] } };
  };

  const blocked = (given, { gained }) => {
    const shutIn = pressureAt(given.altitude);
    const still = pressureAt(given.altitude + gained);
    const cas = air.toSi(given.cas, unit);
    const total = still + air.impactOfCas(cas);
    const shown = air.fromSi(air.casWithBlockedStatic(cas, still, shutIn), unit);
    const values = {
      altitude: quantity(given.altitude, units.altitude), gained: quantity(Math.abs(gained), units.altitude),
      cas: quantity(given.cas, unit), shown: quantity(shown, unit), gap: quantity(Math.abs(shown - given.cas), unit),
    };
    let way = "level";
    if (gained) way = gained > 0 ? "higher" : "lower";
    if (shown < SHUT) way = "stop";
    const labels = {
      total: hectopascals(total), static: hectopascals(still), case: hectopascals(shutIn), shown: quantity(shown, unit),
    };
    const drawn = { shown: [kept(shown)], impact: [Math.max(total - shutIn, 0)] };
    return { said: [message(`told-blocked-${way}`, values)], labels, drawn };
  };

  const arcs = (given, { shown }) => {
    const { lines = [], arcs: painted } = aircraft.markings;
    const speed = quantity(shown, unit);
    const drawn = { at: [kept(shown)] };
    const red = lines.find((one) => one.name === "red-line");
    if (red && shown > red.at + SAME) return { said: [message("told-above-red", { speed })], drawn };
    const beyond = limits(reckon({ known: "ias", speed: shown }));
    const found = painted.filter((one) => one.low - SAME <= shown && shown <= one.high + SAME);
    if (!found.length) return { said: [message("told-no-arc", { speed }), ...beyond], drawn };
    const named = { speed, arcs: found.map((one) => message(`drawing-${one.name}`)) };
    const said = [message(found.length === 1 ? "told-arc" : "told-arcs", named)];
    return { said: [...said, ...found.map((one) => message(`told-in-${one.name}`)), ...beyond], drawn };
  };

  const settingOf = ({ flaps = "", static_source: source, gear }) => {
    if (aircraft.flaps.length === 1) return message(`told-source-${source}`);
    if (!gear) return message(`step-setting-${source}`, { flaps });
    return message(`step-setting-${source}-gear`, { flaps, gear: message(`gear-${gear}`) });
  };
  const position = (given, { ias, setting = 0 }) => {
    const table = aircraft.calibration[Math.round(setting)];
    const done = reckon({ known: "ias", speed: ias, flaps: table.flaps || "", source: table.static_source, gear: table.gear || "" });
    const cas = done.values.calibrated_airspeed;
    if (cas === null) return { said: done.notes.filter(({ id }) => id.startsWith("note-indicated")), drawn: { at: [] } };
    const gap = cas - ias;
    let way = gap > 0 ? "little" : "much";
    if (Math.abs(gap) < NOTHING) way = "none";
    const values = {
      setting: settingOf(table), ias: quantity(ias, unit), cas: quantity(cas, unit, 1), gap: quantity(Math.abs(gap), unit, 1),
    };
    const by = message("told-hectopascal", { by: byAHectopascal(cas) });
    const said = [message(`told-position-${way}`, values), by, ...limits(done)];
    return { said, drawn: { at: [kept(ias), kept(gap)] } };
  };

  const tasLine = ({ ias, low, high }, isa) =>
    Array.from({ length: POINTS }, (_, n) => {
      const height = low + (n * (high - low)) / (POINTS - 1);
      return kept(reckon(at("ias", ias, height, isa)).values.true_airspeed || 0);
    });
  const grown = (given, { altitude, isa }) => {
    const done = reckon(at("ias", given.ias, altitude, isa));
    const { calibrated_airspeed: cas, true_airspeed: tas, density_altitude: density } = done.values;
    const more = 100 * (tas / cas - 1);
    const feet = air.convert(altitude, units.altitude, "ft");
    const oat = air.fromSi(air.temperature(air.toSi(altitude, units.altitude)), units.temperature) + isa;
    const values = {
      ias: quantity(given.ias, unit), cas: quantity(cas, unit, 1), altitude: quantity(altitude, units.altitude),
      oat: quantity(oat, units.temperature), tas: quantity(tas, unit, 1), more: quantity(Math.abs(more), "", 1),
      density: quantity(density, units.altitude), thumb: quantity(cas * (1 + (0.02 * feet) / 1000), unit),
    };
    const said = [message(more >= 0 ? "told-true" : "told-true-less", values), message("told-thumb", values), ...limits(done)];
    const drawn = { curve: tasLine(given, isa), at: [kept(tas), kept(altitude)], cas: [kept(cas)] };
    return { said, drawn, labels: { tas: message("told-label-tas", { tas: quantity(tas, unit) }) } };
  };

  const wind = (given, { from, wind: blowing }) => {
    const { values } = reckon({ ...at("ias", given.ias, given.altitude, given.isa), wind: [from, blowing], course: COURSE });
    const { headwind, crosswind, true_airspeed: tas, ground_speed: ground, heading } = values;
    const said = {
      ground: quantity(ground, unit), heading: direction(heading), tas: quantity(tas, unit),
      wind: quantity(blowing, "kt"), course: direction(COURSE), from: direction(from),
      along: quantity(Math.abs(headwind), unit), across: quantity(Math.abs(crosswind), unit),
    };
    const parts = `told-wind-${headwind >= 0 ? "head" : "tail"}-${crosswind >= 0 ? "right" : "left"}`;
    const labels = Object.fromEntries(["air", "along", "wind"].map((name) => [name, message(`told-label-${name}`, said)]));
    const drawn = { air: [kept(crosswind), kept(ground + headwind)], ground: [kept(ground)] };
    return { said: [message("told-wind", said), message(parts, said)], drawn, labels };
  };

  return { pressure, blocked, arcs, position, true: grown, wind };
};

// -- how it is drawn

const redrawn = (() => {
  const [FACE, CAPSULE, WIDTH] = [[284, 92], [203, 112], 36];
  const NEEDLE = [[-3, 8], [3, 8], [0, -35]];
  const DIAL_NEEDLE = [[-3.2, -46], [-2.4, -80], [0, -97], [2.4, -80], [3.2, -46]];
  const START = [130, 236];
  const HEAD = [[0, 0], [-4.5, 10], [4.5, 10]];
  const BESIDE = 52;

  const short = (value) => String(Math.round(value * 10) / 10 + 0);
  const point = ([x, y]) => `${short(x)} ${short(y)}`;
  const line = (points) => `M${points.map(point).join("L")}`;
  const place = ([low, high, start, end], value) => start + ((value - low) / (high - low)) * (end - start);
  const turned = (points, degrees, [left, top] = [0, 0]) => {
    const [cosine, sine] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
    return points.map(([x, y]) => [left + x * cosine - y * sine, top + x * sine + y * cosine]);
  };
  const spot = (x, y) => `${line([[x, y]])}h0`;

  const instrument = (ends, { shown, impact }) => {
    const [x, y] = CAPSULE;
    const high = place(ends[1], impact[0]);
    const bend = `A${short(WIDTH)} ${short(high)} 0 0 1`;
    return {
      capsule: `M${point([x - WIDTH, y])}${bend} ${point([x + WIDTH, y])}${bend} ${point([x - WIDTH, y])}Z`,
      rod: line([[x, y - high], [x, FACE[1]], FACE]),
      needle: `${line(turned(NEEDLE, place(ends[0], shown[0]), FACE))}Z`,
    };
  };
  const arcs = (ends, { at }) => ({ needle: `${line(turned(DIAL_NEEDLE, place(ends[0], at[0])))}Z` });
  const position = (ends, { at }) => {
    if (!at.length) return { gap: "", point: "" };
    const [x, y] = at.map((one, n) => place(ends[n], one));
    return { gap: line([[x, place(ends[1], 0)], [x, y]]), point: spot(x, y) };
  };
  const grown = (ends, { curve, at, cas }, { low, high }) => {
    const [x, y] = at.map((one, n) => place(ends[n], one));
    const height = (n) => place(ends[1], low + (n * (high - low)) / (curve.length - 1));
    return {
      curve: line(curve.map((one, n) => [place(ends[0], one), height(n)])),
      gap: line([[place(ends[0], cas[0]), y], [x, y]]),
      point: spot(x, y),
    };
  };
  const tips = (ends, { air: [across, along], ground }) => {
    const size = place(ends[0], 1);
    return [[START[0] + across * size, START[1] - along * size], [START[0], START[1] - ground[0] * size]];
  };
  const arrow = (from, to, heads, middle) => {
    const [x, y] = [to[0] - from[0], to[1] - from[1]];
    const long = Math.hypot(x, y);
    if (long < 1) return "";
    const degrees = (Math.atan2(x, -y) * 180) / Math.PI;
    const apart = Math.min(8, long / (heads + 1));
    const drawn = [line([from, to])];
    for (let n = 0; n < heads; n += 1) {
      const part = middle + ((apart * (heads - 1)) / 2 - apart * n + 5) / long;
      drawn.push(`${line(turned(HEAD, degrees, [from[0] + part * x, from[1] + part * y]))}Z`);
    }
    return drawn.join("");
  };
  const wind = (ends, drawn) => {
    const [tip, end] = tips(ends, drawn);
    return { along: arrow(START, end, 2, 0.3), air: arrow(START, tip, 1, 0.62), wind: arrow(tip, end, 3, 0.5) };
  };

  const placed = {
    true: (ends, { at }) => ({ tas: [place(ends[0], at[0]), place(ends[1], at[1]) - 9] }),
    wind: (ends, drawn) => {
      const [tip, end] = tips(ends, drawn);
      const way = tip[0] < START[0] ? -1 : 1;
      return {
        air: [(tip[0] + START[0]) / 2 + way * BESIDE, (tip[1] + START[1]) / 2 + 12],
        along: [START[0] - way * BESIDE, (end[1] + START[1]) / 2],
        wind: [(tip[0] + end[0]) / 2 + way * 28, (tip[1] + end[1]) / 2 - 8],
      };
    },
  };
  const paths = { pressure: instrument, blocked: instrument, arcs, position, true: grown, wind };
  const none = () => ({});
  return (lesson, ends, drawn, given) => ({
    paths: paths[lesson](ends, drawn, given),
    places: (placed[lesson] || none)(ends, drawn),
  });
})();

// -- the page

const teach = () => {
  const said = language(WORDS);
  const lessons = taught(AIRCRAFT);
  const spoken = first("main [role=status].unseen");
  const text = (one) => (one.limit ? said.limitPassed(one.limit) : said.text(one));
  let telling = 0;
  const speak = (words) => {
    clearTimeout(telling);
    telling = setTimeout(() => {
      spoken.textContent = words;
    }, 500);
  };

  const outcome = (section, state) => {
    try {
      return lessons[section.id](json(section, "given"), state);
    } catch (error) {
      if (error instanceof air.OutOfBounds) return null;
      throw error;
    }
  };
  const draw = (section, { drawn, labels = {} }) => {
    const { paths, places } = redrawn(section.id, json(section, "ends"), drawn, json(section, "given"));
    for (const [name, path] of Object.entries(paths)) first(`.move.${name}`, section).setAttribute("d", path);
    for (const [name, one] of Object.entries(labels)) {
      const words = one.id ? said.text(one) : said.withUnit(one);
      for (const label of all(`:is(.${name}, .at-${name}) > text`, first("svg", section))) label.textContent = words;
    }
    for (const [name, [x, y]] of Object.entries(places)) {
      const label = first(`.at-${name} > text`, section);
      label.setAttribute("x", x.toFixed(1));
      label.setAttribute("y", y.toFixed(1));
    }
  };
  const stands = (input) => {
    const names = json(input, "names");
    if (names.length) return names[input.value];
    const { unit } = input.dataset;
    return said.withUnit({ value: +input.value, unit, entered: unit === "deg" && input.value.padStart(3, "0") });
  };
  const show = (section) => {
    const inputs = all("input", section);
    for (const input of inputs) {
      const words = stands(input);
      first("output", input.closest(".slider")).textContent = words;
      input.setAttribute("aria-valuetext", words);
    }
    const found = outcome(section, Object.fromEntries(inputs.map((one) => [one.name, +one.value])));
    const words = found ? found.said.map(text) : [said.say("reckon-out-of-bounds")];
    first(".told", section).replaceChildren(...words.map((one) => add("p", one, "")));
    const desc = first("svg.taught desc", section);
    if (desc) desc.textContent = words.join(" ");
    if (found) draw(section, found);
    return words.join(" ");
  };

  for (const section of all("section.lesson[data-given]")) {
    first(".sliders", section).hidden = false;
    show(section);
    section.addEventListener("input", () => speak(show(section)));
  }
  const button = first("button[name=print]");
  button.hidden = false;
  button.addEventListener("click", () => print());
};

document.addEventListener("DOMContentLoaded", () => {
  if (first("section.lesson")) teach();
});
