"use strict";

const transition = (first, second) => {
  const LEAST = 1; // of the indicator's unit: what is less nobody flies by
  const PAINTED_NEAR = 1.1;
  const APPROACH = 1.3;
  const CORRECTED = [1.3, 1.6, 2, 2.5]; // times the stall
  const OWN_WORDS = ["VFE full", "VNE", "VNO", "VA", "VLE"];

  const kept = (value) => +value.toFixed(6) + 0;
  const isNumber = (value) => !Number.isNaN(value);
  const message = (id, values = {}) => ({ id, values });
  const CALLED = "called "; // begins the name of a mark that is called as the manual calls it
  const marking = (name) =>
    name.startsWith(CALLED) ? message("next-mark", { words: name.slice(CALLED.length) }) : message(`marking-${name}`);
  const speed = (value, decimals = 0) => ({ value: kept(value), unit: second.unit, decimals });
  const intoSecond = (value) => air.convert(value, first.unit, second.unit);
  const intoFirst = (value) => air.convert(value, second.unit, first.unit);

  // -- what is asked of one

  const valueOf = (one) => {
    if (!one) return null;
    const { value, entered, sense = "target", decimals = 0 } = one;
    return entered ? value : rounded(value, sense, decimals);
  };
  const facts = (one) => {
    const found = (key) => {
      if (!(key in one.speeds)) return null;
      const [block, name, quantity] = one.speeds[key];
      return { key, block, name, quantity, value: valueOf(quantity) };
    };
    const read = ({ x, y }, value) => {
      if (!(value >= x[0] && value <= x[x.length - 1])) return NaN;
      const above = x.findIndex((end) => end > value);
      if (above < 0) return y[y.length - 1];
      const at = above - 1;
      return ((y[above] - y[at]) / (x[above] - x[at])) * (value - x[at]) + y[at];
    };
    const table = (flaps, source) => {
      const fitting = one.calibration.filter((curve) => (curve.flaps || "") === (flaps || one.flaps[0]) && (curve.static_source || "normal") === source);
      return fitting.find((curve) => !curve.gear) || fitting[0];
    };
    const error = (shown, source = "normal", flaps = "") => {
      const curve = table(flaps, source);
      const corrected = one.bench ? read(one.bench, shown) : shown;
      const cas = curve ? read(curve, air.convert(corrected, one.unit, one.manual)) : NaN;
      return air.convert(cas, one.manual, one.unit) - shown;
    };
    const shownAtIas = (ias) => {
      const own = air.convert(ias, one.manual, one.unit);
      return one.bench ? read({ x: one.bench.y, y: one.bench.x }, own) : own;
    };
    return {
      ...one,
      found,
      error,
      shownAtIas,
      keys: Object.keys(one.speeds),
      stall: found("VS0") || found("VS1 clean"),
      approach: found("VREF") || found("approach"),
      alternate: one.calibration.find((curve) => curve.static_source === "alternate"),
      full: one.flaps[one.flaps.length - 1],
      has: one.flaps.length > 1,
    };
  };
  const [one, other] = [facts(first), facts(second)];
  const both = other.keys.filter((key) => one.found(key)).map((key) => [key, one.found(key), other.found(key)]);
  const less = (before, here) => {
    const by = intoSecond(before.value) - here.value;
    return Math.abs(by) >= LEAST - 1e-9 ? by : 0;
  };
  const said = (rule, values = {}) => message(`next-${rule}`, values);
  const compared = (rule, here, by) => said(rule, { name: here.name, speed: here.quantity, by: speed(by) });

  // -- the rules, each with its weight

  const RULES = [];
  const differs = (name, weight, find) => RULES.push([name, weight, find]);

  differs("another-unit", 100, function* () {
    if (first.unit === second.unit) return;
    const there = { value: kept(intoSecond(100)), unit: second.unit };
    yield [1, said("another-unit", { one: { value: 100, unit: first.unit }, other: there })];
  });
  differs("gear-retracts", 90, function* () {
    if (!other.retracts || one.retracts) return;
    const most = other.found("VLO gear-down") || other.found("VLO") || other.found("VLE");
    const up = other.found("VLO gear-up");
    const both = most && up && up.quantity.value !== most.quantity.value;
    if (both) yield [1, said("gear-retracts-both", { speed: most.quantity, up: up.quantity })];
    else yield [1, most ? said("gear-retracts-below", { speed: most.quantity }) : said("gear-retracts")];
  });
  differs("one-engine-out", 80, function* () {
    const control = other.found("VMC");
    if (control && !one.found("VMC")) yield [1, said("one-engine-out", { speed: control.quantity })];
  });
  differs("no-engine", 80, function* () {
    if (other.kind === "glider" && one.kind !== "glider") yield [1, said("no-engine")];
  });
  differs("flaps-now", 30, function* () {
    if (other.has && !one.has) yield [1, said("flaps-now", { settings: other.flaps })];
  });
  differs("mach-limit", 20, function* () {
    if (other.mach && !one.mach) yield [1, said("mach-limit", { mach: other.mach })];
  });

  const paintedAbove = () => {
    const known = one.tightened.map((each) => each.speed);
    const ends = Object.values(other.arcs).flat().filter((end) => end !== null);
    return other.tightened.flatMap(({ speed: name, at }) => {
      if (known.includes(name)) return [];
      const limit = rounded(at, "maximum", 0);
      const near = ends.filter((end) => limit + LEAST <= end && end <= PAINTED_NEAR * limit);
      return near.length ? [[name, limit, kept(Math.min(...near))]] : [];
    });
  };
  differs("lower-limit", 4, function* () {
    const most = new Map();
    const painted = paintedAbove().map(([name, limit]) => `${name} ${limit}`);
    for (const [key, before, here] of both) {
      const name = key.split(" ")[0];
      const by = less(before, here);
      if (here.quantity.sense !== "maximum" || !(by > 0) || painted.includes(`${name} ${here.value}`)) continue;
      const own = OWN_WORDS.includes(key) ? `-${key.replaceAll(" ", "-")}` : "";
      const size = by / here.value;
      if (!most.has(name) || size > most.get(name)[0]) most.set(name, [size, compared(`lower-limit${own}`, here, by)]);
    }
    yield* most.values();
  });
  differs("limit-now", 2, function* () {
    for (const name of ["VNO", "VA", "VRA", "VB"]) {
      const here = other.found(name);
      if (here && !one.found(name)) yield [0.1, said("limit-now", { name: here.name, speed: here.quantity })];
    }
  });
  differs("higher-stall", 5, function* () {
    const clean = [one, other].map((each) => each.found("VS1 clean"));
    const more = (before, here) => (before && here ? -less(before, here) : 0);
    const landing = more(one.stall, other.stall);
    if (landing > 0) yield [landing / other.stall.value, compared("higher-stall", other.stall, landing)];
    const own = one.found("VS0") && other.found("VS0");
    const by = own ? more(...clean) : 0;
    if (by > 0) yield [(0.3 * by) / clean[1].value, compared("higher-stall", clean[1], by)];
  });
  differs("higher-minimum", 3, function* () {
    for (const [key, before, here] of both) {
      if (key.startsWith("VS") || here.quantity.sense !== "minimum") continue;
      const by = -less(before, here);
      if (by > 0) yield [by / here.value, compared("higher-minimum", here, by)];
    }
  });
  differs("paint-above-limit", 6, function* () {
    for (const [name, limit, painted] of paintedAbove()) {
      const shown = { value: limit, unit: second.unit, sense: "maximum" };
      const values = { name: message(`speed-${name}`), limit: shown, painted: { value: painted, unit: second.unit } };
      yield [(painted - limit) / painted, said("paint-above-limit", values)];
    }
  });
  differs("indicator-off", 4, function* () {
    if (!other.bench || one.bench) return;
    const offs = other.bench.x.map((x, n) => [x, other.bench.y[n] - x]);
    const [at, by] = offs.reduce((most, each) => (Math.abs(each[1]) > Math.abs(most[1]) ? each : most));
    if (Math.abs(by) < LEAST) return;
    yield [Math.abs(by) / at, said(by > 0 ? "indicator-low" : "indicator-high", { speed: speed(at), by: speed(Math.abs(by)) })];
  });
  differs("bench-gone", 4, function* () {
    if (one.bench && !other.bench) yield [0.005, said("bench-gone")];
  });
  differs("other-correction", 4, function* () {
    if (!other.stall) return;
    const shown = other.approach ? other.approach.value : APPROACH * other.stall.value;
    const here = other.error(shown, "normal", other.full);
    const there = intoSecond(one.error(intoFirst(shown), "normal", one.full));
    if (!(Math.abs(here - there) >= 2 * LEAST)) return;
    const [at, cas, before] = [shown, shown + here, shown + there].map((each) => speed(each));
    yield [Math.abs(here - there) / shown, said("other-correction", { speed: at, cas, before })];
  });
  differs("alternate-source", 2, function* () {
    const [before, table] = [one.alternate, other.alternate];
    if (!table) {
      if (before) yield [0.01, said("no-alternate-source")];
      return;
    }
    const shown = rounded(other.shownAtIas((table.x[0] + table.x[table.x.length - 1]) / 2) / 10, "target", 0) * 10;
    if (!isNumber(shown)) return;
    const here = other.error(shown, "alternate", table.flaps);
    const there = before ? intoSecond(one.error(intoFirst(shown), "alternate", before.flaps)) : NaN;
    if (!(Math.abs(here) >= 2 * LEAST) || Math.abs(here - there) < 2 * LEAST) return;
    const size = Math.abs(here - (isNumber(there) ? there : 0)) / shown;
    yield [size, said(here > 0 ? "alternate-low" : "alternate-high", { speed: speed(shown), by: speed(Math.abs(here)) })];
  });
  differs("slower-approach", 2, function* () {
    const by = one.approach && other.approach ? less(one.approach, other.approach) : 0;
    if (by > 0) yield [by / other.approach.value, compared("slower-approach", other.approach, by)];
  });
  differs("other-glide", 2, function* () {
    const [before, here] = [one, other].map((each) => each.found("best glide"));
    const by = before && here ? less(before, here) : 0;
    if (by) yield [Math.abs(by) / here.value, compared(by > 0 ? "glide-slower" : "glide-faster", here, Math.abs(by))];
  });
  differs("worse-glide", 1, function* () {
    const [before, ratio] = [one.glide, other.glide];
    if (before && ratio && ratio.value < before.value) {
      yield [Math.min(1, before.value / ratio.value - 1), said("worse-glide", { ratio, before })];
    }
  });
  differs("lower-crosswind", 2, function* () {
    const [before, wind] = [one.crosswind, other.crosswind];
    if (!before || !wind) return;
    const was = air.convert(before.value, before.unit, wind.unit);
    if (wind.value < was - 0.5) yield [was / wind.value - 1, said("lower-crosswind", { wind, before })];
  });
  differs("other-flaps", 1, function* () {
    const same = JSON.stringify(one.flaps) === JSON.stringify(other.flaps);
    if (!same && one.has && other.has) yield [0.2, said("other-flaps", { settings: other.flaps, before: one.flaps })];
  });
  differs("no-flaps", 1, function* () {
    if (one.has && !other.has) yield [0.3, said("no-flaps")];
  });
  differs("gear-fixed", 1, function* () {
    if (one.retracts && !other.retracts) yield [0.2, said("gear-fixed")];
  });
  differs("faster-cruise", 0.5, function* () {
    if (!one.cruise || !other.cruise) return;
    const more = other.cruise.value - air.convert(one.cruise.value, one.cruise.unit, second.unit);
    if (more >= 5 * LEAST) yield [more / other.cruise.value, said("faster-cruise", { speed: other.cruise, by: speed(more) })];
  });
  differs("other-arcs", 0.5, function* () {
    const [before, here] = [one, other].map((each) => Object.keys(each.arcs));
    const lacking = (from, names) => names.filter((name) => !from.includes(name)).sort();
    for (const name of before.length ? lacking(before, here) : []) yield [0.1, said("arc-now", { arc: marking(name) })];
    for (const name of here.length ? lacking(here, before) : []) yield [0.1, said("arc-gone", { arc: marking(name) })];
  });

  const told = RULES.flatMap(([rule, weight, find]) =>
    [...find()].map(([size, sentence]) => ({ rule, said: sentence, danger: kept(weight * size) })),
  ).sort((a, b) => b.danger - a.danger);

  // -- all figures side by side

  const line = (name, before, here, more = null) => ({ name, first: before, second: here, more });
  const unique = (...lists) => [...new Set(lists.flat())];
  const quantityOf = (each) => (each ? each.quantity : null);

  const block = (id) => {
    const in_ = (each) => each.keys.filter((key) => each.found(key).block === id);
    return unique(in_(other), in_(one)).map((key) => {
      const [before, here] = [one, other].map((each) => (in_(each).includes(key) ? each.found(key) : null));
      const name = (here || before).name;
      const differ = before && here && JSON.stringify(before.name) !== JSON.stringify(here.name);
      const named = differ ? message("next-either", { one: before.name, other: here.name }) : name;
      return line(named, quantityOf(before), quantityOf(here), before && here && speed(here.value - intoSecond(before.value)));
    });
  };
  const span = (each, name) => {
    if (!(name in each.arcs)) return null;
    const [low, high] = each.arcs[name];
    return { value: kept(low), unit: each.unit, high };
  };
  const reads = (each) => message("unit", { unit: { symbol: each.unit } });
  const dial = () => [
    line(message("fact-reads"), reads(one), reads(other)),
    ...unique(Object.keys(other.arcs), Object.keys(one.arcs)).map((name) =>
      line(marking(name), span(one, name), span(other, name)),
    ),
  ];
  const even = (value) => {
    const down = Math.floor(value);
    return value - down === 0.5 ? down + (down % 2) : Math.round(value);
  };
  const corrections = () =>
    (other.has ? [0, 1] : [0]).flatMap((full) =>
      (other.stall ? CORRECTED : []).flatMap((times) => {
        const shown = 5 * even((times * other.stall.value) / 5);
        const [before, flaps] = [one, other].map((each) => (full ? each.full : each.flaps[0]));
        const here = other.error(shown, "normal", flaps);
        const there = intoSecond(one.error(intoFirst(shown), "normal", before));
        if (!isNumber(here)) return [];
        const name = message("next-at", { speed: speed(shown), setting: message("flaps", { flaps }) });
        const added = [there, here].map((each) => (isNumber(each) ? speed(each, 1) : null));
        return [line(name, ...added, isNumber(there) ? speed(here - there, 1) : null)];
      }),
    );
  const besides = () => [
    line(message("next-flaps"), ...[one, other].map((each) => message("several", { parts: each.flaps }))),
    ...["weight", "cruise", "mach", "glide", "crosswind"]
      .filter((name) => one[name] || other[name])
      .map((name) => {
        const [before, here] = [one[name], other[name]];
        const known = before && here && air.isUnit(before.unit) && air.isUnit(here.unit);
        const more = known ? { value: kept(here.value - air.convert(before.value, before.unit, here.unit)), unit: here.unit } : null;
        return line(message(`next-${name}`), before, here, more);
      }),
  ];

  const tables = [
    ...["limits", "one-engine", "flown"].map((id) => [id, message(`block-${id}`), block(id)]),
    ["markings", message("title-markings"), dial()],
    ["corrections", message("next-corrections"), corrections()],
    ["else", message("next-else"), besides()],
  ];
  const beside = tables.filter(([, , lines]) => lines.length).map(([id, title, lines]) => ({ id, title, lines }));
  return { told, beside };
};
