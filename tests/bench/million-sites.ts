/** A million invented plain sites as columns, and a fleet, for measuring what the first look costs. */
import { completeOptions } from "../../src/fit/options.ts";
import { type ScreenSites, ScreenSitesBuilder } from "../../src/fit/screen/sites.ts";
import type { CompletedRig } from "../../src/rig/completed.ts";
import { exact, hookup, receptacle, rig, site } from "../fit/core/builders.ts";
import { seeded } from "./random-stances.ts";

const RECEPTACLES = [
  ["nema-tt-30", 30, 0.6],
  ["nema-14-50", 50, 0.8],
  ["nema-5-20", 20, 1],
] as const;
const SAME_SIDE = 0.75;

export function plainSites(count: number, seed = 5): ScreenSites {
  const random = seeded(seed);
  const from = (low: number, high: number): number => low + (high - low) * random();
  const builder = new ScreenSitesBuilder();
  for (let index = 0; index < count; index++) {
    const length = from(6, 20);
    const width = from(2.6, 6);
    const made = site({ length, width, hookups: [] });
    const left = (random() < SAME_SIDE ? 1 : -1) * (width / 2 + from(0.1, 3));
    const share = random();
    const [type, amps] = RECEPTACLES.find((row) => share < row[2]) ?? RECEPTACLES[0];
    const hookups = [
      hookup({ service: "power", along: from(0, length), left, receptacles: [receptacle("r", type, amps)] }),
      hookup({ service: "water", along: from(0, length), left }),
      hookup({ service: "sewer", along: from(0, length), left: left - 0.3, height: null }),
    ];
    const services = { ...made.services, power: "yes", water: "yes", sewer: "yes" } as const;
    builder.add({ ...made, pad: { ...made.pad, overhangRear: exact(0) }, hookups, services });
  }
  return builder.build();
}

/** The same question for all: three required lines, both facings, nothing solid but the rig. */
export const MILLION_OPTIONS = completeOptions({
  detail: "summary",
  devices: "ignore",
  facings: ["out", "in"],
  needs: { power: "required", water: "required", sewer: "required" },
});

/** A fleet of invented coaches, each with its own length and places. */
export function fleet(count: number): CompletedRig[] {
  const random = seeded(40);
  const from = (low: number, high: number): number => low + (high - low) * random();
  return Array.from({ length: count }, () => {
    const length = from(6, 11);
    return rig({
      length,
      connections: [
        { service: "power", fromRear: from(0.5, length / 2), length: 7.62, plug: "nema-tt-30" },
        { service: "water", fromRear: from(0.5, length / 2), length: 7.62 },
        { service: "sewer", fromRear: from(0.5, length / 2), length: 4.5, height: null },
      ],
    });
  });
}
