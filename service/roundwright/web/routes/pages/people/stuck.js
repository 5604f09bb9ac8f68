// A count that came out wrong: the work, the round and what is on each needle in; causes, where to look and the mend out.

import {
  Trouble, afterPause, applies, ask, castOnOf, el, packed, put, refill, restore, say, showFaults, stateOf, toNumber, toldOf, unpacked,
  valueOf, writeAddress,
} from "./base.js";
import { planned, take } from "./plan.js";

const form = document.getElementById("stuck-form");
const found = document.getElementById("stuck-found");
const status = document.getElementById("stuck-status");
const needles = [...form.querySelectorAll(".counted input")];

let opened = null;

/** Shows the fields of the work that is chosen. */
const settle = () => {
  for (const part of form.querySelectorAll("[data-work]")) part.hidden = part.dataset.work !== form.work.value;
};

const fillSizes = () => {
  const { size } = form.elements;
  const chosen = size.value || "1";
  size.replaceChildren(...planned.labels().map((label, index) => el("option", { value: index + 1 }, label)));
  size.value = size.options[chosen - 1] ? chosen : "1";
};

/** The request, or null where nothing is counted yet. */
const requestOf = () => {
  const counted = needles.map((field) => field.value.trim());
  while (counted.length && !counted.at(-1)) counted.pop();
  if (!counted.length) return null;
  const kind = form.work.value;
  const request = {};
  for (const field of form.elements) {
    if (!field.dataset.at || !field.dataset.type || !applies(field)) continue;
    const value = valueOf(field);
    if (value !== undefined) put(request, field.dataset.at, value);
  }
  if (kind === "hat") {
    request.hat = planned.request();
    request.size = Number(form.elements.size.value);
  }
  if (kind === "pattern") {
    const text = form.elements.text.value;
    request.pattern = { text, cast_on: castOnOf(form.elements.cast_on, text) };
  }
  const numbers = counted.map((text, index) => {
    const number = toNumber(text || "0");
    if (Number.isInteger(number)) return number;
    const detail = say("not_a_number", { example: 12 });
    needles[index].dataset.at = `/needles/${index}`;
    throw new Trouble(detail, [{ at: `/needles/${index}`, detail }]);
  });
  if (numbers.length === 1) [request.count] = numbers;
  else request.needles = numbers;
  if (kind === "crown" && numbers.length > 1) request.crown.needles = numbers.length;
  return request;
};

const changed = afterPause(async (signal) => {
  settle();
  const parameters = stateOf(form);
  if (form.work.value === "hat") parameters.set("plan", planned.parameters());
  if (parameters.has("text")) parameters.set("text", await packed(form.elements.text.value));
  opened = String(parameters);
  writeAddress("stuck", parameters);
  try {
    const request = requestOf();
    showFaults(form, [], changed);
    found.hidden = false;
    if (request === null) {
      refill(found, el("p", { class: "hint waiting-note" }, say("count_needed")));
      return;
    }
    const answer = await ask("v1/counts/check", request, signal);
    if (signal.aborted) return;
    const parts = answerParts(answer, request);
    refill(found, parts);
    status.textContent = say("stuck_done", { summary: answer.causes[0]?.message ?? answer.message });
  } catch (error) {
    if (signal.aborted) return;
    if (!(error instanceof Trouble)) throw error;
    showFaults(form, error.faults, changed);
    found.hidden = false;
    const detail = toldOf(form, error);
    refill(found, el("p", { class: "stale-note" }, detail));
    status.textContent = say("status_wrong", { detail });
  }
});

const answerParts = (answer, request) => {
  const { message, causes, tell_apart: apart, next, warnings } = answer;
  const picture = needlesPicture(request, next);
  if (!causes.length) {
    return [el("div", { class: "headline" }, el("h2", {}, say("count_right")), el("p", {}, message)), picture, notices(warnings)];
  }
  return [
    el("div", { class: "headline" }, el("h2", {}, say("count_wrong"))),
    el("ol", { class: "causes" }, byMend(causes).map(mendPart)),
    apart && el("section", { class: "sheet" }, el("h2", {}, say("tell_apart")), el("p", {}, apart)),
    picture,
    notices(warnings),
  ];
};

const notices = (warnings) =>
  warnings.length > 0 && el("div", { class: "mind" }, el("h2", {}, say("warnings_heading")),
    el("ul", {}, warnings.map(({ message }) => el("li", {}, message))));

/** The causes in their order, those with the same mend together; a cause may have a step of its own before it. */
const byMend = (causes) => {
  const groups = [];
  for (const cause of causes) {
    const group = groups.find(({ fix }) => cause.fix.endsWith(fix) || fix.endsWith(cause.fix));
    if (!group) groups.push({ fix: cause.fix, next: cause.next, causes: [cause] });
    else {
      group.causes.push(cause);
      if (cause.fix.length < group.fix.length) group.fix = cause.fix;
    }
  }
  return groups;
};

const mendPart = ({ fix, next, causes }, index) =>
  el("li", { class: "sheet" },
    causes.map((cause, place) => causePart(cause, fix, place || index ? "also" : "likeliest")),
    el("dl", { class: "mend" },
      el("dt", {}, say(causes.length > 1 ? "the_mend_of_all" : "the_mend")), el("dd", {}, fix),
      // The mend itself mostly says the next round.
      next && !fix.includes(next.text) && [el("dt", {}, say("next_round")),
        el("dd", {}, say("next_round_text", { n: next.number, text: next.text, stitches: next.after }))]));

const causePart = ({ message, where, fix }, shared, rank) => {
  const first = fix.slice(0, fix.length - shared.length).trim();
  return el("div", { class: "cause" },
    el("p", { class: "rank" }, say(rank)),
    el("h3", {}, message),
    el("dl", {},
      el("dt", {}, say("where_to_look")), el("dd", {}, where),
      first && [el("dt", {}, say("first_try")), el("dd", {}, first)]));
};

/** The needles before the next round of a crown, drawn by the service. */
const needlesPicture = ({ crown, needles: counted }, next) => {
  if (!crown || !counted || !next) return null;
  const language = document.documentElement.lang;
  const query = new URLSearchParams({ stitches: crown.stitches, style: crown.style, needles: counted.length, round: next.number, language });
  if (crown.sections) query.set("sections", crown.sections);
  const image = el("img", { src: `v1/drawings/needles.svg?${query}`, alt: say("needles_picture_alt", { n: next.number }), width: 640, height: 480 });
  const figure = el("section", { class: "sheet" }, el("h2", {}, say("needles_picture", { n: next.number })), el("figure", { class: "drawn" }, image));
  image.addEventListener("error", () => figure.remove());
  return figure;
};

form.addEventListener("submit", (event) => event.preventDefault());
form.addEventListener("input", () => changed());

export const open = async (parameters) => {
  const arrived = opened === null; // a plan in the address is that of whoever sent it; later it is the one on this page
  take(arrived ? parameters.get("plan") : null);
  fillSizes();
  if (opened === String(parameters) && form.work.value !== "hat") return;
  opened = String(parameters);
  restore(form, parameters);
  form.elements.text.value = await unpacked(parameters.get("text"));
  settle();
  changed(0);
};
