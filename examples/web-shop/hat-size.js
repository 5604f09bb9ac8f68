// <hat-size>: which size of hat, how many balls, and what it will look like. Its attributes: README.md.

const PATIENCE_MS = 10_000;
const LAST_MONTH = 252;

const LOOK = new CSSStyleSheet();
LOOK.replaceSync(`
:host { display: block; container-type: inline-size; color-scheme: light dark; line-height: 1.45;
  --paper: var(--hat-paper, light-dark(#fcf8ef, #20222b)); --ink: var(--hat-ink, light-dark(#2a2a35, #efe8da));
  --soft: var(--hat-soft, light-dark(#5d5b66, #b3aea6)); --line: var(--hat-line, light-dark(#8a8172, #8b8a8e));
  --accent: var(--hat-accent, light-dark(#a63d1f, #ffab8a)); --on: var(--hat-on-accent, light-dark(#fff, #20222b)) }
:host([theme=light]) { color-scheme: light }
:host([theme=dark]) { color-scheme: dark }
* { box-sizing: border-box; margin: 0 }
[hidden] { display: none !important }
section { background: var(--paper); color: var(--ink); padding: 1.5rem; outline: 2px dashed var(--line); outline-offset: -.5rem }
h3 { font-size: 1.9rem; line-height: 1.2 }
form, #answer { display: grid; gap: 1rem; margin: 1rem 0 }
fieldset, legend { border: 0; padding: 0 }
legend, label, dt, small { color: var(--soft); font-size: .9rem }
fieldset label { display: flex; align-items: center; gap: .5rem; min-height: 2.25rem; color: var(--ink); font-size: 1rem }
[type=radio] { width: 1.2rem; height: 1.2rem; accent-color: var(--accent) }
.row, dl { display: grid; grid-template-columns: repeat(auto-fit, minmax(7.5rem, 1fr)); gap: .75rem }
input, select, button { font: inherit; color: var(--ink); min-height: 2.75rem; border-radius: .25rem }
label > input:not([type=radio]), select { width: 100%; margin-top: .3rem; padding: 0 .6rem; background: var(--paper); border: 1px solid var(--line) }
[aria-invalid=true] { border: 2px solid var(--accent) !important }
button { padding: 0 1.25rem; border: 0; cursor: pointer; background: var(--accent); color: var(--on); font-weight: 600; justify-self: start }
:focus-visible { outline: 3px solid var(--ink); outline-offset: 2px }
summary { cursor: pointer; padding: .5rem 0 }
.note { border-left: 4px solid var(--accent); padding-left: .75rem }
dl { margin: 1rem 0 }
small { display: block }
img { width: 100%; max-width: 36rem; height: auto }
ul { padding-left: 1.2rem }
#answer { border-top: 2px dashed var(--line); padding-top: 1rem }
@container (min-width: 40rem) {
  fieldset div { display: flex; gap: 1.5rem }
  #answer { grid-template-columns: 1fr 1fr; gap: 2rem }
  details { grid-column: 1 / -1 }
}`);

const FORM = `<section aria-labelledby="name">
<h2 id="name">Find your size</h2>
<form novalidate autocomplete="off">
  <fieldset><legend>Who is it for?</legend><div>
    <label><input type="radio" name="who" value="child" checked>A child, by age</label>
    <label><input type="radio" name="who" value="adult">A grown-up</label>
    <label><input type="radio" name="who" value="head">A measured head</label>
  </div></fieldset>
  <div class="row" id="child">
    <label>Age today<input id="age" inputmode="decimal" aria-describedby="trouble"></label>
    <label>counted in<select id="span"><option value="1">months<option value="12">years</select></label>
    <label>To be worn<select id="later"><option value="0">now<option value="3">in 3 months<option value="6">in 6 months</select></label>
  </div>
  <label id="adult" hidden>Whose size<select id="grown"><option value="woman">a woman's<option value="man">a man's</select></label>
  <div class="row" id="head" hidden>
    <label>Around the head<input id="around" inputmode="decimal" aria-describedby="trouble"></label>
    <label>measured in<select id="unit"><option value="cm">centimetres<option value="in">inches</select></label>
  </div>
  <p class="note" role="alert" id="trouble" hidden></p>
  <button>Find the size</button>
</form>
<p role="status" id="status"></p>
<div id="answer" hidden></div>
</section>`;

const el = (name, attributes, ...content) => {
  const made = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  made.append(...content);
  return made;
};

/** "38 cm" as the service takes it. */
const measured = (text) => {
  const [, value, unit] = /([\d.]+)\s*([a-z]+)/i.exec(text ?? "") ?? [];
  return unit && { value: Number(value), unit };
};

/** What the reader is told; `field` is the one to put right. */
class Trouble extends Error {
  constructor(message, field, state = "error") {
    super(message);
    Object.assign(this, { field, state });
  }
}

class HatSize extends HTMLElement {
  #asking;
  #back = () => this.getAttribute("state") === "offline" && this.#find();

  connectedCallback() {
    addEventListener("online", this.#back);
    if (this.shadowRoot) return;
    this.attachShadow({ mode: "open" }).adoptedStyleSheets = [LOOK];
    this.shadowRoot.innerHTML = FORM;
    this.form = this.shadowRoot.querySelector("form");
    this.form.onchange = () => {
      for (const who of ["child", "adult", "head"]) this.#at(who).hidden = who !== this.form.who.value;
    };
    this.form.onsubmit = (event) => {
      event.preventDefault();
      this.#find();
    };
    this.#show("idle");
  }

  disconnectedCallback() {
    removeEventListener("online", this.#back);
    this.#asking?.abort();
  }

  #at(id) {
    return this.shadowRoot.getElementById(id);
  }

  #number(field) {
    const text = this.#at(field).value.trim().replace(",", ".");
    if (text && Number(text) >= 0) return Number(text);
    throw new Trouble("A number is needed here, such as 9 or 43.5.", field);
  }

  /** Whose head, as the service is told. */
  #wearer() {
    const who = this.form.who.value;
    if (who === "adult") return { adult: this.#at("grown").value };
    if (who === "head") return { head: { value: this.#number("around"), unit: this.#at("unit").value } };
    const worn = this.#number("age") * this.#at("span").value + Number(this.#at("later").value);
    if (worn <= LAST_MONTH) return { age_months: worn };
    throw new Trouble("Ages go up to 21 years; for a grown-up, say woman or man.", "age");
  }

  async #find() {
    this.#asking?.abort();
    const { signal } = (this.#asking = new AbortController());
    try {
      const wearer = this.#wearer();
      if (!navigator.onLine) throw new Trouble("You are offline. Your size follows as soon as you are back.", null, "offline");
      this.#show("loading", "Working it out…");
      const found = await this.#plan(wearer, signal);
      if (signal.aborted) return;
      this.#at("answer").replaceChildren(...this.#told(found, wearer));
      this.#show("done", "Here is your size.");
      this.dispatchEvent(new CustomEvent("hatsize", { detail: found, bubbles: true }));
    } catch (error) {
      if (!(error instanceof Trouble)) console.error(error);
      if (!signal.aborted) this.#show(error.state ?? "error", error.message, error.field);
    }
  }

  /** The size on offer that fits, if the shop has sizes, and the hat in it. */
  async #plan(wearer, signal) {
    const read = (name, otherwise = "") => this.getAttribute(name) ?? otherwise;
    const units = wearer.head?.unit === "in" ? "imperial" : read("units", "metric");
    const offered = read("sizes").split(";").filter((size) => size.trim()).map((size) => {
      const [, label, around] = /^\s*(.+?)\s+([\d.]+\s*\w+)\s*$/.exec(size);
      return { label, circumference: measured(around) };
    });
    const fit = offered.length && await this.#ask("/v1/sizing/recommend", { ...wearer, offered, units }, signal);
    const size = fit && fit.sizes.find(({ label }) => label === fit.choose);
    const head = fit && (fit.head.own ?? fit.head.median);
    const [stitches, rows, over = "10cm"] = read("gauge").trim().split(/\s+/);
    const [mass, length] = read("ball").match(/[\d.]+\s*[a-z]+/gi) ?? [];
    const [amount, currency] = read("price").split(" ");
    const plan = await this.#ask("/v1/hats", {
      gauge: { stitches: Number(stitches), rows: Number(rows), over: measured(over) },
      sizes: [wearer],
      ease: size ? { length: { value: size.circumference.value - head.value, unit: head.unit } } : { percent: -10 },
      yarn: { mass: measured(mass), length: measured(length), ...(currency && { price: { amount: Number(amount), currency } }) },
      crown: { style: read("crown", "dome") },
      units,
    }, signal);
    return { fit, size, plan };
  }

  async #ask(path, body, signal) {
    let answer, said;
    try {
      answer = await fetch(new URL(path, this.getAttribute("service")), {
        method: "POST",
        headers: { "content-type": "application/json" },
        body: JSON.stringify(body),
        signal: AbortSignal.any([signal, AbortSignal.timeout(PATIENCE_MS)]),
      });
      said = await answer.json();
    } catch {
      throw new Trouble("The size service cannot be reached. Please try again in a moment.");
    }
    if (answer.ok) return said;
    const [, about] = /\/(head|age)/.exec(said.errors?.[0]?.pointer) ?? [];
    const nearest = said.nearest ? ` The nearest that works: ${said.nearest}.` : "";
    throw new Trouble(said.detail + nearest, about === "head" ? "around" : about);
  }

  #show(state, message = "", field = null) {
    const wrong = state === "error";
    this.setAttribute("state", state);
    for (const id of ["age", "around"]) this.#at(id).ariaInvalid = wrong && id === field;
    this.#at("trouble").hidden = !wrong;
    this.#at("trouble").textContent = wrong ? message : "";
    this.#at("status").textContent = wrong ? "" : message;
    this.#at("answer").hidden = state !== "done";
    if (field) this.#at(field).focus();
  }

  #told({ fit, size, plan: { sizes: [hat], cautions } }, wearer) {
    const language = this.closest("[lang]")?.lang;
    const number = (value, how) => new Intl.NumberFormat(language, how).format(value);
    const say = ({ value, unit }) => `${number(value, { maximumFractionDigits: unit === "g" ? 0 : 1 })} ${unit}`;
    const { balls, cost, left_over } = hat.yarn.to_buy;
    const { circumference, head, depth } = hat.measurements;
    const around = say(circumference);
    const stitches = `${hat.cast_on.stitches} stitches`;
    const fact = (name, value, more) => el("div", {}, el("dt", {}, name), el("dd", {}, value, el("small", {}, more)));
    const fold = (title, inside) => inside ? el("details", {}, el("summary", {}, title), inside) : "";
    const picture = (path, alt) => {
      const theme = this.getAttribute("theme");
      const src = new URL(path + (theme ? `&theme=${theme}` : ""), this.getAttribute("service"));
      const shown = el("img", { src, alt, width: 640, height: 560 });
      shown.onerror = () => shown.replaceWith("The picture cannot be shown just now.");
      return shown;
    };
    const share = size && !wearer.head && `It fits ${Math.round(size.share * 100)} in 100 such heads`;
    const until = fit?.outgrown_at_months ? `, up to about ${Math.round(fit.outgrown_at_months)} months` : "";
    return [
      el("div", {},
        el("h3", {}, size ? size.label : `${around} around`),
        el("p", {}, share ? `${share}${until}.` : fit && !size ? "None of our sizes fits; this one is made to the head." : ""),
        el("dl", {},
          fact("To buy", balls === 1 ? "1 ball" : `${balls} balls`, cost ? number(cost.amount, { style: "currency", currency: cost.currency }) : ""),
          fact("It uses about", say(hat.yarn.used.expected.mass), `${say(left_over.mass)} left over`),
          fact("Around the hat", around, `for a head of ${say(head)}`),
          fact("Edge to top", say(depth), `cast on ${stitches}`))),
      picture(hat.drawing, `The hat as it is worn, ${around} around and ${say(depth)} from edge to top.`),
      fold("The crown, round by round", hat.crown.drawing && picture(hat.crown.drawing, `Chart of the crown on ${stitches}.`)),
      fold("Before a child wears it", cautions[0] && el("ul", {}, ...cautions.map(({ message }) => el("li", {}, message)))),
    ];
  }
}

customElements.define("hat-size", HatSize);
