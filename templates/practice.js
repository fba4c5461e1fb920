{# Marks a practice page. It has no words of its own: those stand in the page. #}
"use strict";

const all = (what, root = document) => [...root.querySelectorAll(what)];
const said = (parts, ...values) => parts.map((part) => (typeof part === "number" ? values[part] : part)).join("");

const mark = (question) => {
  const ticked = question.querySelector("input:checked");
  for (const why of all(".why[data-for]", question)) why.hidden = why.dataset.for !== ticked?.value;
  question.querySelector(".why.open").hidden = Boolean(ticked);
  question.querySelector(".working").hidden = false;
  question.classList.add("marked");
  return Boolean(ticked?.parentElement.hasAttribute("data-right"));
};

const questions = all(".questions > li");
const button = document.querySelector(".bar button");
const status = document.querySelector(".bar [role=status]");
button.hidden = false;
button.addEventListener("click", () => {
  const right = questions.map(mark).filter(Boolean).length;
  status.textContent = said(JSON.parse(status.dataset.marked), right, questions.length);
});
