// Types of <hat-size> for a shop that is written in TypeScript: `import type { HatSizeFound } from "./hat-size"`.

export interface Quantity {
  value: number;
  unit: string;
}

/** One hat of the answer of `/v1/hats`; it has more fields than are named here. */
export interface Hat {
  label: string;
  drawing: string;
  cast_on: { stitches: number };
  measurements: { circumference: Quantity; head: Quantity; depth: Quantity };
  yarn: { to_buy: { balls: number; cost: { amount: number; currency: string } | null } };
}

/** What was found, in the event `hatsize`. */
export interface HatSizeFound {
  /** The size of the shop that fits, undefined where none does, and 0 where the shop has no sizes. */
  size: { label: string; share: number; circumference: Quantity } | undefined | 0;
  plan: { sizes: [Hat, ...Hat[]] };
}

export type HatSizeState = "idle" | "loading" | "done" | "error" | "offline" | "broken";

export interface HatSizeElement extends HTMLElement {
  /** Words in place of the English ones, set before the element is put into the page. */
  words?: Record<string, string>;
  addEventListener(type: "hatsize", listener: (event: CustomEvent<HatSizeFound>) => void, options?: AddEventListenerOptions): void;
  addEventListener(type: string, listener: EventListenerOrEventListenerObject, options?: AddEventListenerOptions): void;
}

/** The attributes, for templates that are checked. */
export interface HatSizeAttributes {
  service: string;
  gauge: string;
  ball: string;
  price?: string;
  sizes?: string;
  crown?: string;
  units?: "metric" | "imperial";
  theme?: "light" | "dark";
  lang?: string;
}

declare global {
  interface HTMLElementTagNameMap {
    "hat-size": HatSizeElement;
  }
  interface HTMLElementEventMap {
    hatsize: CustomEvent<HatSizeFound>;
  }
}
