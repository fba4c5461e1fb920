{# Theme, units, the finder of the fleet's page, and where a number comes from. All of it is extra:
without it each table has a list of where its numbers come from. What it says stands on the page:
JSON lists of words and of blanks. #}
"use strict";
const root = document.documentElement;
const first = (what, where = document) => where.querySelector(what);
const all = (what, where = document) => [...where.querySelectorAll(what)];

const parsed = new Map();
const json = (element, name) => {
  const text = element.dataset[name];
  if (text && !parsed.has(text)) parsed.set(text, JSON.parse(text));
  return text ? parsed.get(text) : {};
};

const filled = (parts, ...values) => parts.map((part) => (typeof part === "number" ? values[part] : part));
const fill = (...given) => filled(...given).join("");

const add = (kind, text, classes = "added") => {
  const added = document.createElement(kind);
  added.className = classes;
  added.textContent = text;
  return added;
};

{# -- theme: set before the page is drawn, so that no white page flashes at night #}

const stored = () => {
  try {
    return localStorage.getItem("theme");
  } catch {
    return null; // storage may be barred
  }
};

const dress = (theme) => {
  if (["light", "dark", "night", "red"].includes(theme)) root.dataset.theme = theme;
  else delete root.dataset.theme;
  const paper = getComputedStyle(root).getPropertyValue("--paper").trim();
  first('meta[name="theme-color"]').content = paper;
  const chosen = first(`input[name="theme"][value="${theme || "auto"}"]`);
  if (chosen) chosen.checked = true;
};

const choose = (theme) => {
  dress(theme);
  try {
    localStorage.setItem("theme", theme);
  } catch {
    {# it lasts for this page only #}
  }
};

const themes = () => {
  const box = first(".theme");
  box.hidden = false;
  box.addEventListener("change", (event) => choose(event.target.value));
  box.addEventListener("focusout", (event) => {
    if (event.relatedTarget && !box.contains(event.relatedTarget)) box.open = false;
  });
  box.addEventListener("keydown", (event) => {
    if (event.key !== "Escape") return;
    box.open = false;
    first("summary", box).focus();
  });
  document.addEventListener("click", (event) => {
    if (!box.contains(event.target)) box.open = false;
  });
  dress(stored());
};

dress(stored());
addEventListener("pageshow", () => dress(stored()));
addEventListener("storage", () => dress(stored()));
matchMedia("(prefers-color-scheme: dark)").addEventListener("change", () => dress(stored()));

{# -- where a number comes from #}

const printed = new Map(); // text nodes of the page, as they came
const nodeOf = (element) => [...element.childNodes].find((node) => node.nodeType === 3 && node.data.trim());
const textOf = (cell) => {
  const node = nodeOf(cell);
  return node ? (printed.get(node) || node.data).trim() : cell.textContent;
};

{# A number as render/origins.py writes it: what is as in most of its column is left out. #}
const figureOf = (cell, small = false) => {
  const table = json(cell.closest("table"), "figures");
  const at = cell.cellIndex - (table.first || 0);
  const entry = json(cell.parentElement, small ? "small" : "n")[at];
  if (entry === undefined || entry === "") return null;
  const [value, ...rest] = [].concat(entry);
  const own = rest.filter((one) => typeof one === "string");
  const [how, sentence] = rest.slice(0, rest.length - own.length);
  const usual = (list) => list && list[Math.min(at, list.length - 1)];
  const one = (list, place, most) => (list || [])[(place ?? usual(most) ?? 0) - 1];
  return {
    value,
    how: one(table.hows, how, small ? table.smallHow : table.how),
    sentence: one(table.sentences, sentence, small ? table.smallSentence : table.sentence),
    shown: usual(table.shown),
    form: usual(table.form),
    fills: (blank) => usual((table.blanks || {})[blank]) ?? own.shift(),
  };
};

const numbers = (table) => all("tr:is([data-n], [data-small]) > *", table);

const sentenceOf = (cell, small) => {
  const { sentence, fills } = figureOf(cell, small) || {};
  const row = cell.parentElement;
  const words = (blank) => {
    if (blank < 0) return textOf(row.cells[-1 - blank]);
    return json(row, "blanks")[blank] ?? json(row.parentElement, "blanks")[blank] ?? fills(blank);
  };
  return (sentence || []).map((part) => (typeof part === "number" ? words(part) : part));
};

{# A list of words, and of formulas' titles by their places. #}
const originOf = (cell, bar) => {
  const [large, small] = [sentenceOf(cell), sentenceOf(cell, true)];
  const both = large.length && small.length;
  const said = both ? filled(json(bar, "both"), large, small).flat() : [...large, ...small];
  return cell.dataset.printed ? filled(json(bar, "was"), [cell.dataset.printed], said).flat() : said;
};

const linked = (bar, formula) => {
  const [[place, title]] = Object.entries(formula);
  const link = add("a", title, "");
  link.href = bar.dataset.formulas + place;
  return link;
};

const numberAt = (target) => target.closest && target.closest(":is(td, th)[data-o]");
const cellAt = (target) => target.closest && target.closest("table.figures tbody tr:not(.block) > *");

const say = (bar, cell) => {
  const said = cell ? originOf(cell, bar) : [];
  bar.replaceChildren(...said.map((part) => (typeof part === "string" ? part : linked(bar, part))));
  bar.hidden = !cell;
};

{# -- the row and the column of the cell in hand #}

const columnHead = (table, index) => {
  let at = 0;
  const [first, second] = table.tHead.rows;
  const below = second ? [...second.cells] : [];
  for (const head of first.cells) {
    const wide = head.rowSpan > 1 || !second ? 1 : head.colSpan;
    const own = head.rowSpan > 1 || !second ? [head] : below.splice(0, wide);
    if (index < at + wide) return own[index - at];
    at += wide;
  }
  return null;
};

const light = (cell) => {
  for (const lit of all(".lit")) lit.classList.remove("lit", "here");
  if (!cell) return;
  const table = cell.closest("table");
  const column = [...table.rows].filter((row) => row.parentElement.tagName === "TBODY" && !row.matches(".block"));
  const cross = [...cell.parentElement.cells, ...column.map((row) => row.cells[cell.cellIndex])];
  for (const one of [...cross, columnHead(table, cell.cellIndex)]) if (one) one.classList.add("lit");
  cell.classList.add("here");
};

{# -- arrow keys walk the numbers of a table #}

const step = (cell, key) => {
  const rows = [...cell.closest("table").querySelectorAll("tbody tr:not(.block)")];
  const aside = { ArrowLeft: -1, ArrowRight: 1 }[key] || 0;
  const down = { ArrowUp: -1, ArrowDown: 1 }[key] || 0;
  let next = cell;
  do {
    const there = rows[rows.indexOf(next.parentElement) + down];
    next = there && there.cells[next.cellIndex + aside];
  } while (next && next.dataset.o === undefined);
  return next;
};

{# The cell in hand is the one of its table that the tab key comes to. #}
const take = (cell) => {
  for (const other of all('[tabindex="0"]', cell.closest("table"))) other.tabIndex = -1;
  cell.tabIndex = 0;
  cell.focus();
};

const walk = (event) => {
  const cell = numberAt(event.target);
  const next = cell && event.key.startsWith("Arrow") && step(cell, event.key);
  if (!next) return;
  event.preventDefault();
  take(next);
};

const origins = () => {
  const bar = document.getElementById("origin");
  for (const table of all("table[data-figures]")) {
    for (const cell of numbers(table)) {
      const figures = [figureOf(cell), figureOf(cell, true)];
      if (figures.some((figure) => figure && figure.sentence)) cell.dataset.o = "";
    }
    const entry = first("td[data-o]", table);
    if (entry) entry.tabIndex = 0;
  }
  let shown = null;
  let tapped = null; // a second tap on it hides the bar
  const show = (cell) => {
    if (cell === shown) return;
    shown = cell;
    say(bar, cell && numberAt(cell));
    light(cell);
  };
  const at = (target) => {
    const active = document.activeElement;
    const cell = cellAt(target) || cellAt(active);
    bar.classList.toggle("held", !!cellAt(active) || bar.contains(active));
    if (cell || !bar.contains(target)) show(cell);
  };
  const hide = () => {
    if (bar.contains(document.activeElement)) shown.focus();
    tapped = null;
    show(null);
  };
  let mouse = ""; // where it was; a page that keys scroll beneath it counts for nothing
  let byKey = false;
  document.addEventListener("mousemove", (event) => {
    const now = `${event.clientX} ${event.clientY}`;
    if (now !== mouse) byKey = false;
    mouse = now;
  });
  document.addEventListener("mouseover", (event) => byKey || at(event.target));
  document.addEventListener("focusin", (event) => at(event.target));
  document.addEventListener("focusout", (event) => event.relatedTarget || show(null));
  document.addEventListener("click", (event) => {
    const cell = numberAt(event.target);
    if (cell && cell === tapped && cell === shown) return hide();
    tapped = cell;
    if (cell) take(cell);
    at(event.target);
  });
  document.addEventListener("keydown", (event) => {
    byKey = byKey || /Tab|Arrow|Page|Home|End/.test(event.key);
    if (event.key === "Escape") hide();
    if (event.key === "Enter" && numberAt(event.target)) (first("a", bar) || event.target).focus();
    walk(event);
  });
};

{# -- a table that fits its frame sticks its headings to the window, another to the frame #}

const scrolling = new Map(); // what a frame that scrolls is to a keyboard and to a screen reader

{# How many rows stand below a frame's edge, and whether it shows all. #}
const restOf = (frame) => {
  const edge = frame.getBoundingClientRect().top + frame.clientHeight + 1;
  const rows = all("tbody tr:not(.block)", frame).filter((row) => row.getBoundingClientRect().bottom > edge);
  return { frame, count: rows.length, whole: frame.scrollHeight <= frame.clientHeight };
};

const tellRest = ({ frame, count, whole }) => {
  const note = frame.nextElementSibling;
  frame.classList.toggle("cut", count > 0);
  note.classList.toggle("done", !count);
  note.hidden = whole;
  note.textContent = fill(json(first("main"), "rest"), count);
};

const dressFrame = (frame, fits) => {
  frame.classList.toggle("fits", fits);
  frame.classList.toggle("scrolls", !fits);
  for (const [name, value] of scrolling.get(frame)) {
    if (fits) frame.removeAttribute(name);
    else frame.setAttribute(name, value);
  }
};

{# All are measured before any is changed, or the page would be laid out for each. #}
const fit = (seen) => {
  for (const frame of seen) if (frame.hidden) frame.removeAttribute("tabindex"); // in a fold
  const open = seen.filter((frame) => !frame.hidden);
  const tables = open.map((frame) => first("table", frame));
  const fits = open.map((frame, at) => tables[at].offsetWidth <= frame.offsetWidth);
  open.forEach((frame, at) => dressFrame(frame, fits[at]));
  const heads = tables.map((table) => table.tHead.offsetHeight - 1);
  const rests = open.map(restOf);
  tables.forEach((table, at) => table.style.setProperty("--head", `${heads[at]}px`));
  rests.forEach(tellRest);
};

const frames = () => {
  const watch = new ResizeObserver((seen) => fit(seen.map((one) => one.target)));
  for (const frame of all(".frame")) {
    scrolling.set(frame, ["role", "aria-labelledby", "tabindex"].map((name) => [name, frame.getAttribute(name)]));
    const note = add("p", "", "rest");
    note.ariaHidden = "true";
    frame.after(note);
    frame.addEventListener("scroll", () => tellRest(restOf(frame)));
    watch.observe(frame);
  }
};

{# -- speeds in another unit, for reading #}

{# As in document/rounding.py and words/numbers.py, to which tests hold it. #}
const NOISE = 1e-9;
const box = () => first(".units");

const rounded = (value, sense, decimals) => {
  const scaled = value * 10 ** decimals;
  const nearest = Math.sign(scaled) * Math.floor(Math.abs(scaled) + 0.5 + NOISE);
  const safe = { maximum: Math.floor(scaled + NOISE), minimum: Math.ceil(scaled - NOISE) };
  return (safe[sense] ?? nearest) / 10 ** decimals + 0;
};

const grouped = (text) => {
  const [, sign, whole, part] = text.match(/^(-?)(\d+)(.*)$/);
  return (sign && "−") + (whole.length > 4 ? whole.replace(/\B(?=(\d{3})+$)/g, ",") : whole) + part;
};

const inUnit = (value, [from, sense, decimals = 0], to) => {
  const [times, by] = json(box(), "factors")[from][to];
  const ends = [].concat(value).map((end) => (end * times) / by);
  return ends.map((end) => grouped(rounded(end, sense, decimals).toFixed(decimals))).join("–");
};

const write = (node, text) => {
  if (!printed.has(node)) printed.set(node, node.data);
  node.data = text;
};

const convertSpeed = (speed, to) => {
  const { speed: from, value, high, sense, decimals, form } = speed.dataset;
  if (from === to) return;
  const ends = high === undefined ? +value : [+value, +high];
  const text = value === undefined ? "" : inUnit(ends, [from, sense, decimals && +decimals], to);
  if (form === "shown") speed.append(add("small", ` (${text} ${to})`));
  else write(speed.firstChild, form === "number" ? text : `${text} ${to}`.trim());
};

const directed = (cell, text, value) => {
  const label = first(".label", cell);
  const words = json(cell.closest("table"), "figures").directions;
  const said = /[^0.]/.test(text) ? `${words[+(value > 0)]} ` : "";
  if (label) write(label.firstChild, said);
  else if (said) cell.prepend(add("span", said, "label added"));
};

const formed = (cell, text, { form, value }) => {
  if (form === "direction") {
    text = text.replace("−", "");
    directed(cell, text, value);
  } else if (form === "signed" && !text.startsWith("−") && /[^0.]/.test(text)) text = `+${text}`;
  return nodeOf(cell).data.startsWith("(") ? `(${text})` : text;
};

{# What the indicator shows never changes: the other unit stands beside it. Returns what was printed. #}
const convertFigure = (cell, small, to) => {
  const figure = figureOf(cell, small);
  if (!figure || !figure.how || figure.how[0] === to) return "";
  const node = nodeOf(small ? first("small:not(.added)", cell) : cell);
  const text = inUnit(figure.value, figure.how, to);
  const another = figure.form !== "direction" && first(".label", cell);
  const was = node.data.trim();
  if (!small && (figure.shown || another)) {
    write(node, node.data.trimEnd());
    node.after(add("small", `/${text} `));
    return "";
  }
  write(node, node.data.replace(was, () => (small ? text : formed(cell, text, figure))));
  return `${was} ${figure.how[0]}`;
};

const convertTable = (table, to) => {
  for (const cell of numbers(table)) {
    const were = [false, true].map((small) => convertFigure(cell, small, to)).filter(Boolean);
    if (were.length) cell.dataset.printed = were.join(", ");
  }
};

const restore = () => {
  for (const [node, text] of printed) node.data = text;
  printed.clear();
  for (const cell of all("[data-printed]")) delete cell.dataset.printed;
  for (const added of all(".converted, .added")) added.remove();
};

const markConverted = (section, to) => {
  const found = { converted: "[data-printed]", beside: ":is(td, th) > small.added" };
  const said = Object.keys(found).filter((name) => first(found[name], section));
  if (!said.length) return;
  const mark = add("p", said.map((name) => fill(json(box(), name), to)).join(" "), "converted");
  const back = add("button", box().dataset.back, "");
  back.addEventListener("click", () => {
    first("input", box()).checked = true;
    switchTo("");
    first("h2", section).scrollIntoView({ block: "nearest" });
  });
  mark.append(back);
  first(".frame", section).before(mark);
};

const convert = (unit) => {
  for (const speed of all("[data-speed]")) convertSpeed(speed, unit);
  for (const table of all("table[data-figures]")) {
    convertTable(table, unit);
    markConverted(table.closest("section"), unit);
  }
};

const switchTo = (unit) => {
  restore();
  if (unit) convert(unit);
  fit(all(".frame"));
};

const units = () => {
  box().hidden = false;
  box().querySelector("input").checked = true; // a browser may have kept another
  box().addEventListener("change", (event) => switchTo(event.target.value));
};

{# -- the finder #}

{# Letters and digits alone, so that kmh is km/h. #}
const plain = (text) => text.toLowerCase().replace(/[^\p{L}\p{N}]+/gu, "");

const finder = () => {
  const form = first(".finder");
  const rows = all(".fleet tbody tr");
  const find = () => {
    const words = form.find.value.split(/\s+/).map(plain);
    for (const row of rows) {
      const cells = [...row.cells].map((cell) => cell.textContent);
      const said = [...cells, row.dataset.also || ""].map(plain).join(" ");
      const kind = !form.kind.value || row.dataset.kind === form.kind.value;
      row.hidden = !(kind && words.every((word) => said.includes(word)));
    }
    const shown = rows.filter((row) => !row.hidden).length;
    first("[role=status]", form).textContent = shown ? fill(json(form, "found"), shown, rows.length) : form.dataset.none;
  };
  form.hidden = false;
  form.addEventListener("input", find);
  form.addEventListener("submit", (event) => event.preventDefault());
  find();
};

{# -- signatures that have lapsed, by this device's day #}

const lapsed = () => {
  for (const one of all("[data-to]")) one.textContent = today() > one.dataset.to ? one.dataset.said : "";
};

{# -- whether a card that somebody holds is current, by its mark: from its code's address, or typed #}

const today = () => {
  const now = new Date();
  return new Date(now - now.getTimezoneOffset() * 60_000).toISOString().slice(0, 10);
};

{# In any case, with or without its hyphen; O and I are no digits of a mark. #}
const markIn = (text) => {
  const digits = text.toUpperCase().replaceAll("O", "0").replace(/[IL]/g, "1").replace(/[^0-9A-Z]/g, "");
  return `${digits.slice(0, 4)}-${digits.slice(4, 12)}`;
};

const answer = () => {
  const asked = new URLSearchParams(location.hash.slice(1)).get("card");
  if (asked === null) return; // another place of the page; what was said stays
  const box = first(".current");
  const mark = markIn(asked);
  const known = all("[data-card]", box).find((one) => one.dataset.card === mark);
  const lapsed = first("[data-lapsed]", box);
  const over = known && known.matches(".fine") && lapsed && today() > lapsed.dataset.lapsed;
  const said = over ? lapsed : known || first("[data-card='']", box);
  for (const one of all("[data-card], [data-lapsed]", box)) one.hidden = one !== said;
  for (const one of all("[data-said]", said)) one.textContent = fill(json(one, "said"), mark);
  box.hidden = false;
  box.scrollIntoView({ block: "nearest" });
};

const stateOf = (row, mark) => {
  if (row.dataset.card !== mark) return "superseded";
  if (!row.dataset.valid) return "not";
  return row.dataset.valid !== "always" && today() > row.dataset.valid ? "lapsed" : "current";
};

const askable = () => {
  const form = first(".asked");
  const rows = all(".fleet tbody tr[data-card]");
  const ask = () => {
    const mark = markIn(form.mark.value);
    const row = rows.find((one) => [one.dataset.card, ...one.dataset.before.split(" ")].includes(mark));
    const name = row ? stateOf(row, mark) : mark.length < 9 ? "short" : "unknown";
    for (const one of all("[data-answer]", form)) one.hidden = !form.mark.value.trim() || one.dataset.answer !== name;
    if (!row) return;
    const [there, link] = [first("a", row), first(`[data-answer=${name}] a`, form)];
    link.textContent = there.textContent;
    link.href = `${there.getAttribute("href")}#card=${mark}`;
  };
  form.hidden = false;
  form.addEventListener("input", ask);
  form.addEventListener("submit", (event) => event.preventDefault());
  ask();
};

document.addEventListener("DOMContentLoaded", () => {
  themes();
  lapsed();
  frames();
  if (document.getElementById("origin")) origins();
  if (box()) units();
  if (first(".finder")) finder();
  if (first(".asked")) askable();
  if (first(".current")) {
    answer();
    addEventListener("hashchange", answer);
  }
});
