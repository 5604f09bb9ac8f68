// <hat-size>: a size, its balls and its look. Attributes and words: README.md.

const PATIENCE_MS = 10_000;
const GONE = "The size service cannot be reached. Please try again in a moment.";

/** The attributes: what each may be, an example, whether it is optional. */
const ATTRIBUTES = {
	service: [/^\S+$/, "https://hats.example"],
	gauge: [/^[\d.]+\s+[\d.]+(\s+[\d.]+\s*(mm|cm|in))?$/, "20 28"],
	ball: [/^[\d.]+\s*(g|kg|oz|lb)\s+[\d.]+\s*(m|yd)$/, "100 g 210 m"],
	sizes: [/^([^;]*\S\s+[\d.]+\s*(mm|cm|in)\s*(;\s*|$))+$/, "Small 38 cm; Middle 42 cm", true],
	price: [/^\d+(\.\d+)? [A-Z]{3}$/, "8.50 EUR", true],
	crown: [/^[a-z]+$/, "dome", true],
	units: [/^(metric|imperial)$/, "metric", true],
	theme: [/^(light|dark)$/, "dark", true],
};

const LOOK = new CSSStyleSheet();
LOOK.replaceSync(`
:host{display:block;container-type:inline-size;line-height:1.45;
--paper:var(--hat-paper,light-dark(#fcf8ef,#20222b));--ink:var(--hat-ink,light-dark(#2a2a35,#efe8da));
--soft:var(--hat-soft,color-mix(in srgb,var(--ink) 75%,var(--paper)));--line:var(--hat-line,color-mix(in srgb,var(--ink) 55%,var(--paper)));
--accent:var(--hat-accent,light-dark(#a63d1f,#ffab8a));--on:var(--hat-on-accent,light-dark(#fff,#20222b))}
:host([theme=light]){color-scheme:light}
:host([theme=dark]){color-scheme:dark}
section,section *{box-sizing:border-box;margin:0}
[hidden]{display:none!important}
section{background:var(--paper);color:var(--ink);padding:1.5rem;outline:2px dashed var(--line);outline-offset:-.5rem}
h3{font-size:1.9rem;line-height:1.2}
form,#answer{display:grid;gap:1rem;margin:1rem 0}
fieldset,legend{border:0;padding:0}
legend,label,dt,small{color:var(--soft);font-size:.9rem}
fieldset label{display:flex;align-items:center;gap:.5rem;min-height:2.25rem;color:var(--ink);font-size:1rem}
[type=radio]{width:1.2rem;height:1.2rem;accent-color:var(--accent)}
.row,dl{display:grid;grid-template-columns:repeat(auto-fit,minmax(7.5rem,1fr));gap:.75rem}
input,select,button{font:inherit;color:var(--ink);min-height:2.75rem;border-radius:.25rem}
label>input:not([type=radio]),select{width:100%;margin-top:.3rem;padding:0 .6rem;background:var(--paper);border:1px solid var(--line)}
[aria-invalid=true]{border:2px solid var(--accent)!important}
button{padding:0 1.25rem;border:0;cursor:pointer;background:var(--accent);color:var(--on);font-weight:600;justify-self:start}
:focus-visible{outline:3px solid var(--ink);outline-offset:2px}
summary{cursor:pointer;padding:.5rem 0}
.note{border-left:4px solid var(--accent);padding-left:.75rem}
dl{margin:1rem 0}
small{display:block}
img{width:100%;max-width:36rem;height:auto}
ul{padding-left:1.2rem}
#answer{border-top:2px dashed var(--line);padding-top:1rem}
@container (min-width:40rem){
fieldset div{display:flex;gap:1.5rem}
#answer{grid-template-columns:1fr 1fr;gap:2rem}
details{grid-column:1/-1}
}`);

const el = (name, given, ...content) => {
	const made = document.createElement(name);
	for (const [key, value] of Object.entries(given)) made.setAttribute(key, value);
	made.append(...content);
	return made;
};

/** "38 cm" for the service. */
const measured = (text) => {
	const [, value, unit] = /([\d.]+)\s*([a-z]+)/i.exec(text ?? "") ?? [];
	return unit && { value: Number(value), unit };
};

/** For the shopper; `field` is to be put right. */
const trouble = (message, field, state = "error") => Object.assign(new Error(message), { field, state });

class HatSize extends HTMLElement {
	#asking;
	#words;
	#back = () => this.matches("[state=offline]") && this.#find();

	connectedCallback() {
		addEventListener("online", this.#back);
		if (this.shadowRoot) return;
		const root = this.attachShadow({ mode: "open" });
		root.adoptedStyleSheets = [LOOK];
		this.#words = this.#ownWords();
		if (!this.#isSetUp()) {
			root.append(el("slot", {})); // what the shop wrote inside
			this.setAttribute("state", "broken");
			return;
		}
		root.append(this.#section());
		const form = (this.form = root.querySelector("form"));
		form.onchange = () => {
			for (const who of ["child", "adult", "head"]) this.#at(who).hidden = who !== form.who.value;
		};
		form.onsubmit = (event) => {
			event.preventDefault();
			this.#find();
		};
		form.who.value = "child";
		form.onchange();
		this.#show("idle");
	}

	disconnectedCallback() {
		removeEventListener("online", this.#back);
		this.#asking?.abort();
	}

	/** The shop's mistakes go to the console. */
	#mistake = (text) => console.error(`<hat-size> ${text}`, this);

	get #language() {
		return this.closest("[lang]")?.lang || "en";
	}

	/** The shop's words: the property `words`, or JSON between the tags. */
	#ownWords() {
		try {
			return this.words ?? JSON.parse(this.querySelector("[type='application/json']")?.textContent ?? "{}");
		} catch (error) {
			this.#mistake(`cannot read its words: ${error.message}`);
			return {};
		}
	}

	#isSetUp() {
		let usable = true;
		for (const [name, [pattern, example, optional]] of Object.entries(ATTRIBUTES)) {
			const text = this.getAttribute(name)?.trim();
			if (text === undefined ? optional : pattern.test(text)) continue;
			this.#mistake(`${name}="${text ?? ""}" should be such as ${name}="${example}"`);
			usable &&= name !== "sizes" && optional;
		}
		for (const { name } of this.attributes) name in ATTRIBUTES || name in this || /^(class|state)$|-/.test(name) || this.#mistake(`has no attribute "${name}"`);
		return usable;
	}

	/** A valid attribute. */
	#read(name, otherwise = "") {
		const text = this.getAttribute(name)?.trim() ?? "";
		return ATTRIBUTES[name][0].test(text) ? text : otherwise;
	}

	#address(path) {
		const service = new URL(this.#read("service"), document.baseURI).href.replace(/\/?$/, "/");
		return new URL(path.replace(/^\//, ""), service);
	}

	#say = (text, values = {}) => (this.#words[text] ?? text).replace(/\{(\w+)\}/g, (_, name) => values[name]);

	#section() {
		const say = this.#say;
		const choice = (who, text) => el("label", {}, el("input", { type: "radio", name: "who", value: who }), say(text));
		const input = (id, text) => el("label", {}, say(text), el("input", { id, inputmode: "decimal", "aria-describedby": "trouble" }));
		const select = (id, text, options) => el("label", {}, say(text), el("select", { id },
			...Object.entries(options).map(([value, option]) => el("option", { value }, say(option)))));
		const row = (id, ...fields) => el("div", { id, class: "row" }, ...fields);
		return el("section", { "aria-labelledby": "name" },
			el("h2", { id: "name" }, say("Find your size")),
			el("form", { novalidate: "", autocomplete: "off" },
				el("fieldset", {}, el("legend", {}, say("Who is it for?")),
					el("div", {}, choice("child", "A child, by age"), choice("adult", "A grown-up"), choice("head", "A measured head"))),
				row("child", input("age", "Age today"), select("span", "counted in", { 1: "months", 12: "years" }),
					select("later", "To be worn", { 0: "now", 3: "in 3 months", 6: "in 6 months" })),
				row("adult", select("grown", "Whose size", { woman: "a woman's", man: "a man's" })),
				row("head", input("around", "Around the head"), select("unit", "measured in", { cm: "centimetres", in: "inches" })),
				el("p", { class: "note", role: "alert", id: "trouble" }),
				el("button", {}, say("Find the size"))),
			el("p", { role: "status", id: "status" }),
			el("div", { id: "answer" }));
	}

	#at = (id) => this.shadowRoot.getElementById(id);

	#number(field) {
		const text = this.#at(field).value.trim().replace(",", ".");
		if (text && Number(text) >= 0) return Number(text);
		throw trouble(this.#say("A number is needed here, such as 9 or 43.5."), field);
	}

	/** Whose head, for the service. */
	#wearer() {
		const who = this.form.who.value;
		if (who === "adult") return { adult: this.#at("grown").value };
		if (who === "head") return { head: { value: this.#number("around"), unit: this.#at("unit").value } };
		return { age_months: this.#number("age") * this.#at("span").value + Number(this.#at("later").value) };
	}

	async #find() {
		this.#asking?.abort();
		const { signal } = (this.#asking = new AbortController());
		try {
			const wearer = this.#wearer();
			if (!navigator.onLine) throw trouble(this.#say("You are offline. Your size follows as soon as you are back."), null, "offline");
			this.#show("loading", this.#say("Working it out…"));
			const found = await this.#plan(wearer, signal);
			if (signal.aborted) return;
			this.#at("answer").replaceChildren(...this.#told(found, wearer));
			this.#show("done", this.#say("Here is your size."));
			this.dispatchEvent(new CustomEvent("hatsize", { detail: found, bubbles: true }));
		} catch (error) {
			if (signal.aborted) return;
			if (!error.state) console.error(error);
			this.#show(error.state ?? "error", error.state ? error.message : this.#say(GONE), error.field);
		}
	}

	/** The shop's size that fits, if it has sizes, and the hat. */
	async #plan(wearer, signal) {
		const units = wearer.head?.unit === "in" ? "imperial" : this.#read("units", "metric");
		const offered = this.#read("sizes").split(";").filter((size) => size.trim()).map((size) => {
			const [, label, around] = /^\s*(.+?)\s+([\d.]+\s*\w+)\s*$/.exec(size);
			return { label, circumference: measured(around) };
		});
		const fit = offered.length && await this.#ask("v1/sizing/recommend", { ...wearer, offered, units }, signal);
		const size = fit && fit.sizes.find(({ label }) => label === fit.choose);
		const head = fit && (fit.head.own ?? fit.head.median);
		const [stitches, rows, ...over] = this.#read("gauge").split(/\s+/);
		const [mass, length] = this.#read("ball").match(/[\d.]+\s*[a-z]+/gi);
		const [amount, currency] = this.#read("price").split(" ");
		const plan = await this.#ask("v1/hats", {
			gauge: { stitches: Number(stitches), rows: Number(rows), over: measured(over.join("") || "10cm") },
			sizes: [wearer],
			ease: size ? { length: { value: size.circumference.value - head.value, unit: head.unit } } : { percent: -10 },
			yarn: { mass: measured(mass), length: measured(length), ...(currency && { price: { amount: Number(amount), currency } }) },
			crown: { style: this.#read("crown", "dome") },
			units,
		}, signal);
		return { fit, size, plan };
	}

	async #ask(path, body, signal) {
		let answer, data;
		try {
			answer = await fetch(this.#address(path), {
				method: "POST",
				headers: { "content-type": "application/json", "accept-language": this.#language },
				body: JSON.stringify(body),
				signal: AbortSignal.any([signal, AbortSignal.timeout(PATIENCE_MS)]),
			});
			data = await answer.json();
		} catch {
			throw trouble(this.#say(GONE));
		}
		if (answer.ok) return data;
		const { detail, nearest, errors } = data;
		const [, about] = /^#\/(?:sizes\/0\/)?(head|age)/.exec(errors?.[0]?.pointer) ?? [];
		if (about) throw trouble(nearest ? this.#say("{detail} The nearest that works: {nearest}.", { detail, nearest }) : detail, about === "head" ? "around" : "age");
		if (answer.status < 500 && answer.status !== 429) this.#mistake(`is set up in a way that cannot be knitted: ${detail}`);
		throw trouble(this.#say(GONE));
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
		const number = (value, how) => new Intl.NumberFormat(this.#language, how).format(value);
		const quantity = ({ value, unit }) => `${number(value, { maximumFractionDigits: +(unit !== "g") })} ${unit}`;
		const say = this.#say;
		const { balls, cost, left_over } = hat.yarn.to_buy;
		const { circumference, head, depth } = hat.measurements;
		const measures = { around: quantity(circumference), depth: quantity(depth), n: hat.cast_on.stitches };
		const fact = (name, value, more) => el("div", {}, el("dt", {}, say(name)), el("dd", {}, value, el("small", {}, more)));
		const fold = (title, inside) => inside ? el("details", {}, el("summary", {}, say(title)), inside) : "";
		const picture = (path, alt) => {
			const theme = this.#read("theme");
			const shown = el("img", { src: this.#address(path + (theme && `&theme=${theme}`)), alt, width: 640, height: 560 });
			shown.onerror = () => shown.replaceWith(say("The picture cannot be shown just now."));
			return shown;
		};
		const months = fit?.outgrown_at_months;
		const fits = size && !wearer.head && say(months ? "It fits {share} in 100 such heads, up to about {months} months." : "It fits {share} in 100 such heads.", { share: Math.round(size.share * 100), months: Math.round(months) });
		return [
			el("div", {},
				el("h3", {}, size ? size.label : say("{around} around", measures)),
				el("p", {}, fits || (fit && !size ? say("None of our sizes fits; this one is made to the head.") : "")),
				el("dl", {},
					fact("To buy", say(balls === 1 ? "1 ball" : "{n} balls", { n: balls }), cost ? number(cost.amount, { style: "currency", currency: cost.currency }) : ""),
					fact("It uses about", quantity(hat.yarn.used.expected.mass), say("{mass} left over", { mass: quantity(left_over.mass) })),
					fact("Around the hat", measures.around, say("for a head of {head}", { head: quantity(head) })),
					fact("Edge to top", measures.depth, say("cast on {n} stitches", measures)))),
			picture(hat.drawing, say("The hat as it is worn, {around} around and {depth} from edge to top.", measures)),
			fold("The crown, round by round", hat.crown.drawing && picture(hat.crown.drawing, say("Chart of the crown on {n} stitches.", measures))),
			fold("Before a child wears it", cautions[0] && el("ul", {}, ...cautions.map(({ message }) => el("li", {}, message)))),
		];
	}
}

customElements.get("hat-size") || customElements.define("hat-size", HatSize);
