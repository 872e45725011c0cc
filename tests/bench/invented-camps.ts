/**
 * Invented campgrounds for measuring: as many sites as are asked for, in clusters over a continent, from a handful to
 * some hundreds each, with records of every completeness. Deterministic; no such place exists.
 */
import { seeded } from "./random-stances.ts";

const SMALLEST = 4;
const MEDIAN_SITES = 38;
const LARGEST = 320;
const SPREAD = 0.8;
const CLUSTERS = 160;
const METRES_PER_DEGREE = 111_000;

export interface InventedCamp {
  readonly id: string;
  readonly sites: number;
  readonly text: string;
}

/** Campgrounds one after another until they have `sites` sites together. */
export function* inventedCamps(sites: number, seed = 20260727): Generator<InventedCamp> {
  const random = seeded(seed);
  const from = (low: number, high: number): number => low + (high - low) * random();
  const normal = (): number => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
  const centres = Array.from({ length: CLUSTERS }, () => [from(-122, -70), from(27, 48)] as const);
  let left = sites;
  for (let number = 0; left > 0; number++) {
    const size = Math.round(MEDIAN_SITES * Math.exp(SPREAD * normal()));
    const count = Math.min(left, Math.max(SMALLEST, Math.min(LARGEST, size)));
    left -= count;
    const [longitude, latitude] = centres[Math.floor(random() * CLUSTERS)] as readonly [number, number];
    const at = [longitude + normal(), latitude + normal() * 0.7] as const;
    yield { id: `invented-${number}`, sites: count, text: campText(number, count, at, random) };
  }
}

const RECEPTACLES = [
  ["nema-tt-30"],
  ["nema-14-50", "nema-tt-30", "nema-5-20"],
  ["nema-tt-30", "nema-5-20"],
  ["nema-5-20"],
] as const;

function campText(
  number: number,
  count: number,
  [longitude, latitude]: readonly [number, number],
  random: () => number,
) {
  const from = (low: number, high: number): number => low + (high - low) * random();
  const tenth = (value: number): number => Math.round(value * 10) / 10;
  const narrowing = Math.cos((latitude * Math.PI) / 180);
  const features = Array.from({ length: count }, (_, index) => {
    const length = tenth(from(7, 20));
    const width = tenth(from(3, 5.5));
    const row = Math.floor(index / 20);
    const east = (index % 20) * 12;
    const origin = [longitude + east / METRES_PER_DEGREE / narrowing, latitude + (row * 40) / METRES_PER_DEGREE];
    const side = width / 2 + tenth(from(0.5, 1.8));
    const known = random() < 0.75;
    const place = (along: number, left: number, height: number) =>
      known ? { at: { along: tenth(along), left: tenth(left), height }, basis: "measured", accuracy: 0.05 } : {};
    const sewer = random() < 0.55;
    const hookups = [
      {
        id: "power",
        service: "power",
        ...place(from(0, length), side, 0.9),
        receptacles: RECEPTACLES[Math.floor(random() * RECEPTACLES.length)]?.map((type) => ({ id: type, type })),
      },
      { id: "water", service: "water", ...place(from(0, length), side, 0.5) },
      ...(sewer ? [{ id: "sewer", service: "sewer", ...place(from(0, length), side - 0.3, 0.1) }] : []),
    ];
    return {
      type: "Feature",
      id: String(index + 1),
      geometry: null,
      properties: {
        kind: "site",
        name: String(index + 1),
        layout: random() < 0.3 ? "pull-through" : "back-in",
        facings: ["out"],
        heading: 0,
        pad: {
          origin,
          ...(random() < 0.9 ? { length, width, overhangRear: 0.5 } : {}),
          ...(random() < 0.4 ? { grade: 0, crossfall: 0 } : {}),
        },
        services: { power: "yes", water: "yes", sewer: sewer ? "yes" : "no" },
        hookups,
        ...(random() < 0.2
          ? { obstacles: [{ what: "tree", at: { along: 2, left: -width / 2 - 1 }, radius: 0.3, to: 9 }] }
          : {}),
      },
    };
  });
  return JSON.stringify({
    type: "FeatureCollection",
    campground: {
      id: `invented-${number}`,
      name: `Invented ${number}`,
      invented: true,
      timeZone: "America/Denver",
      electricalSystem: "120/240",
      drivesOn: "right",
      licence: "CC0-1.0",
    },
    features,
  });
}
