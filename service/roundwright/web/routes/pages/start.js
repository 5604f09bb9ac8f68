"use strict";
// Opens the reference on this service's own description; nothing is asked of another host.
const dark = matchMedia("(prefers-color-scheme: dark)");
const follow = () => document.documentElement.classList.toggle("dark-mode", dark.matches);
dark.addEventListener("change", follow);
follow();
SwaggerUIBundle({
  url: "openapi.json",
  dom_id: "#reference",
  deepLinking: true,
  defaultModelsExpandDepth: 0,
  displayRequestDuration: true,
  tryItOutEnabled: true,
  validatorUrl: null,
});
