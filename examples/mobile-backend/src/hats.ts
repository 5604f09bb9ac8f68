// What the app shows: a hat on one card, and help when a count came out wrong.

import { answered, type Schemas, type Service } from "./service.js";

/** As little of a hat as fits on the screen of a telephone. */
export interface Card {
  size: string;
  castOn: number;
  needles: readonly number[];
  around: Schemas["Length"];
  balls: number | null;
  rounds: readonly { number: number; text: string; stitches: number; needles: readonly number[] | null }[];
  picture: string;
  cautions: readonly string[];
}

/** What to do about a count. */
export interface Advice {
  right: boolean;
  message: string;
  next: string | null;
}

/** The hat of one knitter, in the yarn of the class. */
export function hatFor(wearer: Schemas["HatSize"], gauge: Schemas["Gauge"]): Schemas["HatRequest"] {
  return {
    gauge,
    sizes: [wearer],
    yarn: {
      name: "Quillhaven Wether",
      mass: { value: 100, unit: "g" },
      length: { value: 210, unit: "m" },
    },
    crown: { style: "wedge", sections: 8 },
    needles: 4,
  };
}

export async function card(service: Service, hat: Schemas["HatRequest"]): Promise<Card> {
  const answer = answered(await service.POST("/v1/hats", { body: hat }));
  const size = answer.sizes[0];
  if (size === undefined) throw new Error("A hat was asked for in one size and answered in none.");
  return {
    size: size.label,
    castOn: size.cast_on.stitches,
    needles: size.split?.split ?? [],
    around: size.measurements.circumference,
    balls: size.yarn.to_buy.balls,
    rounds: size.crown.rounds.map(({ number, text, after, needles }) => ({
      number,
      text,
      stitches: after,
      needles,
    })),
    picture: size.drawing,
    cautions: answer.cautions.map(({ message }) => message),
  };
}

export async function advice(
  service: Service,
  hat: Schemas["HatRequest"],
  needles: number[],
  round: number,
): Promise<Advice> {
  const answer = answered(await service.POST("/v1/counts/check", { body: { hat, needles, round } }));
  const [likeliest] = answer.causes;
  return {
    right: likeliest === undefined,
    message: answer.message,
    next: likeliest?.next?.text ?? null,
  };
}
