/** Invented rigs of the tests: nothing about them is symmetric. */

/** The least that must work. */
export const leastRig = {
  class: "class-c",
  length: "25 ft",
  height: "11 ft",
  power: { plug: "nema-tt-30", cord: "25 ft" },
  sewerHose: "10 ft",
  awning: { projection: "8 ft" },
} as const;

/** Every field, in feet and inches. */
export const fullRigInFeet = {
  id: "meadowlark-7",
  name: "Meadowlark 31 (invented)",
  class: "travel-trailer",
  length: "33 ft 4 in",
  modelLength: "31 ft",
  width: "8 ft",
  height: "10 ft 9 in",
  wheelbase: "20 ft",
  rearOverhang: "11 ft",
  groundClearance: "9 in",
  towing: { what: "pickup", length: "19 ft", coupling: "ball" },
  connections: [
    {
      id: "inlet",
      service: "power",
      side: "left",
      fromRear: "6 ft 5 in",
      height: "2 ft 6 in",
      plug: "nema-14-50",
      line: { length: "30 ft", gauge: "6 AWG", rating: "50 A" },
      accuracy: "1 in",
      accuracyShared: "1/2 in",
    },
    {
      service: "water",
      side: "left",
      fromRear: ["8 ft", "10 ft"],
      height: "2 ft",
      line: { length: "25 ft", diameter: "1/2 in", drinkingWater: true, rating: "125 psi" },
    },
    {
      service: "sewer",
      side: "left",
      fromRear: "9 ft 3 in",
      left: "3 ft 6 in",
      height: "14 in",
      line: { length: "15 ft", workingLength: "14 ft", fittings: "6 in" },
      mayRunBeneath: true,
    },
    { service: "sewer", side: "rear", left: "-1 ft", line: { length: "10 ft" } },
  ],
  slideouts: [
    { side: "left", fromRear: "12 ft", length: "11 ft", depth: "3 ft", bottom: "2 ft", top: "9 ft" },
    { id: "bed", side: "rear", left: "-3 ft", length: "6 ft", depth: "2 ft", required: false },
  ],
  doors: [{ side: "right", fromRear: "21 ft", width: "26 in" }],
  hotOutlets: [{ what: "furnace", side: "right", fromRear: "5 ft" }],
  awnings: [
    { side: "right", fromRear: "7 ft", length: "18 ft", projection: "8 ft", height: "9 ft", pitch: 10, windClass: 1 },
  ],
  tanks: { fresh: "50 gal", grey: "40 gal", black: "30 gal", propane: "14 gal" },
  appliances: [{ name: "air conditioner", watts: "1.5 kW", starts: "2800 W" }],
  generator: { watts: 3000, suppliesThrough: "cord-in-box" },
  kit: [
    { item: "power-adapter", plug: "nema-tt-30", receptacle: "nema-14-50", rating: "30 A" },
    { item: "water-hose", length: "10 ft", where: "depot" },
  ],
  limits: { offLevel: "1:48" },
};

const FEET_AND_INCHES = /^(-?)(?:(\d+) ft)? ?(?:(\d+(?:\/\d+)?) in)?$/;

/** The same record with every length in feet and inches written in metres, exactly. */
export function inMetres(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(inMetres);
  if (typeof value === "object" && value !== null) {
    return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, inMetres(inner)]));
  }
  const match = typeof value === "string" && value !== "" ? FEET_AND_INCHES.exec(value) : null;
  if (!match) return value;
  const [, sign, feet = "0", inches = "0"] = match;
  const [top = 0, bottom = 1] = inches.split("/").map(Number);
  const tenths = Number(feet) * 3048 + (top * 254) / bottom;
  return `${sign}${(tenths / 10_000).toFixed(5)} m`;
}
