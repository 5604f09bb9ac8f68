// What the three views share: words, numbers, elements, calls of the service, the address, faults at their fields.

const language = document.documentElement.lang;
const words = await (await fetch(`page/words-${language}.json`)).json();
const plurals = new Intl.PluralRules(language);

/** The words of a key, with values in their places; a key with several forms takes that of the number `n`. */
export const say = (key, values = {}) => {
  const forms = words[key];
  const text = typeof forms === "string" ? forms : (forms[plurals.select(values.n)] ?? forms.other);
  return text.replace(/\{(\w+)\}/g, (_, name) => values[name]);
};

export const number = (value, digits = 1) =>
  new Intl.NumberFormat(language, { maximumFractionDigits: digits }).format(value);

export const money = ({ amount, currency }) =>
  new Intl.NumberFormat(language, { style: "currency", currency }).format(amount);

/** A list of words: "a, b and c", or with `or`. */
export const list = (items, type = "conjunction") => new Intl.ListFormat(language, { type }).format(items);

/** A unit as it stands behind its number; `in` is a word of other languages. */
export const behind = (unit) => (unit === "in" && !language.startsWith("en") ? "″" : `\u00a0${unit}`);

/** A quantity as a knitter reads it: inches in quarters, grams whole. */
export const measure = ({ value, unit }) => {
  if (unit !== "in") return `${number(value, unit === "g" || value >= 100 ? 0 : 1)}\u00a0${unit}`;
  const quarters = Math.round(value * 4);
  const whole = Math.floor(quarters / 4);
  const part = ["", "¼", "½", "¾"][quarters % 4];
  return `${whole || !part ? number(whole) : ""}${part}${behind(unit)}`;
};

/** Yarn to have at hand, rounded up as on the handout: whole, or to a tenth below 10. */
export const amount = ({ value, unit }) => {
  const parts = value < 10 ? 10 : 1;
  return `${number(Math.ceil(Number((value * parts).toFixed(5))) / parts)}\u00a0${unit}`;
};

/** A number with its sign, such as −9.9. */
export const signed = (value) =>
  new Intl.NumberFormat(language, { maximumFractionDigits: 1, signDisplay: "exceptZero" }).format(value).replace("-", "−");

/** Numbers of several sizes as a pattern prints them: 80 (88, 96). */
export const inSizes = ([first, ...others]) => {
  const [open, between, close] = say("in_sizes").split("|");
  return others.length ? `${first}${open}${others.join(between)}${close}` : `${first}`;
};

/** An element with attributes, listeners (`onclick`) and children; null and false are left out. */
export const el = (name, attributes = {}, ...children) => {
  const made = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) {
    if (typeof value === "function") made.addEventListener(key.slice(2), value);
    else if (value === true) made.setAttribute(key, "");
    else if (value !== null && value !== undefined && value !== false) made.setAttribute(key, value);
  }
  made.append(...children.flat(Infinity).filter((child) => child !== null && child !== undefined && child !== false));
  return made;
};

export const fold = (title, key, ...inside) =>
  el("details", { "data-key": key }, el("summary", {}, title), ...inside);

/** Puts new content into a place; what was folded out stays so. */
export const refill = (place, ...content) => {
  const open = new Set([...place.querySelectorAll("details[open]")].map((one) => one.dataset.key));
  place.replaceChildren(...content.flat(Infinity).filter(Boolean));
  for (const one of place.querySelectorAll("details")) one.open = open.has(one.dataset.key);
};

/** A table in a frame of its own that scrolls where it is wider than the page; the first cell of a row heads it. */
export const table = (caption, head, rows, marked = "") =>
  el("div", { class: `wide ${marked}`, role: "region", "aria-label": caption, tabindex: 0 },
    el("table", {},
      el("thead", {}, el("tr", {}, head.map((cell) => el("th", { scope: "col" }, cell)))),
      el("tbody", {}, rows.map(([first, ...cells]) =>
        el("tr", {}, el("th", { scope: "row" }, first), cells.map((cell) => el("td", {}, cell)))))));

/** Something the reader can put right: `faults` are `{ at, detail, original, nearest, value }`, `at` a JSON pointer. */
export class Trouble extends Error {
  constructor(message, faults = []) {
    super(message);
    this.faults = faults;
  }
}

const TRIES = 2;

/** The answer of the service; a problem is thrown as `Trouble`. */
export const ask = async (path, body, signal, accept = "application/json") => {
  for (let tries = 1; ; tries++) {
    let response;
    try {
      response = await fetch(path, {
        method: "POST",
        headers: { "content-type": "application/json", "accept-language": language, accept },
        body: JSON.stringify(body),
        signal,
      });
    } catch (error) {
      if (signal?.aborted) throw error;
      throw new Trouble(say("out_of_reach"));
    }
    if (response.ok) return accept === "application/json" ? response.json() : response.blob();
    const wait = Number(response.headers.get("retry-after"));
    if (wait && tries < TRIES) {
      await new Promise((resume) => setTimeout(resume, wait * 1000));
      continue;
    }
    if (response.status === 401) throw new Trouble(say("key_needed"));
    throw troubleOf(await response.json().catch(() => ({ detail: say("out_of_reach") })));
  }
};

/** A problem of the service: its faults with the change that mends each, and the nearest that works for the first. */
const troubleOf = ({ status, detail, errors = [], nearest }) => {
  const faults = errors.map(({ pointer, suggestion, ...error }) => ({
    at: fromFragment(pointer), ...inWords(status, error),
    ...(suggestion && { changeAt: fromFragment(suggestion.pointer), value: suggestion.value }),
  }));
  if (!faults.length) return new Trouble(detail);
  if (nearest) faults[0].nearest = nearest;
  return new Trouble(faults[0].detail, faults);
};

const LIMIT = /^This must be at (least|most) (-?\d+(?:\.\d+)?)\./;

/**
 * A fault in the words of the page. What is not as the document says is worded for programs, so it is said anew; what
 * cannot be knitted is worded for knitters, in English: elsewhere the page says it in short, and the `original` after it.
 */
const inWords = (status, { code, detail }) => {
  const said = `fault_${code}` in words ? say(`fault_${code}`) : detail;
  if (status === 422) return language === "en" || said === detail ? { detail } : { detail: said, original: detail };
  const [, bound, limit] = LIMIT.exec(detail) ?? [];
  return { detail: bound ? say(`fault_at_${bound}`, { limit: number(Number(limit), 3) }) : said };
};

const fromFragment = (pointer = "") => pointer.replace(/^#/, "");

// --- fields ---------------------------------------------------------------------------------------------------

const NUMBER = /^[-+−]?\d+(?:[.,]\d+)?$/;
const QUANTITY = /^(\d+(?:[.,]\d+)?)\s*([a-z]*|["”″])\.?$/i;
const PRICE = /^([^\d.,\s-]*)\s*(\d+(?:[.,]\d+)?)\s*([^\d\s]*)$/;
/** Units as people write them, and as the service does. */
const UNITS = {
  mass: { g: "g", gr: "g", kg: "kg", oz: "oz", lb: "lb", lbs: "lb" },
  length: { mm: "mm", cm: "cm", m: "m", in: "in", inch: "in", inches: "in", '"': "in", "”": "in", "″": "in", yd: "yd", yds: "yd", yards: "yd" },
};
/** Signs that stand for one currency, and signs of several. */
const CURRENCIES = { "€": "EUR", euro: "EUR", euros: "EUR", "£": "GBP", "zł": "PLN", "kč": "CZK", ft: "HUF", "fr.": "CHF", sfr: "CHF", "₹": "INR", "₺": "TRY", "₴": "UAH", "₪": "ILS" };
const SEVERAL_CURRENCIES = { $: ["USD", "CAD", "AUD"], kr: ["NOK", "SEK", "DKK"], "kr.": ["DKK", "NOK", "SEK"], "¥": ["JPY", "CNY"] };

/** Whether a field is not hidden within its form; the form itself may be, in a view that is not shown. */
export const applies = (field) => {
  const hidden = field.closest("[hidden]");
  return !hidden || hidden.contains(field.closest("form"));
};

export const toNumber = (text) => (NUMBER.test(text) ? Number(text.replace(",", ".").replace("−", "-")) : NaN);

/** The value of a field in a request, undefined where it is empty. */
export const valueOf = (field, text = field.value.trim()) => {
  const { type, unit: usual } = field.dataset;
  if (!text) return undefined;
  if (type === "text") return text;
  if (type === "currency") return currencyOf(field, text);
  if (type === "number" || type === "whole" || type === "price") {
    const value = toNumber(type === "price" ? PRICE.exec(text)?.[2] ?? "" : text);
    if (Number.isNaN(value)) throwWrong(field, "not_a_number");
    if (type === "whole" && !Number.isInteger(value)) throwWrong(field, "not_whole");
    return value;
  }
  const [, value, written] = QUANTITY.exec(text) ?? [];
  const unit = written ? UNITS[type][written.toLowerCase()] : usual;
  if (value === undefined || !unit) throwWrong(field, "not_a_measure", { unit: usual });
  return { value: toNumber(value), unit };
};

/** The code of a currency written as its code or its sign. */
const currencyOf = (field, text) => {
  const sign = text.toLowerCase();
  if (SEVERAL_CURRENCIES[sign]) {
    throwWrong(field, "several_currencies", { sign: text, codes: list(SEVERAL_CURRENCIES[sign], "disjunction") });
  }
  return CURRENCIES[sign] ?? (/^[a-z]{3}$/.test(sign) ? sign.toUpperCase() : throwWrong(field, "not_a_currency"));
};

/** The currency written beside the price itself: `12,50 €`. */
export const currencyBeside = (field) => {
  const [, before, , after] = PRICE.exec(field.value.trim()) ?? [];
  const sign = before || after;
  return sign ? currencyOf(field, sign) : undefined;
};

const throwWrong = (field, key, values = {}) => {
  const { example = "" } = field.dataset;
  const detail = say(key, { example: NUMBER.test(example) ? number(Number(example), 2) : example, ...values });
  throw new Trouble(detail, [{ at: field.dataset.at, detail }]);
};

/** 64 (72, 80), 64 (72) 80, (64) 72 (80), 64 – 72 – 80, on one line. */
const COUNTS = String.raw`(\(?\b\d+\)?(?:[ \t\xa0]*[([][\d,;/ \xa0–-]{1,60}[)\]]|[ \t\xa0]*[–/-][ \t\xa0]*\d+|(?<=[)\]])[ \t\xa0]*\d+)*)`;
/** How texts of several languages say what is cast on: the count behind the word, or before it. */
const CAST_ON = [
  new RegExp(`(?:cast[ -]on|\\bco\\b|anschlag\\b|monte[rz]|monta[r]?|legg opp|slå)\\D{0,24}?${COUNTS}`, "i"),
  new RegExp(`${COUNTS}\\s*(?:m\\b|maschen|sts|stitches)?\\.?\\s*(?:anschl|cast on)`, "i"),
];

/** The stitches cast on in each size: those of the field, else those the pattern says. */
export const castOnOf = (field, text) => {
  const read = CAST_ON.map((words) => words.exec(text)?.[1]).find(Boolean);
  const numbers = (field.value.trim() || read || "").match(/\d+/g)?.map(Number);
  if (numbers) return numbers;
  const detail = say("cast_on_missing");
  throw new Trouble(detail, [{ at: field.dataset.at, detail }]);
};

/** Puts a value at a pointer of a request, as `/gauge/rows`. */
export const put = (request, pointer, value) => {
  const steps = pointer.slice(1).split("/");
  const last = steps.pop();
  let place = request;
  for (const step of steps) place = place[step] ??= {};
  place[last] = value;
};

/** What to say of a trouble away from its field: the field's name goes before it. */
export const toldOf = (form, { message, faults: [first] }) => {
  const field = first && fieldAt(form, first.at);
  const label = field?.closest("label")?.firstChild.data?.trim() ?? field?.querySelector("legend")?.textContent;
  const group = field?.closest("[role=group]")?.getAttribute("aria-label");
  const name = [group, label].filter(Boolean).join(", ");
  return name ? say("at_field", { field: name, detail: message }) : message;
};

/** Shows faults at the fields they point to, with the nearest that works as a button where it is a plain value. */
export const showFaults = (form, faults, changed) => {
  for (const shown of form.querySelectorAll(".wrong")) shown.remove();
  for (const field of form.querySelectorAll("[aria-invalid]")) {
    field.removeAttribute("aria-invalid");
    if (field.dataset.hint) field.setAttribute("aria-describedby", field.dataset.hint);
    else field.removeAttribute("aria-describedby");
  }
  faults.forEach((fault, index) => {
    const field = fieldAt(form, fault.at);
    if (!field) return;
    const id = `${form.id}-wrong-${index}`;
    const target = fault.changeAt === undefined ? field : fieldAt(form, fault.changeAt);
    const value = target && plainValue(fault, target);
    const help = typeof value === "string"
      ? el("button", { type: "button", class: "quiet", onclick: () => {
          target.value = value;
          target.focus();
          changed();
        } }, value ? say("try_nearest", { value: shownValue(target, value) }) : say("leave_empty"))
      : fault.nearest && ` ${say("nearest", { nearest: fault.nearest })}`;
    const original = fault.original && el("small", { lang: "en" }, ` ${fault.original}`);
    const shown = el("div", { class: "wrong", id }, el("span", {}, fault.detail), original, help);
    (field.closest("label") ?? field).after(shown);
    for (const control of field.matches("input, select, textarea") ? [field] : []) {
      control.setAttribute("aria-invalid", "true");
      control.setAttribute("aria-describedby", [control.dataset.hint, id].filter(Boolean).join(" "));
    }
  });
};

/** The field with the longest pointer that a fault's begins with. */
const fieldAt = (form, at) =>
  [...form.querySelectorAll("[data-at]")]
    .filter((field) => field.dataset.at && (at === field.dataset.at || at.startsWith(`${field.dataset.at}/`)) && applies(field))
    .sort((one, other) => other.dataset.at.length - one.dataset.at.length)[0] ??
  [...form.querySelectorAll("[data-at]")].find((field) => field.dataset.at.startsWith(`${at}/`) && applies(field));

/** What works as the field would be filled in, "" to leave it empty, or null where it is more than a plain value. */
const plainValue = ({ value, nearest }, field) => {
  if (!field.matches("input, select")) return null;
  const options = field.matches("select") && [...field.options].map((option) => option.value);
  const text = value === undefined ? fromWords(nearest, field) : fromSuggestion(value, field);
  return options && !options.includes(text) ? null : text;
};

const isNumber = ({ dataset: { type } }) => type === "number" || type === "whole";

const fromSuggestion = (value, field) => {
  if (value === null) return "";
  if (typeof value !== "object") return String(value);
  if (!value.unit) return null;
  return value.unit === "mm" && isNumber(field) ? `${value.value / 10} cm` : `${value.value} ${value.unit}`; // a head, by a tape
};

/** The value in words such as "49 sections", "round 34" and "100 cm"; null where they say more. */
const fromWords = (nearest, field) => {
  if (field.matches("select")) return nearest ?? null;
  const [, figure, unit] = /^(?:[a-z]+ )?(-?\d+(?:\.\d+)?) ?([a-z%]*)$/i.exec(nearest ?? "") ?? [];
  if (!figure) return null;
  return isNumber(field) ? figure : `${figure} ${unit}`.trim();
};

const shownValue = (field, value) =>
  field.matches("select") ? [...field.options].find((option) => option.value === value).text : value;

// --- the address ----------------------------------------------------------------------------------------------

/** View and parameters of the address: `#plan?gauge_rows=28`. It never leaves the browser. */
export const readAddress = () => {
  const [view, query = ""] = location.hash.slice(1).split("?");
  return { view, parameters: new URLSearchParams(query) };
};

export const writeAddress = (view, parameters) => {
  const query = String(parameters);
  const hash = `#${view}${query ? `?${query}` : ""}`;
  history.replaceState(null, "", hash);
  for (const link of document.querySelectorAll(`[data-view=${view}]`)) link.setAttribute("href", hash);
};

const usual = (field) =>
  field.matches("select")
    ? ([...field.options].find((option) => option.defaultSelected) ?? field.options[0])?.value
    : field.type === "checkbox" ? field.defaultChecked : field.defaultValue;

/** The fields of a form that are not as they stand at first. */
export const stateOf = (form) => {
  const parameters = new URLSearchParams();
  for (const field of form.elements) {
    if (field.name && applies(field) && field.value !== usual(field)) parameters.set(field.name, field.value);
  }
  return parameters;
};

export const restore = (form, parameters) => {
  for (const field of form.elements) {
    if (field.name) field.value = parameters.get(field.name) ?? usual(field);
  }
};

/** A text as a word of an address, a quarter as long; and back. What cannot be read is no text. */
export const packed = async (text) => {
  const bytes = await bytesOf(new Blob([text]).stream().pipeThrough(new CompressionStream("deflate-raw")));
  return btoa(String.fromCharCode(...bytes)).replaceAll("+", "-").replaceAll("/", "_").replaceAll("=", "");
};

export const unpacked = async (word) => {
  if (!word) return "";
  try {
    const bytes = Uint8Array.from(atob(word.replaceAll("-", "+").replaceAll("_", "/")), (letter) => letter.charCodeAt(0));
    return new TextDecoder().decode(await bytesOf(new Blob([bytes]).stream().pipeThrough(new DecompressionStream("deflate-raw"))));
  } catch {
    return "";
  }
};

const bytesOf = async (stream) => new Uint8Array(await new Response(stream).arrayBuffer());

// --- calculating while somebody types -------------------------------------------------------------------------

const PAUSE_MS = 350;

/** Calls `work(signal)` once the reader pauses; a later call takes the place of an earlier one. */
export const afterPause = (work) => {
  let timer, controller;
  return (pause = PAUSE_MS) => {
    clearTimeout(timer);
    controller?.abort();
    controller = new AbortController();
    const { signal } = controller;
    timer = setTimeout(() => work(signal).catch((error) => {
      if (!signal.aborted) throw error;
    }), pause);
  };
};

/** A button that copies a text and says so beside itself. */
export const copyButton = (label, text, done) => {
  const said = el("span", { role: "status", class: "said" });
  const button = el("button", { type: "button", class: "quiet", onclick: async () => {
    await navigator.clipboard.writeText(text());
    said.textContent = done;
  } }, label);
  return el("span", { class: "copy" }, button, said);
};
