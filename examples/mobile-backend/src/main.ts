// The backend of a knitting app: it keeps the key, knows the class's yarn, and sends the telephone only what it shows.
//
//   GET /card?age_months=9&stitches=20&rows=28
//   GET /count?age_months=9&stitches=20&rows=28&round=3&needles=16-17-16-15
//
// HATS_SERVICE is the address of Roundwright, HATS_KEY the key it asks for, if any; PORT is where this listens.

import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { advice, card, hatFor } from "./hats.js";
import { Refused, service } from "./service.js";

const hats = service(process.env["HATS_SERVICE"] ?? "http://127.0.0.1:8181", process.env["HATS_KEY"]);

async function answer(url: URL): Promise<unknown> {
  const number = (name: string) => Number(url.searchParams.get(name));
  const hat = hatFor({ age_months: number("age_months") }, { stitches: number("stitches"), rows: number("rows") });
  switch (url.pathname) {
    case "/card":
      return card(hats, hat);
    case "/count":
      return advice(hats, hat, (url.searchParams.get("needles") ?? "").split("-").map(Number), number("round"));
    default:
      return undefined;
  }
}

const server = createServer(async (request, response) => {
  const say = (status: number, value: unknown) =>
    response.writeHead(status, { "content-type": "application/json" }).end(JSON.stringify(value));
  try {
    const value = await answer(new URL(request.url ?? "/", "http://backend"));
    if (value === undefined) say(404, { message: "There is nothing here." });
    else say(200, value);
  } catch (error) {
    if (error instanceof Refused) say(error.problem.status, { message: error.problem.detail, nearest: error.problem.nearest });
    else say(502, { message: "The hats cannot be reached just now." });
  }
});

server.listen(Number(process.env["PORT"] ?? 8183), "127.0.0.1", () => {
  console.log(`http://127.0.0.1:${(server.address() as AddressInfo).port}`);
});
