// Theme, units, the finder of the fleet's page, and where a number comes from. All of it is extra:
// without this script the pages show everything but the origins, which card.json has as well.
"use strict";
(() => {
  const root = document.documentElement;
  const all = (what, where = document) => [...where.querySelectorAll(what)];

  // -- theme: set before the page is drawn, so that no white page flashes at night

  const stored = () => {
    try {
      return localStorage.getItem("theme");
    } catch {
      return null; // storage may be barred
    }
  };

  const dress = (theme) => {
    if (["light", "dark", "night"].includes(theme)) root.dataset.theme = theme;
    else delete root.dataset.theme;
    const paper = getComputedStyle(root).getPropertyValue("--paper").trim();
    document.querySelector('meta[name="theme-color"]').content = paper;
    const chosen = document.querySelector(`input[name="theme"][value="${theme || "auto"}"]`);
    if (chosen) chosen.checked = true;
  };

  const choose = (theme) => {
    dress(theme);
    try {
      localStorage.setItem("theme", theme);
    } catch {
      // it lasts for this page only
    }
  };

  const themes = () => {
    const box = document.querySelector(".theme");
    box.hidden = false;
    box.addEventListener("change", (event) => choose(event.target.value));
    box.addEventListener("focusout", (event) => {
      if (event.relatedTarget && !box.contains(event.relatedTarget)) box.open = false;
    });
    box.addEventListener("keydown", (event) => {
      if (event.key !== "Escape") return;
      box.open = false;
      box.querySelector("summary").focus();
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

  // -- where a number comes from

  // A blank is as in the cell to the left.
  const partsOf = (cell) => {
    const parts = cell.dataset.o.split("|");
    for (let left = cell.previousElementSibling; left && parts.includes(""); left = left.previousElementSibling) {
      (left.dataset.o || "").split("|").forEach((part, i) => (parts[i] = parts[i] || part));
    }
    return parts;
  };

  const sentenceOf = (number) => {
    const [which, ...values] = partsOf(number);
    const sentence = number.closest("table").dataset.origins.split("|")[which];
    return sentence.replace(/\{\}/g, () => values.shift());
  };

  const originOf = (cell) => {
    const small = cell.querySelector("small[data-o]");
    return [
      cell.dataset.printed ? `Printed: ${cell.dataset.printed}. ` : "",
      sentenceOf(cell),
      small ? `. Small figure: ${sentenceOf(small)}` : "",
    ].join("");
  };

  const numberAt = (target) => target.closest && target.closest(":is(td, th)[data-o]");
  const cellAt = (target) => target.closest && target.closest("table.figures tbody tr:not(.block) > *");

  const say = (bar, cell) => {
    bar.textContent = cell ? originOf(cell) : "";
    bar.hidden = !cell;
  };

  // -- the row and the column of the cell in hand

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

  // -- arrow keys walk the numbers of a table

  const step = (cell, key) => {
    const rows = [...cell.closest("table").querySelectorAll("tbody tr:not(.block)")];
    const aside = { ArrowLeft: -1, ArrowRight: 1 }[key] || 0;
    const down = { ArrowUp: -1, ArrowDown: 1 }[key] || 0;
    let next = cell;
    do {
      const there = rows[rows.indexOf(next.parentElement) + down];
      next = there && there.cells[next.cellIndex + aside];
    } while (next && !next.dataset.o);
    return next;
  };

  // The cell in hand is the one of its table that the tab key comes to.
  const take = (cell) => {
    for (const other of all('td[tabindex="0"]', cell.closest("table"))) other.tabIndex = -1;
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
    for (const table of all("table[data-origins]")) {
      const first = table.querySelector("td[data-o]");
      if (first) first.tabIndex = 0;
    }
    let shown = null;
    const show = (cell) => {
      if (cell === shown) return;
      shown = cell;
      say(bar, cell && numberAt(cell));
      light(cell);
    };
    const at = (target) => show(cellAt(target) || cellAt(document.activeElement));
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
      if (cell) take(cell);
      at(event.target);
    });
    document.addEventListener("keydown", (event) => {
      byKey = byKey || /Tab|Arrow|Page|Home|End/.test(event.key);
      if (event.key === "Escape") show(null);
      walk(event);
    });
  };

  // -- a table that fits its frame sticks its headings to the window, another to the frame

  const fit = (frame) => {
    const table = frame.querySelector("table");
    const fits = table.offsetWidth <= frame.offsetWidth;
    frame.classList.toggle("fits", fits);
    frame.classList.toggle("scrolls", !fits);
    frame.tabIndex = fits ? -1 : 0;
    table.style.setProperty("--head", `${table.tHead.offsetHeight - 1}px`);
  };

  const frames = () => {
    const watch = new ResizeObserver((seen) => seen.forEach((one) => fit(one.target)));
    for (const frame of all(".frame")) watch.observe(frame);
  };

  // -- speeds in another unit, for reading

  const KMH = { kt: 1.852, mph: 1.609344, "km/h": 1 };
  const NUMBER = /\d+(?:\.\d+)?/;
  const SPEED = /(?:(\d+(?:\.\d+)?) )?(kt|mph|km\/h)/;
  const printed = new Map(); // text nodes of the page, as they came

  const rounded = (value, decimals, sense) => {
    const scaled = value * 10 ** decimals;
    const noise = 1e-9;
    const whole = { maximum: Math.floor(scaled + noise), minimum: Math.ceil(scaled - noise) }[sense];
    return ((whole === undefined ? Math.round(scaled) : whole) / 10 ** decimals).toFixed(decimals);
  };

  const inUnit = (text, from, to, sense) =>
    rounded((text * KMH[from]) / KMH[to], (text.split(".")[1] || "").length, sense);

  const senseOf = (element) => {
    const holder = element.closest("[data-sense]");
    return holder && holder.dataset.sense;
  };

  const write = (node, text) => {
    if (!printed.has(node)) printed.set(node, node.data);
    node.data = text;
  };

  const nodeOf = (element) => [...element.childNodes].find((node) => node.nodeType === 3 && NUMBER.test(node.data));

  const convertNumber = (element, from, to) => {
    const node = element && nodeOf(element);
    if (!node || from === to) return false;
    write(node, node.data.replace(NUMBER, (text) => inUnit(text, from, to, senseOf(element))));
    return true;
  };

  const convertWords = (element, to) => {
    if (element.dataset.speed) return convertNumber(element, element.dataset.speed, to);
    const [, number, from] = element.textContent.match(SPEED);
    if (from === to) return false;
    write(element.firstChild, number ? `${inUnit(number, from, to, senseOf(element))} ${to}` : to);
    return true;
  };

  const convertCell = (cell, column, to) => {
    const own = cell.dataset.unit === "" ? "" : column.dataset.unit;
    const figures = [[cell, own], [cell.querySelector("small"), column.dataset.also]];
    const were = [];
    for (const [element, from] of figures) {
      const was = element && from && nodeOf(element) && nodeOf(element).data.trim();
      if (was && convertNumber(element, from, to)) were.push(`${was} ${from}`);
    }
    if (were.length) cell.dataset.printed = were.join(", ");
    return were.length > 0;
  };

  const convertTable = (table, to) => {
    const columns = all("col", table);
    const cells = all("tbody tr:not(.block) > *", table);
    return cells.filter((cell) => convertCell(cell, columns[cell.cellIndex], to)).length > 0;
  };

  const restore = () => {
    for (const [node, text] of printed) node.data = text;
    printed.clear();
    for (const cell of all("[data-printed]")) delete cell.dataset.printed;
    for (const mark of all(".converted")) mark.remove();
  };

  const markConverted = (section, to) => {
    const mark = document.createElement("p");
    mark.className = "converted";
    mark.textContent = `Converted to ${to}, rounded for reading.`;
    const back = document.createElement("button");
    back.textContent = "As printed";
    back.addEventListener("click", () => {
      const first = document.querySelector('input[name="unit"]');
      first.checked = true;
      switchTo("");
      section.querySelector("h2").scrollIntoView({ block: "nearest" });
    });
    mark.append(back);
    section.querySelector(".frame").before(mark);
  };

  const switchTo = (unit) => {
    restore();
    if (!unit) return;
    for (const words of all("[data-speed]")) convertWords(words, unit);
    for (const section of all("section.table")) {
      const table = section.querySelector("table");
      if (table && convertTable(table, unit)) markConverted(section, unit);
    }
  };

  const units = () => {
    const box = document.querySelector(".units");
    box.hidden = false;
    box.querySelector("input").checked = true; // a browser may have kept another
    box.addEventListener("change", (event) => switchTo(event.target.value));
  };

  // -- the finder

  const finder = () => {
    const form = document.querySelector(".finder");
    const rows = all(".fleet tbody tr");
    const find = () => {
      const words = form.find.value.toLowerCase().split(/\s+/);
      for (const row of rows) {
        const said = row.textContent.toLowerCase();
        const kind = !form.kind.value || row.dataset.kind === form.kind.value;
        row.hidden = !(kind && words.every((word) => said.includes(word)));
      }
      const shown = rows.filter((row) => !row.hidden).length;
      form.querySelector("[role=status]").textContent = shown ? `${shown} of ${rows.length}` : "None found.";
    };
    form.hidden = false;
    form.addEventListener("input", find);
    form.addEventListener("submit", (event) => event.preventDefault());
    find();
  };

  document.addEventListener("DOMContentLoaded", () => {
    themes();
    frames();
    if (document.getElementById("origin")) origins();
    if (document.querySelector(".units")) units();
    if (document.querySelector(".finder")) finder();
  });
})();
