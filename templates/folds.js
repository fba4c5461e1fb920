{# A page for a thumb: tables fold, and open to what is looked for; a finder of tables by their
names; pickers for the blocks of a long table. Without it all stand open. #}
"use strict";

const folds = () => {
  const narrow = matchMedia("(max-width: 48rem)");
  const sections = all("section.table[id]:not(#speeds), section.panel, section.sign");
  const titleOf = (section) => first("h2", section);
  const rest = (section) => [...section.children].filter((one) => one !== titleOf(section) && one.getAttribute("hidden") !== "");

  const opened = () => {
    try {
      return new Set(JSON.parse(sessionStorage.getItem("open") || localStorage.getItem("open") || "[]"));
    } catch {
      return new Set(); // storage may be barred
    }
  };
  const remember = () => {
    const open = sections.filter((one) => !one.classList.contains("folded")).map((one) => one.id);
    try {
      localStorage.setItem("open", JSON.stringify(open));
    } catch {
      {# it lasts for this page only #}
    }
  };

  const set = (section, closed) => {
    section.classList.toggle("folded", closed);
    for (const part of rest(section)) {
      if (closed) part.setAttribute("hidden", "until-found");
      else part.removeAttribute("hidden");
    }
    first("button.fold", section).ariaExpanded = String(!closed);
  };
  const fold = (section, closed) => {
    set(section, closed);
    fit(all(".frame", section));
  };
  const open = (section) => {
    if (!section.classList.contains("folded")) return;
    fold(section, false);
    remember();
  };
  const toggle = (section) => {
    fold(section, !section.classList.contains("folded"));
    remember();
  };

  const arrange = () => {
    const kept = opened();
    for (const section of sections) set(section, narrow.matches && !kept.has(section.id));
    fit(sections.flatMap((section) => all(".frame", section)));
  };

  {# What an address names opens, and stands at the top. #}
  const arrive = () => {
    const name = decodeURIComponent(location.hash.slice(1).split("?")[0]);
    const target = name && document.getElementById(name);
    const section = target && target.closest("section.folded");
    if (section) open(section);
    if (target && (section || location.hash.includes("?"))) target.scrollIntoView();
  };

  for (const section of sections) {
    const button = document.createElement("button");
    button.type = "button";
    button.className = "fold";
    button.setAttribute("aria-labelledby", titleOf(section).id);
    section.classList.add("foldable");
    titleOf(section).append(button);
    titleOf(section).addEventListener("click", (event) => {
      if (narrow.matches && !event.target.closest("a")) toggle(section);
    });
    section.addEventListener("beforematch", () => open(section));
  }
  document.addEventListener("click", (event) => {
    const link = event.target.closest('a[href^="#"]');
    const target = link && document.getElementById(link.hash.slice(1).split("?")[0]);
    const section = target && target.closest("section.folded");
    if (section) open(section);
  });
  if (narrow.matches) first(".first").after(first(".tools"));
  narrow.addEventListener("change", arrange);
  addEventListener("hashchange", arrive);
  arrange();
  arrive();
  return open;
};

{# -- any table by its name #}

const tablesFinder = (open) => {
  const form = first(".tables-finder");
  const sections = all("section.table[id], section.panel");
  const links = all(".contents a");
  const matching = () => {
    const words = form.table.value.split(/\s+/).map(plain);
    return sections.filter((one) => {
      const named = plain(`${first("h2", one).textContent} ${one.id}`);
      return words.every((word) => named.includes(word));
    });
  };
  const find = () => {
    const found = matching();
    const wanted = !!form.table.value.trim();
    for (const section of all(".tables > section")) section.classList.toggle("missed", wanted && !found.includes(section));
    for (const link of links) link.hidden = !found.some((one) => link.hash === `#${one.id}`);
    const number = fill(json(form, "found"), found.length, sections.length);
    first("[role=status]", form).textContent = found.length ? (wanted ? number : "") : form.dataset.none;
  };
  form.hidden = false;
  form.addEventListener("input", find);
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    const [target] = matching();
    if (!target || !form.table.value.trim()) return;
    open(target);
    target.scrollIntoView();
    const title = first("h2", target);
    title.tabIndex = -1;
    title.focus({ preventScroll: true });
  });
};

{# -- one block of a table at a time, on a narrow page #}

const pickers = () => {
  const name = first(".tables-finder").dataset.all;
  for (const section of all(".tables section.table")) {
    const blocks = all("tbody", section).filter((one) => first("tr.block", one));
    if (blocks.length < 3) continue;
    const group = document.createElement("p");
    group.className = "blocks";
    group.setAttribute("role", "group");
    group.setAttribute("aria-labelledby", titleId(section));
    const choose = (button, block) => {
      for (const one of group.children) one.ariaPressed = String(one === button);
      for (const one of blocks) one.classList.toggle("off", !!block && one !== block);
      fit(all(".frame", section));
    };
    for (const block of [null, ...blocks]) {
      const button = document.createElement("button");
      button.type = "button";
      button.textContent = block ? first("tr.block", block).textContent.split(";")[0] : name;
      button.ariaPressed = String(!block);
      button.addEventListener("click", () => choose(button, block));
      group.append(button);
    }
    first(".frame", section).before(group);
  }
};
const titleId = (section) => first("h2", section).id;

document.addEventListener("DOMContentLoaded", () => {
  if (!first(".tables-finder")) return;
  root.classList.add("folding");
  pickers();
  tablesFinder(folds());
});
