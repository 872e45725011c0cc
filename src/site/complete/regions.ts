/** Regions for hookups that nobody measured: words, or the zone of a named siting code. Never a point. */
import table from "../../../data/siting-codes.json" with { type: "json" };
import type { Estimate } from "../../units/estimate.ts";
import type { Layout, Service } from "../completed.ts";
import { range } from "./estimates.ts";
import { NO_SOURCE } from "./notes.ts";
import { type Parking, padSide, rigLeft, type WireSide } from "./sides.ts";

export interface Region {
  readonly along: Estimate;
  readonly left: Estimate;
}

/** Metres beside and behind the pad in which a hookup told of in words is sought. */
const DESCRIBED_REACH = 3;
const THIRDS = 3;

export interface PadSize {
  readonly length: Estimate;
  readonly width: Estimate;
}

export type Third = "behind" | "rear" | "middle" | "front" | "ahead";

/** The region meant by "driver side, rear third". */
export function describedRegion(
  words: { readonly side?: WireSide | undefined; readonly third?: Third | undefined },
  { length, width }: PadSize,
  parking: Parking,
  path: string,
): Region {
  const source = `words, up to ${DESCRIBED_REACH} m from the pad; ${NO_SOURCE}`;
  const long = length.high;
  const spans: Readonly<Record<Third, readonly [number, number]>> = {
    behind: [-DESCRIBED_REACH, 0],
    rear: [0, long / THIRDS],
    middle: [length.low / THIRDS, (2 * long) / THIRDS],
    front: [(2 * length.low) / THIRDS, long],
    ahead: [length.low, long + DESCRIBED_REACH],
  };
  const [low, high] = words.third === undefined ? [-DESCRIBED_REACH, long + DESCRIBED_REACH] : spans[words.third];
  const edge = width.low / 2;
  const outside = width.high / 2 + DESCRIBED_REACH;
  const side = words.side === undefined ? null : padSide(words.side, parking);
  // Behind and ahead of the pad a hookup may stand anywhere on its side, also in line with the pad.
  const inner = words.third === "behind" || words.third === "ahead" ? 0 : edge;
  const across: readonly [number, number] =
    side === null ? [-outside, outside] : side === "left" ? [inner, outside] : [-outside, -inner];
  return {
    along: range(low, high, "described", path, source),
    left: range(across[0], across[1], "described", path, source),
  };
}

type Border = (typeof table.codes)[number]["zones"][number]["along"]["low"];
type Code = (typeof table.codes)[number];

/** The named siting code; null when the table has none of that name. */
export function sitingCode(name: string): Code | null {
  return table.codes.find(({ id }) => id.toLowerCase() === name.toLowerCase()) ?? null;
}

/** The zone in which a code puts a service of this layout; null when it says nothing. */
export function codeRegion(
  code: Code,
  service: Service,
  layout: Layout | null,
  { length, width }: PadSize,
  parking: Parking,
  path: string,
): (Region & { readonly source: string }) | null {
  const zone = code.zones.find((one) => one.service === service && layout !== null && one.layouts.includes(layout));
  if (zone === undefined) return null;
  const turned = zone.side === "parked-rig" && rigLeft(parking) === "right";
  const place = (border: Border, end: "low" | "high"): number => {
    const long = length[end];
    const half = width[end] / 2;
    switch (border.from) {
      case "rear":
        return border.metres;
      case "centre":
        return long / 2 + border.metres;
      case "exit":
        return long + border.metres;
      case "left-edge":
        return half + border.metres;
      case "right-edge":
        return -width.high / 2 + border.metres;
      default:
        return border.metres;
    }
  };
  const along = [place(zone.along.low, "low"), place(zone.along.high, "high")] as const;
  const left = [place(zone.left.low, "low"), place(zone.left.high, "high")] as const;
  // On a short pad the middle may lie before the zone's beginning: then the code gives no zone at all.
  if (along[0] > along[1]) return null;
  const spanAlong = turned ? ([length.low - along[1], length.high - along[0]] as const) : along;
  const spanLeft = turned ? ([-left[1], -left[0]] as const) : left;
  return {
    along: range(spanAlong[0], spanAlong[1], "code", path, zone.source),
    left: range(spanLeft[0], spanLeft[1], "code", path, zone.source),
    source: zone.source,
  };
}

/** The heights that a code allows; null when it says nothing. */
export function codeHeight(code: Code, service: Service, path: string): Estimate | null {
  const span = code.heights.find((one) => one.service === service);
  return span === undefined ? null : range(span.low, span.high, "code", path, span.source);
}
