"use strict";

const TRAITS = {}; // by registration; each aircraft's traits.js adds its own

const anyTwo = () => {
  const form = first("form.chosen");
  const place = first(".next");
  const said = language(WORDS);

  const element = (kind, attributes, ...inside) => {
    const made = document.createElement(kind);
    for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, value);
    made.append(...inside);
    return made;
  };
  const shown = (value) => (value ? said.say("next-shown", { value }) : "–");
  const more = (value) => {
    if (!value) return "";
    const figure = said.number(value);
    if (!/[^−0.]/.test(figure)) return "0";
    return figure.startsWith("−") ? figure : `+${figure}`;
  };
  const row = ({ name, first: before, second: here, more: by }) => {
    const [was, is] = [shown(before), shown(here)];
    return element(
      "tr",
      {},
      element("th", { scope: "row", class: "words" }, said.text(name)),
      element("td", {}, was),
      element("td", was === is ? {} : { class: "other main" }, is),
      element("td", {}, more(by)),
    );
  };
  const table = ({ id, title, lines }, from, to) => {
    const heads = [from.registration, to.registration, said.say("next-difference")];
    const head = element("tr", {}, element("td", {}), ...heads.map((one) => element("th", { scope: "col" }, one)));
    const figures = element(
      "table",
      { class: "sides figures" },
      element("caption", {}, said.text(title)),
      element("thead", {}, head),
      element("tbody", {}, ...lines.map(row)),
    );
    const name = `${id}-title`;
    const frame = element("div", { class: "frame", role: "group", "aria-labelledby": name, tabindex: "0" }, figures);
    return element("section", { class: "table middling", id }, element("h2", { id: name }, said.text(title)), frame);
  };
  const list = (kind, name, ones) => element(kind, { class: name }, ...ones.map((one) => element("li", {}, one)));

  const draw = (from, to) => {
    const { told, beside } = transition(from, to);
    const names = { first: from.registration, second: to.registration };
    const types = from.type === to.type ? said.say("next-same-type", { type: from.type }) : said.say("next-of-types", { first: from.type, second: to.type });
    const marks = from.mark && to.mark ? ` ${said.say("next-figures", { first: from.mark, second: to.mark })}` : "";
    const links = [from, to].map((one) => element("a", { href: `${form.dataset.root}${one.registration}/index.html` }, one.registration));
    place.replaceChildren(
      element("h2", {}, `${said.say("next-title", names)} `, element("small", {}, types)),
      element("p", { class: "status" }, said.say("next-caution", names)),
      element("h2", {}, said.say("next-mind")),
      told.length ? list("ol", "told", told.map((one) => said.text(one.said))) : element("p", {}, said.say("next-nothing")),
      ...(to.remarks.length ? [element("h2", {}, said.say("next-remarks", to)), list("ul", "remarks", to.remarks)] : []),
      element("p", { class: "downloads" }, links[0], " ", links[1]),
      element("p", { class: "how" }, said.say("next-how", { ...names, unit: to.unit }) + marks),
      element("div", { class: "tables" }, ...beside.map((one) => table(one, from, to))),
    );
  };

  const loaded = (name) =>
    new Promise((done, failed) => {
      if (TRAITS[name]) return done(TRAITS[name]);
      const script = element("script", { src: `${form.dataset.root}${name}/traits.js` });
      script.addEventListener("load", () => done(TRAITS[name]));
      script.addEventListener("error", failed);
      return document.head.append(script);
    });
  const show = async () => {
    const [from, to] = [form.from.value, form.to.value];
    history.replaceState(null, "", `#${new URLSearchParams({ from, to })}`);
    place.ariaBusy = "true";
    const both = await Promise.all([from, to].map(loaded)).catch(() => null);
    if (from !== form.from.value || to !== form.to.value) return; // another pair was chosen meanwhile
    if (both) draw(...both);
    else place.replaceChildren(element("p", { class: "note" }, form.dataset.lacking));
    place.ariaBusy = "false";
  };
  const put = () => {
    const asked = new URLSearchParams(location.hash.slice(1));
    for (const one of [form.from, form.to]) if (asked.has(one.name)) one.value = asked.get(one.name);
  };

  form.hidden = false;
  if (form.to.options.length > 1) form.to.selectedIndex = 1;
  put();
  form.addEventListener("change", show);
  form.addEventListener("submit", (event) => event.preventDefault());
  addEventListener("hashchange", () => {
    put();
    show();
  });
  show();
};

document.addEventListener("DOMContentLoaded", () => {
  if (first("form.chosen option")) anyTwo();
});
