"use strict";
// Opens the reference on this service's own description; nothing is asked of another host.
SwaggerUIBundle({
  url: "openapi.json",
  dom_id: "#reference",
  deepLinking: true,
  defaultModelsExpandDepth: 0,
  displayRequestDuration: true,
  tryItOutEnabled: true,
  validatorUrl: null,
});
