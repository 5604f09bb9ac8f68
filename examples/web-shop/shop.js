// The shop's own part: what the size calculator found goes into the field of the basket, and a choice of its language.
import { WORDS } from "./words.js";

document.addEventListener("hatsize", ({ detail }) => {
  document.getElementById("balls").value = detail.plan.sizes[0].yarn.to_buy.balls;
});

const choice = document.getElementById("language");
for (const code of Object.keys(WORDS)) {
  const name = new Intl.DisplayNames(code, { type: "language" }).of(code);
  const option = new Option(name[0].toLocaleUpperCase(code) + name.slice(1), code);
  option.lang = code;
  choice.append(option);
}
choice.addEventListener("change", ({ target: { value } }) => {
  const calculator = document.querySelector("hat-size");
  const other = calculator.cloneNode();
  other.lang = value;
  other.words = WORDS[value];
  calculator.replaceWith(other);
});
