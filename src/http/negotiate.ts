/** Content negotiation (RFC 9110 section 12.5.1) over the few media types that a route gives. */
import { Problem } from "./problem.ts";

interface Range {
  readonly type: string;
  readonly quality: number;
  /** 2: exact, 1: `type/*`, 0: `*` + `/*`. */
  readonly precision: number;
}

const EXACT = 2;
const LONGEST_ACCEPT = 1000;

/**
 * The media type to give: the one with the highest quality; among equals the first offered. Problems are given as
 * application/problem+json whatever was asked.
 */
export function negotiate<T extends string>(accept: string | null, offered: readonly [T, ...T[]]): T {
  if (accept === null || accept.trim() === "") return offered[0];
  const ranges = accept.slice(0, LONGEST_ACCEPT).split(",").map(readRange);
  let best: T | undefined;
  let bestQuality = 0;
  for (const type of offered) {
    const quality = qualityOf(type, ranges);
    if (quality > bestQuality) {
      best = type;
      bestQuality = quality;
    }
  }
  if (best !== undefined) return best;
  throw new Problem("not-acceptable", `This route gives ${offered.join(", ")}.`, [
    { header: "Accept", code: "not-acceptable", message: "None of these can be given.", expected: offered.join(", ") },
  ]);
}

function readRange(text: string): Range {
  const [type = "", ...parameters] = text.split(";").map((part) => part.trim().toLowerCase());
  const weight = parameters.find((parameter) => parameter.startsWith("q="))?.slice("q=".length);
  const quality = weight === undefined ? 1 : Number(weight);
  return {
    type,
    quality: Number.isFinite(quality) ? Math.min(1, Math.max(0, quality)) : 0,
    precision: type === "*/*" ? 0 : type.endsWith("/*") ? 1 : EXACT,
  };
}

/** The most precise range that covers the type decides. */
function qualityOf(type: string, ranges: readonly Range[]): number {
  let quality = 0;
  let precision = -1;
  for (const range of ranges) {
    const covers =
      range.type === type ||
      range.precision === 0 ||
      (range.precision === 1 && type.startsWith(range.type.slice(0, -1)));
    if (covers && range.precision > precision) {
      quality = range.quality;
      precision = range.precision;
    }
  }
  return quality;
}
