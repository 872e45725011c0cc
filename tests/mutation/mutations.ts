/**
 * Small wrongs of the kind that matter here: a swap of left and right, of needed and available, of feet and metres, of
 * in and out; a sign, a threshold, a rule left out. Each must break the test that is named beside it.
 */
export interface Mutation {
  readonly file: string;
  /** Text that occurs in the file exactly once. */
  readonly find: string;
  readonly replace: string;
  readonly why: string;
  /** Test file, and a part of the name of the test that must break. */
  readonly test: readonly [file: string, name: string];
}

const PARSE = "tests/units/parse.test.ts";
const PRINT = "tests/units/print.test.ts";
const PLANE = "tests/geo/tangent-plane.test.ts";
const RIG = "tests/rig/complete.test.ts";
const SITE = "tests/site/complete.test.ts";
const PATTERNS = "tests/site/patterns.test.ts";
const SITING = "tests/outside/siting-electrical.test.ts";
const VERDICTS = "tests/fit/core/verdicts.test.ts";
const POWER = "tests/fit/power/solve.test.ts";
const MATING = "tests/fit/power/mating.test.ts";
const DRAIN = "tests/fit/sewer/drain.test.ts";
const LEVEL = "tests/fit/level/level.test.ts";
const WATER = "tests/fit/water/water.test.ts";
const DRAW = "tests/draw/parts.test.ts";
const PLACE = "tests/records/place.test.ts";
const PAD = "tests/fit/clearance/pad.test.ts";
const PARAMETERS = "tests/fit/uncertainty/parameters.test.ts";
const ASYMMETRY = "tests/fit/core/asymmetry.test.ts";
const LATTICE = "tests/fit/uncertainty/lattice.test.ts";

export const MUTATIONS: readonly Mutation[] = [
  {
    file: "src/units/factors.ts",
    find: "TENTHS_OF_MILLIMETRE_PER_FOOT = 3048",
    replace: "TENTHS_OF_MILLIMETRE_PER_FOOT = 10_000",
    why: "a foot is read as a metre",
    test: [PARSE, '"25 ft'],
  },
  {
    file: "src/units/factors.ts",
    find: "LITRES_PER_US_GALLON = 3.785411784",
    replace: "LITRES_PER_US_GALLON = 4.54609",
    why: "the gallon of the one country for that of the other",
    test: [PARSE, "38 gal"],
  },
  {
    file: "src/units/factors.ts",
    find: "(METRES_PER_INCH * METRES_PER_INCH)",
    replace: "(METRES_PER_INCH * METRES_PER_FOOT)",
    why: "pounds per square inch over the wrong area",
    test: [PARSE, "reads 45 psi"],
  },
  {
    file: "src/units/number.ts",
    find: 'round === "up" ? Math.ceil(steps) : Math.floor(steps)',
    replace: 'round === "up" ? Math.floor(steps) : Math.ceil(steps)',
    why: "up and down exchanged",
    test: [PRINT, "rounded down, is 1 ft 4 in"],
  },
  {
    file: "src/geo/pad-frame.ts",
    find: "left: -point.east * cosine + point.north * sine",
    replace: "left: point.east * cosine - point.north * sine",
    why: "left and right of the pad exchanged",
    test: [PLANE, "heading east: along is east and left is north"],
  },
  {
    file: "src/rig/complete-connections.ts",
    find: 'const sign = wall === "left" ? 1 : -1;',
    replace: 'const sign = wall === "left" ? -1 : 1;',
    why: "a connection on the left wall stands on the right",
    test: [RIG, "puts what lies on a wall there"],
  },
  {
    file: "src/rig/complete-connections.ts",
    find: 'bench.road === "left" ? { low: from, high: to, source } : { low: 0 - to, high: 0 - from, source }',
    replace: 'bench.road === "left" ? { low: 0 - to, high: 0 - from, source } : { low: from, high: to, source }',
    why: "the road side's half of the rear wall is the kerb side's",
    test: [RIG, "lies on the road side's half"],
  },
  {
    file: "src/rig/complete-connections.ts",
    find: "const value = line.length * sewerWorking.value;",
    replace: "const value = line.length;",
    why: "a drain hose counts its whole label",
    test: [RIG, "counts a stated working length"],
  },
  {
    file: "src/site/complete/regions.ts",
    find: "return half + border.metres;",
    replace: "return -half - border.metres;",
    why: "the code's pedestal on the other side of the stand",
    test: [SITING, "E30"],
  },
  {
    file: "src/site/complete/regions.ts",
    find: 'rigLeft(parking) === "right"',
    replace: 'rigLeft(parking) === "left"',
    why: "the code's zone turned for the rig that is backed in",
    test: [SITING, "turns with a rig that stands nose in"],
  },
  {
    file: "src/site/complete/sides.ts",
    find: '(parking.drivesOn === "right") !== parking.noseIn',
    replace: '(parking.drivesOn === "right") === parking.noseIn',
    why: "driver's and passenger's side exchanged",
    test: [SITE, "words give a region by the side on which people drive"],
  },
  {
    file: "src/site/patterns.ts",
    find: "{ ...pad, crossfall: 0 - pad.crossfall }",
    replace: "{ ...pad, crossfall: pad.crossfall }",
    why: "a mirrored pad keeps its crossfall",
    test: [PATTERNS, "the mirror image swaps left and right"],
  },
  {
    file: "src/site/patterns.ts",
    find: "return { low: 0 - high, high: 0 - low };",
    replace: "return { low, high };",
    why: "a mirrored hookup stays where it was",
    test: [PATTERNS, "the mirror image swaps left and right"],
  },
  {
    file: "src/fit/stance/frame.ts",
    find: 'cos: facing === "out" ? cos : -cos',
    replace: 'cos: facing === "out" ? -cos : cos',
    why: "nose out and nose in exchanged",
    test: [VERDICTS, "turns to the other side"],
  },
  {
    file: "src/fit/parts.ts",
    find: "return { fromRearMin: span.start, fromRearMax: end, leftMin: half, leftMax: half + span.depth, ...heights };",
    replace:
      "return { fromRearMin: span.start, fromRearMax: end, leftMin: -half - span.depth, leftMax: -half, ...heights };",
    why: "a slide of the left wall comes out on the right",
    test: [ASYMMETRY, "a slide of the left wall"],
  },
  {
    file: "src/fit/parts.ts",
    find: "behind - pick(stop.along)",
    replace: "behind + pick(stop.along)",
    why: "a wheel stop gives room where it takes it",
    test: [ASYMMETRY, "a wheel stop takes room"],
  },
  {
    file: "src/fit/lines/task.ts",
    find: "budget: length - inlet - hookup - choice.allowance",
    replace: "budget: length - inlet - hookup + choice.allowance",
    why: "the allowance lengthens the line",
    test: [VERDICTS, "adds heights"],
  },
  {
    file: "src/fit/lines/task.ts",
    find: "fallAtLevel: known ? inlet - hookup : 0",
    replace: "fallAtLevel: 0",
    why: "the least length forgets the heights",
    test: [VERDICTS, "adds heights"],
  },
  {
    file: "src/fit/lines/verdict.ts",
    find: "facts.margin >= 0 && facts.marginLow >= 0",
    replace: "facts.margin >= 0",
    why: "a range that ends short is a yes",
    test: [VERDICTS, "a range that ends short"],
  },
  {
    file: "src/fit/lines/verdict.ts",
    find: "SURE = 0.95",
    replace: "SURE = 0.9",
    why: "a weaker yes",
    test: [VERDICTS, "fits, with a probability of 0.94 and good tape"],
  },
  {
    file: "src/fit/lines/verdict.ts",
    find: "HOPELESS = 0.05",
    replace: "HOPELESS = 0.1",
    why: "a weaker no",
    test: [VERDICTS, "short with a probability of 0.06 left"],
  },
  {
    file: "src/fit/lines/report.ts",
    find: 'return route.fall <= 0 ? "short" : verdict;',
    replace: "return verdict;",
    why: "a drain may run uphill when its hose is long enough",
    test: [VERDICTS, "uphill"],
  },
  {
    file: "src/fit/verdict.ts",
    find: '{ status: "unknown", verdict: "unknown" },',
    replace: "",
    why: "what nobody knows is no obstacle to a yes",
    test: [VERDICTS, "is unknown when a required service is not on record"],
  },
  {
    file: "src/fit/say.ts",
    find: 'needed: (metres) => length(metres, "up")',
    replace: 'needed: (metres) => length(metres, "down")',
    why: "what is needed rounds down",
    test: [ASYMMETRY, "what is needed rounds up"],
  },
  {
    file: "src/fit/say.ts",
    find: 'available: (metres) => length(metres, "down")',
    replace: 'available: (metres) => length(metres, "up")',
    why: "what is there rounds up",
    test: [ASYMMETRY, "what is needed rounds up"],
  },
  {
    file: "src/fit/power/candidate.ts",
    find: "input.rules.largerBreaker === false",
    replace: "input.rules.largerBreaker === true",
    why: "the campground's rule against a larger breaker is passed over",
    test: [POWER, "is refused by the campground's rule"],
  },
  {
    file: "src/fit/power/mating.ts",
    find: "const largerBreaker = Math.min(adapter.rating, plug.amps) < protectedAt;",
    replace: "const largerBreaker = Math.min(adapter.rating, plug.amps) > protectedAt;",
    why: "a larger breaker is not seen",
    test: [MATING, "a 14-50 behind a 30 A breaker"],
  },
  {
    file: "src/fit/power/mating.ts",
    find: "if (plug.system !== receptacle.system) {",
    replace: "if (plug.system === null) {",
    why: "a 120 V rig on 230 V",
    test: [MATING, "nema-tt-30 plug"],
  },
  {
    file: "src/fit/power/mating.ts",
    find: "legs: Math.min(plug.hots, outlet.hots, inlet.hots, receptacle.hots)",
    replace: "legs: Math.max(plug.hots, outlet.hots, inlet.hots, receptacle.hots)",
    why: "two legs through an adapter of one",
    test: [MATING, "never gives more amperes or legs"],
  },
  {
    file: "src/fit/power/supply.ts",
    find: "Math.min(amps * limits.continuousRatio, deviceContinuous)",
    replace: "amps",
    why: "no 80 % rule",
    test: [POWER, "takes the adapter of more amperes"],
  },
  {
    file: "src/fit/power/drop.ts",
    find: "CONDUCTORS_OUT_AND_BACK = 2",
    replace: "CONDUCTORS_OUT_AND_BACK = 1",
    why: "the volts lost on the way back are forgotten",
    test: [POWER, "extension"],
  },
  {
    file: "src/fit/sewer/drain.ts",
    find: "run > 0 ? (drop - fall) / run : 0",
    replace: "run > 0 ? (fall - drop) / run : 0",
    why: "ground that rises towards the riser helps the drain",
    test: [DRAIN, "reads the ground from the fall"],
  },
  {
    file: "src/fit/sewer/drain.ts",
    find: "const each = slope + rise;",
    replace: "const each = slope - rise;",
    why: "the same for the longest run",
    test: [DRAIN, "reads the ground from the fall"],
  },
  {
    file: "src/fit/stance/evaluate.ts",
    find: "law.slopeAlong * (outlet.along - task.target.along)",
    replace: "law.slopeAlong * (task.target.along - outlet.along)",
    why: "the same at the stance",
    test: [ASYMMETRY, "rises towards the outlet"],
  },
  {
    file: "src/fit/stance/compile.ts",
    find: "cos * slopeLeft - sin * slopeAlong",
    replace: "sin * slopeAlong - cos * slopeLeft",
    why: "the solver has the crossfall the wrong way round",
    test: [ASYMMETRY, "is the same ground to the solver"],
  },
  {
    file: "src/fit/level/level.ts",
    find: "across: mix(grade, -sin, crossfall, cos)",
    replace: "across: mix(grade, sin, crossfall, cos)",
    why: "a turned rig meets the grade with the wrong sign",
    test: [ASYMMETRY, "under a turned rig"],
  },
  {
    file: "src/fit/level/level.ts",
    find: "(levelled ? reference - rise({",
    replace: "(levelled ? rise({",
    why: "blocks lower the outlet",
    test: [LEVEL, "levelled, every point of the rig"],
  },
  {
    file: "src/fit/water/water.ts",
    find: "line.drinkingWater === false",
    replace: "line.drinkingWater === true",
    why: "a garden hose for drinking water",
    test: [WATER, "a garden hose fails"],
  },
  {
    file: "src/fit/clearance/placed.ts",
    find: "first.from < second.to && second.from < first.to",
    replace: "first.to < second.to && second.from < first.to",
    why: "a high branch is passed under",
    test: [ASYMMETRY, "begins and ends within the heights"],
  },
  {
    file: "src/fit/clearance/pad.ts",
    find: "{ of: rig.length, times: -1 }",
    replace: "{ of: rig.length, times: 1 }",
    why: "the rig's length added to the pad's",
    test: [PAD, "counts the permitted overhang"],
  },
  {
    file: "src/fit/uncertainty/parameters.ts",
    find: "const common = error.shared < 0 ? 0 : estimate.sigmaShared * normals![error.shared]!;",
    replace: "const common = error.shared < 0 ? 0 : estimate.sigma * normals![error.shared]!;",
    why: "the shared error with the deviation of the own one",
    test: [PARAMETERS, "adds own and shared errors"],
  },
  {
    file: "src/fit/uncertainty/parameters.ts",
    find: "estimate.survey ?? estimate.path",
    replace: "estimate.path",
    why: "a survey's error is drawn for each value anew",
    test: [PARAMETERS, "one error per survey and axis"],
  },
  {
    file: "src/fit/uncertainty/lattice.ts",
    find: "return -tail(Math.sqrt(-2 * Math.log(1 - probability)));",
    replace: "return tail(Math.sqrt(-2 * Math.log(1 - probability)));",
    why: "the upper tail of the errors turned down",
    test: [LATTICE, "at 0.99 is"],
  },
  {
    file: "src/fit/search.ts",
    find: "verdictRank(b.verdict) - verdictRank(a.verdict)",
    replace: "verdictRank(a.verdict) - verdictRank(b.verdict)",
    why: "the worst site first",
    test: [ASYMMETRY, "has the site that fits before"],
  },
  {
    file: "src/draw/projection.ts",
    find: "({ x: direction.along, y: -direction.left })",
    replace: "({ x: direction.along, y: direction.left })",
    why: "a mirrored plan",
    test: ["tests/draw/plan.test.ts", "keeps left on the left"],
  },
  {
    file: "src/draw/projection.ts",
    find: "const northFromUp = alongFromUp - heading;",
    replace: "const northFromUp = alongFromUp + heading;",
    why: "north on the wrong side",
    test: [DRAW, "north of a pad that bears"],
  },
  {
    file: "src/records/place.ts",
    find: "? { longitude, latitude } : null;",
    replace: "? { longitude: latitude, latitude: longitude } : null;",
    why: "longitude and latitude exchanged",
    test: [PLACE, "is the pad's origin when there is no geometry"],
  },
  {
    file: "src/records/place.ts",
    find: "longitude >= west || longitude <= east;",
    replace: "longitude >= west && longitude <= east;",
    why: "a box across the antimeridian holds nothing",
    test: [PLACE, "has the smallest box"],
  },
];
