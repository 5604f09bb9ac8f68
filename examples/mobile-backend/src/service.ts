// Roundwright as this backend calls it: typed by its OpenAPI document, patient when it is busy, and plain about problems.

import createClient, { type Client } from "openapi-fetch";
import type { components, paths } from "./roundwright.js";

export type Schemas = components["schemas"];
export type Service = Client<paths>;

const PATIENCE_MS = 5_000;
const TRIES = 3;

/** What the service said no to: `problem.detail` is for the knitter, `problem.nearest` is what would work. */
export class Refused extends Error {
  constructor(readonly problem: Schemas["Problem"]) {
    super(problem.detail);
  }
}

/** The service at an address; `key` where it asks for one. */
export function service(baseUrl: string, key?: string): Service {
  return createClient<paths>({
    baseUrl,
    fetch: patiently,
    ...(key === undefined ? {} : { headers: { authorization: `Bearer ${key}` } }),
  });
}

/** The answer, where there is one. Throws Refused for a problem. */
export function answered<T>(result: { data?: T; error?: Schemas["Problem"] }): T {
  if (result.data !== undefined) return result.data;
  if (result.error !== undefined) throw new Refused(result.error);
  throw new Error("The service answered with nothing.");
}

/** Every operation may be repeated: when the service is busy, it says how soon. */
async function patiently(request: Request): Promise<Response> {
  for (let left = TRIES - 1; ; left--) {
    const answer = await fetch(request.clone(), { signal: AbortSignal.timeout(PATIENCE_MS) });
    if (left === 0 || ![429, 503].includes(answer.status)) return answer;
    const seconds = Number(answer.headers.get("retry-after") ?? 1);
    await answer.body?.cancel();
    await new Promise((resolve) => setTimeout(resolve, seconds * 1_000));
  }
}
