// The proofreader: a pattern pasted, its lines with their counts beside it, and edits made by a button.

import {
  Trouble, afterPause, ask, castOnOf, copyButton, el, fold, inSizes, packed, refill, say, showFaults, toldOf, unpacked, writeAddress,
} from "./base.js";

const form = document.getElementById("proofread-form");
const found = document.getElementById("proofread-found");
const status = document.getElementById("proofread-status");
const undo = document.getElementById("undo-edit");
const { text: field, cast_on: castOn, language: spoken } = form.elements;

const before = []; // the texts before each change that a button made
let opened = null;

const changed = afterPause(async (signal) => {
  const text = field.value;
  const parameters = new URLSearchParams();
  if (castOn.value.trim()) parameters.set("cast_on", castOn.value.trim());
  if (spoken.value) parameters.set("language", spoken.value);
  if (text.trim()) parameters.set("text", await packed(text));
  opened = String(parameters);
  writeAddress("proofread", parameters);
  found.hidden = false;
  showFaults(form, [], changed);
  if (!text.trim()) {
    refill(found, el("p", { class: "hint waiting-note" }, say("pattern_needed")));
    return;
  }
  try {
    const request = { text, cast_on: castOnOf(castOn, text), ...(spoken.value && { language: spoken.value }) };
    const answer = await ask("v1/patterns/proofread", request, signal);
    if (signal.aborted) return;
    const summary = summaryOf(answer);
    refill(found, answerParts(answer, text, summary));
    status.textContent = say("proofread_done", { summary });
  } catch (error) {
    if (signal.aborted) return;
    if (!(error instanceof Trouble)) throw error;
    showFaults(form, error.faults, changed);
    const detail = toldOf(form, error);
    refill(found, el("p", { class: "stale-note" }, detail));
    status.textContent = say("status_wrong", { detail });
  }
});

const isError = ({ severity }) => severity === "error";

const summaryOf = ({ findings, lines }) => {
  const errors = findings.filter(isError).length;
  const notes = findings.length - errors;
  if (!findings.length) return say(lines.some(({ rounds }) => rounds.length) ? "all_right" : "no_rounds");
  return [errors && say("errors_n", { n: errors }), notes && say("notes_n", { n: notes })].filter(Boolean).join(", ");
};

const answerParts = ({ findings, lines, repaired, language }, text, summary) => {
  const worked = lines.filter(({ rounds }) => rounds.length).length;
  const about = !worked ? say("no_rounds_more") : findings.length ? null : say("all_right_more", { n: worked });
  const texts = text.replace(/\r\n?/g, "\n").split("\n");
  return [
    el("div", { class: "headline" }, el("h2", {}, summary),
      el("p", {}, `${about ?? ""} ${worked ? say("read_as", { language: languageName(language) }) : ""}`.trim())),
    el("section", { class: "sheet lines" },
      el("div", { class: "sheet-head" }, el("h2", {}, say("lines_heading")),
        repaired !== null && el("button", { type: "button", onclick: () => become(repaired) }, say("edit_all"))),
      el("div", { class: "line head", "aria-hidden": "true" }, el("span", {}), el("span", {}), el("span", {}, say("worked_out")), el("span", {}, say("printed"))),
      el("ol", {}, lines.map((line) => lineItem(line, texts[line.line - 1] ?? "", findings.filter(({ line: at }) => at === line.line), text)))),
    repaired !== null && el("section", { class: "sheet" },
      fold(say("repaired_heading"), "repaired", el("pre", { tabindex: 0 }, repaired), copyButton(say("copy"), () => repaired, say("copied")))),
  ];
};

const languageName = (code) => new Intl.DisplayNames(document.documentElement.lang, { type: "language" }).of(code);

// --- a line ---------------------------------------------------------------------------------------------------

const lineItem = ({ line, kind, rounds, computed, printed }, text, findings, whole) => {
  const differs = printed.some((count, size) => count !== null && computed[size] !== undefined && computed[size] !== count);
  return el("li", { class: `line ${kind} ${findings.some(isError) ? "faulty" : ""}`, id: `line-${line}` },
    el("span", { class: "number" }, el("span", { class: "unseen" }, say("line_n", { n: line })), el("span", { "aria-hidden": "true" }, `${line}`)),
    el("span", { class: "text" }, marked(text, findings), rounds.length > 1 && el("small", {}, ` ${say("rounds_n", { n: rounds.length })}`)),
    counts("worked_out", computed, differs),
    counts("printed", printed, differs),
    findings.length > 0 && el("div", { class: "findings" }, findings.map((finding) => findingPart(finding, whole))));
};

const counts = (key, numbers, differs) =>
  el("span", { class: `counts ${key === "printed" ? "as-printed" : "worked-out"} ${differs ? "differs" : ""}` },
    numbers.length > 0 && [el("span", { class: "label" }, `${say(key)} `), inSizes(numbers.map((count) => count ?? "–"))]);

/** The text of a line, with what an edit would change marked. */
const marked = (text, findings) => {
  const letters = [...text];
  const ranges = findings.flatMap(({ edits }) => edits.slice(0, 1))
    .filter(({ start, end }) => start.line === end.line && end.column > start.column)
    .map(({ start, end }) => [start.column - 1, end.column - 1])
    .sort(([one], [other]) => one - other);
  const parts = [];
  let at = 0;
  for (const [from, to] of ranges) {
    if (from < at) continue;
    parts.push(letters.slice(at, from).join(""), el("mark", {}, letters.slice(from, to).join("")));
    at = to;
  }
  return [...parts, letters.slice(at).join("")];
};

const findingPart = ({ severity, size, message, edits }, whole) =>
  el("div", { class: `finding ${severity}` },
    el("p", {}, el("strong", {}, `${say(severity === "error" ? "wrong" : "note")}. `), size ? say("of_size", { n: size, message }) : message),
    edits.map((edit) => el("button", { type: "button", class: "quiet", onclick: () => become(withEdit(whole, edit)) },
      el("span", {}, editText(whole, edit)), edit.leaves && el("small", {}, ` ${edit.leaves.length ? say("edit_leaves", { n: edit.leaves.length }) : say("edit_leaves_none")}`))));

// --- edits ----------------------------------------------------------------------------------------------------

/** Places of the service are counted in code points, those of a string in JavaScript in halves of them. */
const partsAround = (text, { start, end }) => {
  const letters = [...text];
  return [letters.slice(0, start.offset), letters.slice(start.offset, end.offset), letters.slice(end.offset)].map((part) => part.join(""));
};

const withEdit = (text, edit) => {
  const [head, , tail] = partsAround(text, edit);
  return head + edit.replacement + tail;
};

const editText = (text, edit) => {
  const old = partsAround(text, edit)[1].trim();
  const { replacement } = edit;
  if (!old) return say("edit_insert", { new: replacement.trim() });
  return replacement.trim() ? say("edit_replace", { new: replacement.trim(), old }) : say("edit_remove", { old });
};

/** The pattern becomes another text; what it was can be had back. */
const become = (text) => {
  before.push(field.value);
  show(text, "edit_made");
};

const show = (text, done) => {
  field.value = text;
  undo.hidden = !before.length;
  found.focus({ preventScroll: true });
  status.textContent = say(done);
  changed(0);
};

undo.addEventListener("click", () => show(before.pop(), "undone"));
document.getElementById("show-example").addEventListener("click", () => {
  castOn.value = "";
  spoken.value = "";
  become(say("example_pattern"));
});
form.addEventListener("submit", (event) => event.preventDefault());
form.addEventListener("input", () => changed());

export const open = async (parameters) => {
  if (opened === String(parameters)) return;
  opened = String(parameters);
  castOn.value = parameters.get("cast_on") ?? "";
  spoken.value = parameters.get("language") ?? "";
  field.value = await unpacked(parameters.get("text"));
  changed(0);
};
