// Says where a number comes from when it is focused, hovered or tapped. Arrow keys walk a table.
"use strict";
(() => {
  const bar = document.getElementById("origin");
  if (!bar) return;

  const say = (cell) => {
    bar.textContent = cell ? cell.dataset.origin : "";
    bar.hidden = !cell;
  };

  const numberAt = (target) => target.closest && target.closest("td[data-origin]");

  for (const table of document.querySelectorAll("table.figures")) {
    const first = table.querySelector("td[data-origin]");
    if (first) first.tabIndex = 0;
  }

  const step = (cell, key) => {
    const row = cell.parentElement;
    const rows = [...row.closest("table").querySelectorAll("tbody tr:not(.block)")];
    const aside = { ArrowLeft: -1, ArrowRight: 1 }[key] || 0;
    const down = { ArrowUp: -1, ArrowDown: 1 }[key] || 0;
    let next = cell;
    do {
      const there = rows[rows.indexOf(next.parentElement) + down];
      next = there && there.cells[next.cellIndex + aside];
    } while (next && !next.dataset.origin);
    return next;
  };

  document.addEventListener("keydown", (event) => {
    const cell = numberAt(event.target);
    if (event.key === "Escape") say(null);
    if (!cell || !event.key.startsWith("Arrow")) return;
    const next = step(cell, event.key);
    if (!next) return;
    event.preventDefault();
    cell.tabIndex = -1;
    next.tabIndex = 0;
    next.focus();
  });
  document.addEventListener("focusin", (event) => say(numberAt(event.target)));
  document.addEventListener("mouseover", (event) => say(numberAt(event.target)));
  document.addEventListener("click", (event) => say(numberAt(event.target)));
})();
