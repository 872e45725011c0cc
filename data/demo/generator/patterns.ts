/** Drawings that serve many sites of the invented campground: measured on one, copied to the others. */
import type { Properties } from "./camp.ts";
import { ALL_SERVICES, fireRing, power, receptacle, sewer, sitePost, TAPED, table, water } from "./parts.ts";

/** Metres. 45 ft x 13 ft, and 65 ft x 17 ft. */
export const CURLEW_PAD = { length: 13.716, width: 3.962 } as const;
export const PLOVER_PAD = { length: 19.812, width: 5.182 } as const;

const curlew: Properties = {
  measuredOn: "Curlew 7",
  layout: "back-in",
  pad: { ...CURLEW_PAD, ...TAPED, surface: "gravel", grade: 0.006, crossfall: -0.009 },
  services: ALL_SERVICES,
  hookups: [
    power(
      { along: 2.74, left: 3.73, height: 1.02 },
      [receptacle("nema-14-50"), receptacle("nema-tt-30"), receptacle("nema-5-20")],
      { pedestal: "post" },
    ),
    water({ along: 3.35, left: 3.57, height: 0.58 }),
    sewer({ along: 4.46, left: 2.86, height: 0.04 }),
  ],
  obstacles: [table(8.1, -4.7), fireRing(10.9, -5.6), sitePost(13.2, 2.35)],
  patio: "right",
  extraVehicle: "elsewhere",
  access: { roadWidth: 5.2, angle: 90, mouth: 8.2, clearHeight: 4.3 },
  rules: { awning: "yes", generatorHours: "08:00-20:00", maxVehicles: 2 },
};

const plover: Properties = {
  measuredOn: "Plover 3",
  layout: "pull-through",
  facings: ["out"],
  pad: { ...PLOVER_PAD, ...TAPED, surface: "concrete", grade: -0.004, crossfall: 0.011 },
  services: { ...ALL_SERVICES, cable: "yes" },
  hookups: [
    power(
      { along: 7.62, left: 4.28, height: 0.94 },
      [receptacle("nema-14-50"), receptacle("nema-tt-30"), receptacle("nema-5-20")],
      { pedestal: "post" },
    ),
    water({ along: 8.24, left: 4.2, height: 0.61 }),
    sewer({ along: 6.1, left: 3.36, height: 0.03 }),
    { id: "television", service: "cable", at: { along: 7.62, left: 4.28, height: 0.8 }, ...TAPED, pedestal: "post" },
  ],
  obstacles: [table(11.3, -5.1), fireRing(14.2, -6.1)],
  patio: "right",
  extraVehicle: "none",
  access: { roadWidth: 6.1, angle: 60, exit: "drive on to the main road", clearHeight: 4.3 },
  rules: { awning: "yes", generatorHours: "08:00-20:00", maxVehicles: 1, largerBreaker: "yes" },
};

export const PATTERNS: Readonly<Record<string, Properties>> = { curlew, plover };
