// The plan: gauge, heads, yarn, shape and needles in; the whole hat out while she types.

import {
  Trouble, afterPause, amount, applies, ask, behind, copyButton, currencyBeside, el, fold, inSizes, list, measure, money,
  number, put, refill, restore, say, showFaults, signed, stateOf, table, toldOf, toNumber, valueOf, writeAddress,
} from "./base.js";

const form = document.getElementById("plan-form");
const found = document.getElementById("plan-found");
const status = document.getElementById("plan-status");
const ticker = document.getElementById("plan-ticker");
const rows = form.querySelector(".sizes");
const addButton = document.getElementById("add-size");

const MOST_SIZES = 12;
const FIRST_SIZES = `${number(55.5, 1)} cm`;
const RIBBED = new Set(["ribbed", "folded"]);
const RIBBED_SHAPES = new Set(["cuffed", "slouch", "beret"]);

// --- the sizes ------------------------------------------------------------------------------------------------

/** How a size is said: its word in the address, and what it is in a request. */
const WHOSE = {
  measured_cm: { word: "cm", request: (value) => ({ head: { value, unit: "cm" } }) },
  measured_in: { word: "in", request: (value) => ({ head: { value, unit: "in" } }) },
  age_months: { word: "months", request: (value) => ({ age_months: value }) },
  age_years: { word: "years", request: (value) => ({ age_years: value }) },
  gestation_weeks: { word: "weeks", request: (value) => ({ gestation_weeks: value }) },
  woman: { word: "woman", request: () => ({ adult: "woman" }) },
  man: { word: "man", request: () => ({ adult: "man" }) },
};
const GROWN = new Set(["woman", "man"]);
const MEASURED = /^(\d+(?:[.,]\d+)?)\s*(?:(cm)|in|inch|inches|["”″])$/i;

/** A number that fits what is asked of a head. */
const EXAMPLES = { measured_cm: 55.5, measured_in: 22, age_months: 9, age_years: 6, gestation_weeks: 32 };

/** "Marrow: 9 months x 4" as the parts of a row. */
const readSize = (text) => {
  const [, label = "", value = "", word, makers = "1"] = /^\s*(?:([^:]*):)?\s*([\d.,]*)\s*([a-z]+?)\s*(?:x\s*(\d+)\s*)?$/i.exec(text) ?? [];
  const singular = (known) => known === word || known === `${word}s`;
  const whose = Object.keys(WHOSE).find((key) => singular(WHOSE[key].word));
  return whose && { label: label.trim(), value, whose, makers };
};

const writeSize = ({ label, value, whose, makers }) =>
  `${label ? `${label.replace(/[:;\n]/g, " ")}: ` : ""}${GROWN.has(whose) ? "" : `${value} `}${WHOSE[whose].word}${makers !== "1" && makers ? ` x ${makers}` : ""}`;

const partsOf = (row) => {
  const [label, text, makers] = [".label", ".value", ".makers"].map((part) => row.querySelector(part).value.trim());
  const whose = row.querySelector("select").value;
  // A head may have its unit beside it, which goes before the one that is chosen.
  const [, value, cm] = (whose.startsWith("measured_") && MEASURED.exec(text)) || [];
  return value ? { label, value, whose: cm ? "measured_cm" : "measured_in", makers } : { label, value: text, whose, makers };
};

const addRow = ({ label = "", value = "", whose = "measured_cm", makers = "1" } = {}) => {
  const row = el("div", { class: "size" },
    el("label", { class: "whose" }, say("whose"), el("select", {},
      Object.keys(WHOSE).map((key) => el("option", { value: key, selected: key === whose }, say(key))))),
    el("label", { class: "figure" }, say("how_much"), el("input", { class: "value", inputmode: "decimal", value })),
    el("label", { class: "few" }, say("hats_of_size"), el("input", { class: "makers", inputmode: "numeric", value: makers })),
    el("label", { class: "named" }, say("label"), el("input", { class: "label", maxlength: 40, value: label, placeholder: say("label_usual") })),
    el("button", { type: "button", class: "remove", onclick: () => removeRow(row) }, "×"));
  row.addEventListener("change", settle);
  rows.append(row);
  settle();
  return row;
};

const removeRow = (row) => {
  const index = [...rows.children].indexOf(row);
  row.remove();
  settle();
  (rows.children[Math.max(0, index - 1)]?.querySelector("select") ?? addButton).focus();
  status.textContent = say("size_removed", { n: index + 1 });
  changed();
};

/** Numbers the rows, and hides what does not apply. */
const settle = () => {
  [...rows.children].forEach((row, index) => {
    row.setAttribute("role", "group");
    row.setAttribute("aria-label", say("size_n", { n: index + 1 }));
    row.querySelector(".remove").setAttribute("aria-label", say("remove_size", { n: index + 1 }));
    row.querySelector(".figure").hidden = GROWN.has(row.querySelector("select").value);
    row.querySelector(".remove").hidden = rows.children.length === 1;
  });
  addButton.hidden = rows.children.length >= MOST_SIZES;
  const kind = form.brim_kind.value;
  const ribbed = RIBBED.has(kind) || (!kind && RIBBED_SHAPES.has(form.silhouette.value));
  for (const label of form.querySelectorAll(".for-rib")) label.hidden = !ribbed;
};

/** Puts the rows in the order of the heads that the answer has, the smallest first; rows without a head stay last. */
const sortRows = () => {
  const filled = [...rows.children].filter((row) => isFilled(partsOf(row)));
  const heads = answer.sizes.map(({ measurements }) => measurements.head.value);
  const order = filled.map((_, index) => index).sort((one, other) => heads[one] - heads[other]);
  rows.prepend(...order.map((index) => filled[index]));
  settle();
  shownSize = handoutSize = 0;
  found.focus({ preventScroll: true });
  status.textContent = say("sorted");
  changed(0);
};

const isFilled = ({ value, whose }) => value || GROWN.has(whose);

/** The sizes of the request; each row is told its place among them, a row that is not filled in has none. */
const sizesOf = () => {
  const sizes = [];
  for (const row of rows.children) {
    const { label, value, whose, makers } = partsOf(row);
    const [kind, figure, few, named] = ["select", ".value", ".makers", ".label"].map((part) => row.querySelector(part));
    for (const field of [kind, figure, few, named]) delete field.dataset.at;
    if (!isFilled({ value, whose })) continue;
    const at = `/sizes/${sizes.length}`;
    Object.assign(figure.dataset, { at, type: "number" });
    if (GROWN.has(whose)) kind.dataset.at = at;
    few.dataset.at = `${at}/makers`;
    few.dataset.type = "whole";
    named.dataset.at = `${at}/label`;
    named.dataset.type = "text";
    [figure.dataset.example, few.dataset.example] = [EXAMPLES[whose], 3];
    const count = GROWN.has(whose) ? null : valueOf(figure, value);
    sizes.push({ ...WHOSE[whose].request(count), ...(label && { label }), ...(makers && { makers: valueOf(few) }) });
  }
  return sizes;
};

// --- the request ----------------------------------------------------------------------------------------------

const NEEDLES = {
  3: 3,
  4: 4,
  magic_loop: { magic_loop: { value: 80, unit: "cm" } },
  magic_loop_100: { magic_loop: { value: 100, unit: "cm" } },
  circulars: { circulars: 2 },
  circular: { circular: { value: 40, unit: "cm" } },
};

/** What `/v1/hats/handout` takes; without `paper` it is what `/v1/hats` takes. */
const requestOf = () => {
  const request = { gauge: {}, sizes: sizesOf() };
  for (const field of form.elements) {
    if (!field.name || !field.dataset.at || !applies(field)) continue;
    const value = field.dataset.type === "needles" ? NEEDLES[field.value] : valueOf(field);
    if (value !== undefined) put(request, field.dataset.at, value);
  }
  const { yarn } = request;
  if (yarn?.price) yarn.price.currency ??= currencyBeside(form.yarn_price_amount);
  // Half a ball or half a price is no fault while somebody types: it is left out, and a line says what is missing.
  if (yarn?.price && (yarn.price.amount === undefined || !yarn.price.currency)) delete yarn.price;
  if (yarn && !(yarn.mass && yarn.length)) delete request.yarn;
  return request;
};

/** What is still missing of the ball, said under its fields. */
const showBallHint = () => {
  const [mass, length, price, currency] = ["mass", "length", "price_amount", "price_currency"].map((part) => form[`yarn_${part}`]);
  const filled = (field) => field.value.trim() !== "";
  const beside = /[^\d.,\s]/.test(price.value);
  const missing = filled(mass) !== filled(length) || (!filled(mass) && [price, currency].some(filled)) ? "ball_half"
    : (filled(price) && !filled(currency) && !beside) || (filled(currency) && !filled(price)) ? "price_half" : null;
  const hint = document.getElementById("ball-hint");
  hint.hidden = missing === null;
  if (missing && hint.textContent !== say(missing)) hint.textContent = say(missing);
};

/** The form as the address of the handout, which the service writes for a browser without JavaScript too. */
const handoutQuery = ({ yarn }, only) => {
  const query = new URLSearchParams(only);
  for (const field of form.elements) {
    const [, part, price] = field.dataset.at?.split("/") ?? [];
    if (part === "yarn" && (!yarn || price === "price")) continue;
    if (!field.name || !field.value.trim() || !applies(field)) continue;
    const value = field.dataset.type === "needles" ? field.value : valueOf(field);
    query.set(field.name, value.unit ? `${value.value} ${value.unit}` : value);
  }
  if (yarn?.price) {
    query.set("yarn_price_amount", yarn.price.amount);
    query.set("yarn_price_currency", yarn.price.currency);
  }
  query.set("sizes", sizesText());
  if (!query.has("language")) query.set("language", document.documentElement.lang);
  return query;
};

const sizesText = () =>
  [...rows.children].map(partsOf).filter(isFilled).map(writeSize).join("; ");

// --- the answer -----------------------------------------------------------------------------------------------

let opened = null;
let answer = null;
let shownSize = 0;

const changed = afterPause(async (signal) => {
  drawSwatch();
  showBallHint();
  const parameters = planParameters();
  opened = String(parameters);
  writeAddress("plan", parameters);
  try {
    const { paper, ...request } = requestOf();
    found.classList.add("waiting");
    answer = await ask("v1/hats", request, signal);
    if (signal.aborted) return;
    showFaults(form, [], changed);
    shownSize = Math.min(shownSize, answer.sizes.length - 1);
    found.hidden = false;
    found.classList.remove("waiting", "stale");
    refill(found, ...answerParts({ ...request, paper }));
    ticker.hidden = false;
    ticker.textContent = say("cast_on_n", { counts: castOn() });
    status.textContent = say("status_done", { counts: castOn() });
  } catch (error) {
    if (signal.aborted) return;
    found.classList.remove("waiting");
    if (!(error instanceof Trouble)) throw error;
    found.classList.add("stale");
    found.querySelector(".stale-note")?.remove();
    found.hidden = false;
    const detail = toldOf(form, error);
    found.prepend(el("p", { class: "stale-note" }, `${detail} ${answer ? say("stale") : ""}`));
    showFaults(form, error.faults, changed);
    ticker.textContent = detail;
    status.textContent = `${say("status_wrong", { detail })} ${answer ? say("stale") : ""}`;
  }
});

/** Notes on references, which a designer asks for: they stand at the end, with the basis. */
const IN_BASIS = new Set(["standards_meet"]);

const castOn = () => inSizes(answer.sizes.map((size) => size.cast_on.stitches));

const answerParts = (request) => {
  const { sizes, basis } = answer;
  const warnings = answer.warnings.filter(({ code }) => !IN_BASIS.has(code));
  const ofReferences = answer.warnings.filter(({ code }) => IN_BASIS.has(code));
  return [
    headline(sizes),
    warnings.length && el("div", { class: "mind" }, el("h2", {}, say("warnings_heading")),
      el("ul", {}, warnings.map(({ code, message }) => el("li", {}, message, code === "sizes_out_of_order" &&
        el("p", {}, el("button", { type: "button", class: "quiet", onclick: sortRows }, say("sort_sizes"))))))),
    sideBySide(sizes),
    picturesPart(request, sizes),
    buying(request, sizes),
    handoutPart(request),
    patternPart(),
    fold(say("basis_heading"), "basis", el("ul", { class: "basis" },
      basis.map(({ rule, source }) => el("li", {}, rule, " ", el("small", {}, say("source", { source })))),
      ofReferences.map(({ message }) => el("li", {}, message)))),
  ];
};

const headline = (sizes) => {
  const [{ measurements }] = sizes;
  const lead = sizes.length === 1
    ? say("lead_one", { circumference: measure(measurements.circumference), depth: measure(measurements.depth), head: measure(measurements.head) })
    : say("lead_more", { n: sizes.length });
  return el("div", { class: "headline" },
    el("h2", {}, say("cast_on_n", { counts: castOn() })), el("p", {}, lead));
};

const sideBySide = (sizes) => {
  const row = (key, value) => [say(key), ...sizes.map(value)];
  const rounds = ({ rounds: count, length }) => `${count} · ${measure(length)}`;
  return el("section", { class: "sheet" }, el("h2", {}, say("sizes_heading")),
    table(say("all_sizes"), [say("row_size"), ...sizes.map(({ label }) => label)], [
      row("row_head", ({ measurements }) => measure(measurements.head)),
      row("row_castOn", ({ cast_on }) => el("strong", {}, `${cast_on.stitches}`)),
      row("row_around", ({ measurements }) => measure(measurements.circumference)),
      row("row_ease_aimed", ({ cast_on }) => percent(aimedEase(cast_on))),
      row("row_ease", ({ cast_on: { ease } }) => `${percent(ease.percent)} · ${signed(ease.length.value)}${behind(ease.length.unit)}`),
      row("row_depth", ({ measurements }) => measure(measurements.depth)),
      ...(sizes.some(({ split }) => split) ? [row("row_split", ({ split }) => split?.split.join(" · ") ?? "")] : []),
      row("row_brim", ({ brim }) => rounds(brim)),
      row("row_body", ({ body }) => rounds(body)),
      row("row_crown", ({ crown, measurements }) => `${crown.rounds.length}${measurements.crown_depth ? ` · ${measure(measurements.crown_depth)}` : ""}`),
      row("row_left", ({ crown }) => `${crown.stitches_left}`),
      row("row_yarn", ({ yarn: { to_buy } }) => amount(to_buy.amount.mass ?? to_buy.amount.length)),
      ...(sizes.some(({ makers }) => makers > 1) ? [row("row_hats", ({ makers }) => `${makers}`)] : []),
    ], "sizes-table"));
};

const percent = (value) => `${signed(value)}\u00a0%`;

/** The ease that the cast-on would have exactly, before it was rounded to stitches that divide. */
const aimedEase = ({ exact, stitches, ease }) => ((100 + ease.percent) * exact) / stitches - 100;

// --- pictures, needles and crown of one size ------------------------------------------------------------------

const picturesPart = (request, sizes) => {
  const place = el("div", { class: "one-size" });
  const fill = () => refill(place, oneSize(sizes[shownSize], request.sizes[shownSize].label));
  const choice = sizes.length > 1 && el("label", { class: "choice" }, say("picture_of"),
    el("select", { onchange: (event) => {
      shownSize = event.target.selectedIndex;
      fill();
    } }, sizes.map(({ label }, index) => el("option", { selected: index === shownSize }, label))));
  fill();
  return el("section", { class: "sheet" },
    el("div", { class: "sheet-head" }, el("h2", {}, say("pictures_heading")), choice), place);
};

/** `called` is the label that somebody gave the size; without one the pictures name it by themselves. */
const oneSize = (size, called) => {
  const titled = (path) => (called ? `${path}&title=${encodeURIComponent(called)}` : path);
  const { label, measurements, crown, split, needles } = size;
  const measures = { label, circumference: measure(measurements.circumference), depth: measure(measurements.depth) };
  return [
    el("div", { class: "pictures" },
      picture(titled(size.drawing), say("worn_alt", measures)),
      picture(titled(size.schematic), say("flat_alt", measures)),
      crown.drawing && picture(crown.drawing, say("crown_alt", { label, stitches: crown.stitches }))),
    needles && el("h3", {}, say("needles_heading")),
    needles && el("p", {}, holdText(needles)),
    split && el("ol", { class: "steps" }, split.start.map(({ text }) => el("li", {}, text))),
    split?.reason && el("p", { class: "hint" }, `${split.split.join(" · ")}: ${split.reason}`),
    needles?.change && el("p", {}, needles.change.text),
    crown.rounds.length && fold(say("crown_table"), "crown", crownTable(crown)),
  ];
};

const picture = (path, alt) => {
  const src = path.replace(/^\//, "");
  const image = el("img", { src, alt, loading: "lazy", width: 640, height: 560 });
  const larger = el("a", { href: src, target: "_blank", rel: "noopener", title: say("picture_larger") }, image);
  image.addEventListener("error", () => larger.replaceWith(el("p", { class: "hint" }, say("picture_gone"))));
  return el("figure", {}, larger);
};

const holdText = ({ hold, count, lengths }) => {
  const held = say(`hold_${hold}`, { n: count ?? 0 });
  const long = lengths.length ? `, ${say("long", { lengths: list(lengths.map(measure), "disjunction") })}` : "";
  return `${held[0].toUpperCase()}${held.slice(1)}${long}.`;
};

const crownTable = ({ rounds }) => {
  const onNeedles = rounds[0].needles?.length ?? 0;
  const needleHeads = Array.from({ length: onNeedles }, (_, index) => say("needle_n", { n: index + 1 }));
  return table(say("crown_table"), [say("round_number"), say("round_count"), say("round_work"), ...needleHeads],
    rounds.map((round) => [
      `${round.number}`,
      el("strong", {}, `${round.after}`),
      el("span", {}, round.moves.map(({ stitches, needle }) =>
        el("em", {}, say("slide", { stitches, from: needle }), " ")), round.text),
      ...(round.needles ?? []).map(String),
    ]), "crown-table");
};

// --- yarn, handout, pattern -----------------------------------------------------------------------------------

const buying = (request, sizes) => {
  const { order } = answer;
  const uses = sizes.map(({ label, yarn: { to_buy: { amount: { mass, length } } } }) => el("li", {}, mass
    ? say("buy_uses", { label, mass: amount(mass), length: amount(length) })
    : say("buy_uses_length", { label, length: amount(length) })));
  return el("section", { class: "sheet buy" }, el("h2", {}, say("buy_heading")),
    order ? orderText(order) : el("p", { class: "hint" }, say("buy_no_ball")),
    el("h3", {}, say("row_yarn")),
    el("ul", {}, uses),
    el("p", { class: "hint" }, say("buy_margin", { percent: number(sizes[0].yarn.to_buy.margin_percent) })));
};

const orderText = ({ makers, shared, own, one_basket: basket }) => {
  const hats = say("hats", { n: makers });
  const best = shared?.balls ? shared : own;
  if (!best?.balls) return el("p", { class: "hint" }, say("buy_no_ball"));
  const balls = (count) => say("balls", { n: count });
  return el("div", {},
    el("p", { class: "big" }, say(best.balls < own.balls ? "buy_basket" : "buy_one", { balls: balls(best.balls), hats })),
    el("p", {}, [
      best.cost && say("buy_cost", { cost: money(best.cost) }),
      best.left_over?.mass && say("buy_left", { mass: measure(best.left_over.mass) }),
      best.balls < own.balls && say("buy_each", { balls: balls(own.balls) }),
    ].filter(Boolean).join(" · ")),
    basket?.contents?.length > 1 && makers > 1 && fold(say("basket_share"), "basket", el("ul", {}, basket.contents.map((content) =>
      el("li", {}, say("basket_line", {
        n: content.balls,
        balls: balls(content.balls),
        hats: list(content.pieces.map(({ label, hats: count }) => count > 1 ? `${count} × ${label}` : label)),
      }))))));
};

let handoutSize = 0; // 0 is all sizes

const handoutPart = (request) => {
  const said = el("span", { role: "status", class: "said" });
  const labels = answer.sizes.map(({ label }) => label);
  if (handoutSize > labels.length) handoutSize = 0;
  const only = () => (handoutSize ? { only_size: handoutSize } : {});
  const link = el("a", { class: "button", target: "_blank", rel: "noopener" }, say("print_view"));
  const point = () => link.setAttribute("href", `handout?${handoutQuery(request, only())}`);
  const choice = labels.length > 1 && el("label", { class: "choice" }, say("handout_for"),
    el("select", { onchange: (event) => {
      handoutSize = event.target.selectedIndex;
      point();
    } }, [say("handout_all"), ...labels].map((label, index) => el("option", { selected: index === handoutSize }, label))));
  const download = async () => {
    said.textContent = say("handout_making");
    try {
      const pdf = await ask("v1/hats/handout", { ...request, ...only() }, undefined, "application/pdf");
      const address = URL.createObjectURL(pdf);
      el("a", { href: address, download: fileName(labels[handoutSize - 1]) }).click();
      setTimeout(() => URL.revokeObjectURL(address), 60_000);
      said.textContent = say("handout_done");
    } catch (error) {
      said.textContent = error.message;
    }
  };
  point();
  return el("section", { class: "sheet handout" },
    el("div", { class: "sheet-head" }, el("h2", {}, say("handout_heading")), choice),
    el("p", {}, say("handout_text")),
    el("p", { class: "actions" }, link, el("button", { type: "button", onclick: download }, say("handout_pdf")), said),
    el("p", { class: "actions" }, copyButton(say("share"), () => location.href, say("share_done")),
      el("a", { href: "#plan" }, say("start_anew"))));
};

/** A name for the file of the handout, in the language of the pattern: its name, and the size where it is of one. */
const fileName = (label = "") => {
  const [name] = answer.pattern.split("\n");
  return `${`${name} ${label}`.toLowerCase().match(/[\p{L}\p{N}]+/gu)?.join("-") ?? "roundwright"}.pdf`;
};

/** The written pattern: blocks between blank lines, each under its heading. */
const patternPart = () => {
  const [name, ...blocks] = answer.pattern.trim().split(/\n\n+/);
  return el("section", { class: "sheet pattern" },
    el("div", { class: "sheet-head" }, el("h2", {}, say("pattern_heading")),
      copyButton(say("copy"), () => answer.pattern, say("copied"))),
    el("div", { class: "printed" }, el("p", { class: "name" }, name), blocks.map((block) => {
      const [heading, ...lines] = block.split("\n");
      return [el("h3", {}, heading), ...lines.map((line) => el("p", { class: line.startsWith("  ") && "aside" }, line.trim()))];
    })));
};

// --- the swatch -----------------------------------------------------------------------------------------------

/** Draws the swatch to its gauge: as many stitches and rounds as were counted, up to what can be told apart. */
const drawSwatch = () => {
  const across = Math.min(Math.max(toNumber(form.gauge_stitches.value.trim()) || 20, 2), 60);
  const up = Math.min(Math.max(toNumber(form.gauge_rows.value.trim()) || across * 1.31, 2), 80);
  const [width, height] = [100 / across, 100 / up];
  const pattern = document.getElementById("fabric");
  pattern.setAttribute("width", width);
  pattern.setAttribute("height", height);
  const [x, y] = [(part) => (part * width).toFixed(3), (part) => (part * height).toFixed(3)];
  // A knit stitch: two legs that lean towards each other and meet below, in the stitch under it.
  document.getElementById("stitch").setAttribute("d",
    `M${x(0.06)} ${y(0)}C${x(0.02)} ${y(0.4)} ${x(0.3)} ${y(0.75)} ${x(0.47)} ${y(1)}L${x(0.47)} ${y(0.62)}C${x(0.42)} ${y(0.45)} ${x(0.36)} ${y(0.1)} ${x(0.34)} ${y(0)}Z` +
    `M${x(0.94)} ${y(0)}C${x(0.98)} ${y(0.4)} ${x(0.7)} ${y(0.75)} ${x(0.53)} ${y(1)}L${x(0.53)} ${y(0.62)}C${x(0.58)} ${y(0.45)} ${x(0.64)} ${y(0.1)} ${x(0.66)} ${y(0)}Z`);
  const ticks = [];
  const inches = form.gauge_over.value !== "10cm";
  const parts = inches ? 16 : 20;
  for (let part = 0; part <= parts; part++) {
    const at = (100 * part) / parts;
    const long = part % (inches ? 4 : 2) === 0 ? 4.5 : 2.5;
    ticks.push(`M${8 + at} 101.5v${long}`, `M6.5 ${100 - at}h${-long}`);
  }
  form.querySelector(".ticks").setAttribute("d", ticks.join(""));
};

/** The plan as parameters of an address: what is not as it stands at first. */
const planParameters = () => {
  const parameters = stateOf(form);
  if (sizesText() !== FIRST_SIZES) parameters.set("sizes", sizesText());
  return parameters;
};

/** The plan for a count that came out wrong: its parameters, the names of its sizes, and the hat as a request. */
export const planned = {
  parameters: () => String(planParameters()),
  labels: () => {
    const count = sizesText().split(";").length;
    return answer?.sizes.length === count
      ? answer.sizes.map(({ label }) => label)
      : Array.from({ length: count }, (_, index) => say("size_n", { n: index + 1 }));
  },
  request: () => {
    const { paper, wording, language, ...request } = requestOf();
    return request;
  },
};

// --- opening --------------------------------------------------------------------------------------------------

const fill = (parameters) => {
  restore(form, parameters);
  rows.replaceChildren();
  for (const text of (parameters.get("sizes") ?? FIRST_SIZES).split(/[;\n]/)) {
    const size = readSize(text);
    if (size) addRow(size);
  }
  if (!rows.children.length) addRow();
  drawSwatch();
};

/** Takes a plan from another view's address, so that it is there without being shown. */
export const take = (parameters) => {
  if (parameters !== null && opened === parameters) return;
  if (parameters !== null || !rows.children.length) fill(new URLSearchParams(parameters ?? ""));
};

export const open = (parameters) => {
  if (opened === String(parameters)) return;
  opened = String(parameters);
  fill(parameters);
  changed(0);
};

form.addEventListener("submit", (event) => event.preventDefault());
form.addEventListener("input", () => {
  settle();
  changed();
});
addButton.addEventListener("click", () => {
  const { whose } = partsOf(rows.lastElementChild);
  addRow({ whose: GROWN.has(whose) ? "age_years" : whose }).querySelector(".value").focus();
  changed();
});
ticker.addEventListener("click", (event) => {
  event.preventDefault();
  (form.querySelector("[aria-invalid]") ?? found).focus();
  (form.querySelector(".wrong") ?? found).scrollIntoView();
});
