/** Conductor sizes: American wire gauge or square millimetres. */
import * as z from "zod";
import { tidyText } from "./tidy.ts";

export type Gauge = { readonly awg: number } | { readonly squareMillimetres: number };

/** Sizes between which a supply cord can lie. */
const GAUGE_LIMITS = { thinnestAwg: 20, thickestAwg: 1, thinnestSquare: 0.5, thickestSquare: 50 } as const;

const EXPECTED = 'a conductor size, for instance "10 AWG" or "2.5 mm2"';

/** `10 AWG`, `AWG 10`, `10 gauge`, `2.5 mm2`, `2.5 mm²`; null when it is none of these or outside what cords have. */
export function parseGauge(written: string): Gauge | null {
  const text = tidyText(written).toLowerCase();
  const american = /^(?:(\d{1,2})[ -]?(?:awg|ga|gauge)|awg ?(\d{1,2}))$/.exec(text);
  if (american) {
    const awg = Number(american[1] ?? american[2]);
    return awg >= GAUGE_LIMITS.thickestAwg && awg <= GAUGE_LIMITS.thinnestAwg ? { awg } : null;
  }
  const metric = /^(\d{1,3}(?:\.\d{1,3})?) ?(?:mm2|mm²|mm\^2|sq ?mm|qmm)$/.exec(text);
  if (!metric) return null;
  const squareMillimetres = Number(metric[1]);
  return squareMillimetres >= GAUGE_LIMITS.thinnestSquare && squareMillimetres <= GAUGE_LIMITS.thickestSquare
    ? { squareMillimetres }
    : null;
}

/** `10 AWG` or `2.5 mm²`. */
export function formatGauge(gauge: Gauge): string {
  return "awg" in gauge ? `${gauge.awg} AWG` : `${gauge.squareMillimetres} mm²`;
}

function gaugeMessage(input: unknown): string {
  if (typeof input === "number") return `${input} of what? Write "10 AWG" or "2.5 mm2".`;
  if (typeof input !== "string") return `A conductor size is a text: write "10 AWG" or "2.5 mm2".`;
  return (
    `"${input.slice(0, GAUGE_LIMITS.thickestSquare)}" is no conductor size of a supply cord: ` +
    `write "10 AWG" (20 to 1) or "2.5 mm2" (0.5 to 50).`
  );
}

/** Reads a conductor size on the wire. */
export const gaugeSchema = z
  .string({ error: (issue) => gaugeMessage(issue.input) })
  .meta({
    description: "Conductor size of a cord: American wire gauge, or square millimetres.",
    examples: ["10 AWG", "2.5 mm2"],
    pattern: "[0-9]",
  })
  .transform((text, context): Gauge => {
    const gauge = parseGauge(text);
    if (gauge) return gauge;
    context.addIssue({
      code: "custom",
      message: gaugeMessage(text),
      params: { fault: "unreadable", expected: EXPECTED },
    });
    return z.NEVER;
  })
  .pipe(z.union([z.object({ awg: z.number() }), z.object({ squareMillimetres: z.number() })]));
