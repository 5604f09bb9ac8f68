// Shows the view that the address names. Each view fills its own part of the page and keeps its state in the address.

import { readAddress } from "./base.js";
import * as plan from "./plan.js";
import * as proofread from "./proofread.js";
import * as stuck from "./stuck.js";

const VIEWS = { plan, proofread, stuck };
let shown = null;

const show = (arrived = false) => {
  const { view, parameters } = readAddress();
  const name = view in VIEWS ? view : "plan";
  for (const section of document.querySelectorAll(".view")) section.hidden = section.id !== `view-${name}`;
  for (const link of document.querySelectorAll("nav [data-view]")) {
    if (link.dataset.view === name) link.setAttribute("aria-current", "page");
    else link.removeAttribute("aria-current");
  }
  const heading = document.querySelector(`#view-${name} h1`);
  document.title = `${heading.textContent} - Roundwright`;
  VIEWS[name].open(parameters);
  if (shown !== null && shown !== name && !arrived) {
    document.getElementById("main").focus({ preventScroll: true });
    scrollTo(0, 0);
  }
  shown = name;
};

for (const link of document.querySelectorAll(".languages a")) {
  link.addEventListener("click", () => {
    link.hash = location.hash; // the plan goes along
  });
}
document.querySelector(".skip").addEventListener("click", (event) => {
  event.preventDefault(); // the address keeps its plan
  document.getElementById("main").focus();
});
addEventListener("hashchange", () => show());
document.documentElement.dataset.script = "on";
show(true);
