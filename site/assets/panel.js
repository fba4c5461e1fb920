"use strict";

const panel = () => {
  const box = document.getElementById("reckon");
  const form = first("form", box);
  const said = language(WORDS);
  const work = reckoner(AIRCRAFT);
  const { unit, units } = AIRCRAFT;
  const names = [...form.elements].map((one) => one.name).filter(Boolean);
  const fields = Object.fromEntries(names.map((name) => [name, form.elements[name]]));
  const field = (name) => fields[name];
  const entries = {}; // what stands in each field, so that a key asks but the one that it changed
  const heed = (changed) => {
    for (const name of changed) entries[name] = field(name).value;
  };
  const usual = new URLSearchParams(new FormData(form)).toString();


  const value = (name) => (entries[name] ? +entries[name] : null);
  const picked = (name, otherwise) => entries[name] ?? otherwise;
  const wrong = () => all("input:invalid", form).find((one) => !one.closest("[hidden]"));

  const asked = () => {
    const byAltimeter = picked("height") === "altimeter";
    const [altitude, setting, degrees] = ["altitude", "setting", "temperature"].map(value);
    const altimeter = byAltimeter && altitude !== null && setting !== null;
    const wind = value("from") !== null && value("wind") !== null;
    return {
      known: picked("known"),
      speed: value("speed"),
      flaps: picked("flaps", AIRCRAFT.flaps[0]),
      gear: picked("gear", ""),
      source: picked("source", "normal"),
      pressureAltitude: byAltimeter ? null : altitude,
      altimeter: altimeter ? { shown: altitude, setting: air.toSi(setting, setting < 100 ? "inHg" : "hPa") } : null,
      oat: picked("warmth") === "oat" ? degrees : null,
      isa: picked("warmth") === "isa" ? degrees : null,
      wind: wind ? [value("from"), value("wind")] : null,
      course: value("course"),
      weight: value("weight"),
      bank: value("bank") || 0,
    };
  };


  const BEGINS = "#reckon?";
  const address = () => BEGINS + new URLSearchParams(new FormData(form));
  const keep = () => {
    const own = new URLSearchParams(new FormData(form)).toString() === usual ? "#reckon" : address();
    first(".sent", box).href = address();
    if (location.hash.startsWith("#reckon") || own !== "#reckon") history.replaceState(null, "", own);
  };
  const put = (text) => {
    for (const [name, given] of new URLSearchParams(text)) {
      if (!field(name)) continue;
      const before = field(name).value;
      field(name).value = given;
      if (field(name).tagName === "SELECT" && field(name).selectedIndex < 0) field(name).value = before;
    }
  };
  const fromAddress = () => {
    if (location.hash.startsWith(BEGINS)) put(location.hash.slice(BEGINS.length));
  };


  const element = (kind, classes, ...inside) => {
    const made = document.createElement(kind);
    if (classes) made.className = classes;
    made.append(...inside.filter(Boolean));
    return made;
  };
  const renew = (name, made) => {
    const where = first(name, box);
    while (where.children.length > made.length) where.lastChild.remove();
    made.forEach((one, at) => {
      const old = where.children[at];
      if (!old) where.append(one);
      else if (!old.isEqualNode(one)) old.replaceWith(one);
    });
  };
  const airSteps = ({ values }, given) => {
    const known = [
      ["pressure-altitude", values.pressure_altitude, units.altitude, 0, "plain", given.altimeter && "pressure-altitude"],
      ["density-altitude-name", values.density_altitude, units.altitude, 0, "plain", "density-altitude"],
      ["isa-deviation", values.isa_deviation, units.temperature, 1, "signed", ""],
    ];
    return known
      .filter(([, found]) => found !== null)
      .map(([id, found, of, decimals, form_, formula]) => ({
        id, quantity: { value: +found.toFixed(6) + 0, unit: of, decimals }, reason: null, form: form_, formula, page: "",
      }));
  };

  const chain = ({ steps, values }) => {
    const found = Object.fromEntries(steps.map((one) => [one.id, one]));
    const wind = values.ground_speed !== null && values.ground_speed - values.true_airspeed;
    const gain = { quantity: { value: +(wind || 0).toFixed(6), unit, decimals: 1 }, form: "signed", id: "wind" };
    const ways = [
      ["indicated"], ["instrument", "instrument"], ["position", "position"], ["cas"],
      ["compressibility", "compressibility"], ["eas"], ["density", "density"], ["tas"],
    ].filter(([id]) => found[id]);
    const links = ways.map(([id, way]) => linked(found[id], way));
    if (wind !== false) links.push(linked(gain, "wind"), linked(found["ground-speed"], "ground"));
    return links;
  };
  const titles = {}; // of links: the same for every case
  const titled = (id) => (titles[id] ??= said.say(id));
  const linked = (step, way) => {
    const [number, of] = said.figure(step);
    const small = way && way !== "ground";
    const name = titled(way ? `reckon-way-${way}` : `step-${step.id}`);
    return { number, kind: small ? "by" : "speed", name: small ? name : `${name} ${of}`.trim() };
  };
  const link = ({ number, kind, name }) => element("li", kind, element("b", "", number), element("small", "", name));
  const way = first(".way", box);
  let standing = "";
  const renewWay = (links) => {
    const named = links.map(({ kind, name }) => `${kind} ${name}`).join();
    if (named !== standing) way.replaceChildren(...links.map(link));
    else {
      links.forEach(({ number }, at) => {
        const { firstChild: figure } = way.children[at].firstChild;
        if (figure.data !== number) figure.data = number;
      });
    }
    standing = named;
  };

  const worked = (one) => {
    const [name, number, of, reason] = said.line(one);
    const formula = one.formula && element("a", "", said.say("reckon-by", { formula: said.say(`formula-${one.formula}`) }));
    if (formula) formula.href = box.dataset.formulas + one.formula;
    const arithmetic = one.working && element("span", "arithmetic", said.text(one.working));
    const strong = ["indicated", "cas", "eas", "tas", "ground-speed", "stall"].includes(one.id);
    return element(
      "li",
      strong ? "whole" : "",
      element("span", "name", name),
      " ",
      element("b", "", `${number} ${of}`.trim()),
      " ",
      element("span", "why", reason, arithmetic && " ", arithmetic, formula && " ", formula),
    );
  };

  const arcSaid = (shown) => {
    const markings = AIRCRAFT.markings;
    if (!markings || shown === null) return null;
    const red = (markings.lines || []).find((one) => one.name === "red-line");
    if (red && shown > red.at + 1e-6) return said.say("reckon-above-red");
    const arcs = (markings.arcs || []).filter((one) => shown >= one.low - 1e-6 && shown <= one.high + 1e-6);
    if (!arcs.length) return said.say("reckon-no-arc");
    const names = arcs.map((one) => ({ id: `drawing-${one.name}`, values: {} }));
    const joined = names.reduce((one, other) => ({ id: "reckon-arcs", values: { one, other } }));
    return said.say("reckon-arc", { arcs: joined });
  };

  const limitsSaid = ({ passed, inForce, values }) => {
    const beyond = passed.map((one) => [one.binding ? "beyond" : "care", said.limitPassed(one)]);
    if (values.stall_margin !== null && values.stall_margin < -1e-6) {
      const stall = { value: +values.stall_speed.toFixed(6), unit, sense: "minimum" };
      beyond.unshift(["beyond", said.say("reckon-below-stall", { stall })]);
    }
    if (passed.some((one) => one.binding)) return beyond;
    const limits = inForce.map(({ speed, limit, asCas }) => ({
      id: "reckon-in-force",
      values: { speed, limit: asCas ? { id: "given-cas", values: { speed: limit } } : limit },
    }));
    const within = limits.length ? said.say("reckon-within", { limits }) : said.say("reckon-no-limit");
    return [...beyond, ["", within]];
  };
  const told = first(".told", box);
  let toldLast = "";
  const renewTold = (limits, others) => {
    const now = JSON.stringify([limits, others]);
    if (now === toldLast) return;
    toldLast = now;
    const list = limits.length ? [element("ul", "limits", ...limits.map((one) => element("li", ...one)))] : [];
    told.replaceChildren(...list, ...others.map((one) => element("p", ...one)));
  };

  const rough = (found, of, decimals = 0) => ({ value: +found.toFixed(6) + 0, unit: of, decimals });
  const isGrave = (note) => ["note-below-VMC", "note-too-heavy"].includes(note.id);
  const spoken = ({ values, steps, passed, notes }, given) => {
    const { indicated_airspeed: ias, calibrated_airspeed: cas, true_airspeed: tas, ground_speed: ground } = values;
    let so = { id: "spoken-nothing", values: {} };
    if (ias !== null && cas !== null) so = { id: "spoken-ias", values: { ias: rough(ias, unit), cas: rough(cas, unit) } };
    else if (ias !== null) so = { id: "spoken-ias-only", values: { ias: rough(ias, unit) } };
    else if (cas !== null) so = { id: "spoken-no-ias", values: { cas: rough(cas, unit) } };
    const then = (id, more) => {
      so = { id, values: { before: so, ...more } };
    };
    if (tas !== null) then("spoken-tas", { tas: rough(tas, unit), altitude: rough(values.pressure_altitude, units.altitude) });
    const heading = steps.find((one) => one.id === "heading");
    if (ground !== null) then("spoken-ground", { speed: rough(ground, unit), heading: said.figure(heading)[0] });
    const sure = passed.filter((one) => !one.bound.when);
    if (sure.length) then("spoken-limits", { speeds: sure.map((one) => one.speed) });
    else if (!notes.some(isGrave)) then("spoken-no-limit", {});
    const stall = given.weight !== null && values.stall_speed !== null;
    if (stall) then("spoken-stall", { stall: { ...rough(values.stall_speed, unit), sense: "minimum" } });
    return said.say("spoken", { all: so });
  };


  const mark = (svg, d, transform = "") => {
    const old = first(".case", svg);
    if (old) old.remove();
    if (!d) return;
    const path = document.createElementNS(svg.namespaceURI, "path");
    path.setAttribute("class", "case");
    path.setAttribute("d", d);
    if (transform) path.setAttribute("transform", transform);
    svg.append(path);
  };
  const along = ([low, high, start, end], at) => start + ((at - low) / (high - low)) * (end - start);
  const within = ([low, high], at) => at !== null && at >= low - 1e-9 && at <= high + 1e-9;
  const ROUND = "m-5 0a5 5 0 1 0 10 0a5 5 0 1 0 -10 0z";
  const point = (svg, axes, across, up) => {
    if (!svg || !axes) return;
    const inside = within(axes[0], across) && within(axes[1], up);
    mark(svg, inside ? `M${along(axes[0], across).toFixed(1)} ${along(axes[1], up).toFixed(1)}${ROUND}` : "");
  };
  const draw = ({ values }) => {
    const { drawn } = AIRCRAFT;
    const { indicated_airspeed: shown, calibrated_airspeed: cas } = values;
    if (drawn.scale) {
      const [low, high] = drawn.scale;
      const part = shown === null ? null : Math.min(Math.max((shown - low) / (high - low), 0), 1.03);
      const [begins, sweep] = drawn.dial;
      for (const svg of all("svg.dial")) {
        mark(svg, part === null ? "" : "M-3.2 -46L-2.4 -80L0 -97L2.4 -80L3.2 -46Z", `rotate(${(begins + sweep * (part || 0)).toFixed(1)})`);
      }
      const [top, bottom] = drawn.ladder;
      const y = (bottom - (bottom - top) * (part || 0)).toFixed(1);
      for (const svg of all("svg.ladder")) mark(svg, part === null ? "" : `M77 ${y}l14 -7v14z`);
    }
    point(first("svg.calibration"), drawn.calibration, shown, cas === null || shown === null ? null : cas - shown);
    point(first("svg.tas"), drawn["true-airspeed"], values.true_airspeed, values.pressure_altitude);
  };
  const own = () => {
    const dial = first(".face .dial");
    if (!dial) return;
    const copy = dial.cloneNode(true);
    copy.removeAttribute("role");
    for (const words of all("title, desc", copy)) words.remove();
    first(".drawn", box).append(copy);
  };


  const QUIET = 400; // ms without a key, after which what a screen reader says is renewed
  let [telling, untold] = [0, ""];
  const tell = () => {
    clearTimeout(telling);
    if (first(".spoken", box).textContent !== untold) first(".spoken", box).textContent = untold;
  };
  const speak = (text) => {
    clearTimeout(telling);
    untold = text;
    telling = setTimeout(tell, QUIET);
  };
  const refuse = (text) => {
    afterwards(keep);
    renewWay([]);
    renew(".working", []);
    renewTold([], [["beyond", text]]);
    draw({ values: { indicated_airspeed: null, calibrated_airspeed: null, true_airspeed: null, pressure_altitude: null } });
    speak(text);
  };

  const subscale = field("setting").closest(".field"); // only an altimeter has one
  const follow = () => {
    const spared = picked("height") !== "altimeter";
    if (subscale.hidden !== spared) subscale.hidden = spared;
  };
  const SOON = 60; // ms
  let [waiting, rest] = [0, null];
  const finish = () => {
    clearTimeout(waiting);
    if (rest) rest();
    rest = null;
  };
  const afterwards = (left) => {
    clearTimeout(waiting);
    rest = left;
    waiting = setTimeout(finish, SOON);
  };
  let marked;
  const show = (event) => {
    heed(event ? [event.target.name] : names);
    follow();
    const sound = event && event.target.type === "number" && !marked && event.target.validity.valid;
    const bad = sound ? undefined : wrong();
    if (bad !== marked) {
      if (marked) marked.ariaInvalid = null;
      if (bad) bad.ariaInvalid = "true";
      marked = bad;
    }
    const named = (one) => first("span", one.closest("label")).textContent;
    if (bad || value("speed") === null) return refuse(said.say("reckon-not-a-number", { field: named(bad || field("speed")) }));
    const given = asked();
    let done;
    try {
      done = work(given);
    } catch (error) {
      if (error instanceof air.OutOfBounds) return refuse(said.say("reckon-out-of-bounds"));
      throw error;
    }
    renewWay(chain(done));
    const arc = arcSaid(done.values.indicated_airspeed);
    renewTold(limitsSaid(done), [
      ...(arc ? [["arc", arc]] : []),
      ...done.notes.map((one) => [isGrave(one) ? "care" : "note", said.text(one)]),
    ]);
    afterwards(() => {
      keep();
      renew(".working", [...done.altimeter, ...airSteps(done, given), ...done.steps, ...done.stall].map(worked));
      draw(done);
      speak(spoken(done, given));
    });
  };

  const showAll = () => {
    show();
    finish();
    tell();
  };

  const printed = () => {
    finish();
    root.classList.add("one-case");
    addEventListener("afterprint", () => root.classList.remove("one-case"), { once: true });
    print();
  };

  own();
  fromAddress();
  box.hidden = false;
  for (const one of all(".bar .reckon")) one.hidden = false;
  form.addEventListener("input", show);
  form.addEventListener("submit", (event) => event.preventDefault());
  addEventListener("hashchange", () => {
    fromAddress();
    showAll();
  });
  first(".sent", box).addEventListener("click", finish);
  first("[name=print]", box).addEventListener("click", printed);
  first("[name=usual]", box).addEventListener("click", () => {
    form.reset();
    showAll();
  });
  showAll();
};

document.addEventListener("DOMContentLoaded", () => {
  if (document.getElementById("reckon")) panel();
});
