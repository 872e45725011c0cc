/** Every word that requests and answers use, read from the tables and schemas that the fit itself reads. */
import adapters from "../../data/adapters.json" with { type: "json" };
import kit from "../../data/kit.json" with { type: "json" };
import receptacles from "../../data/receptacles.json" with { type: "json" };
import rigTable from "../../data/rig-classes.json" with { type: "json" };
import { rigClasses } from "../rig/vocabulary.ts";
import { WIND_FLAG_TEXTS } from "../wind/flags.ts";
import { PROBLEMS, type ProblemCode } from "./problem.ts";
import type { Vocabulary } from "./schemas/about.ts";

type Words = Vocabulary["services"];

const words = (meanings: Readonly<Record<string, string>>): Words =>
  Object.entries(meanings).map(([id, meaning]) => ({ id, meaning }));

const SERVICE_WORDS = {
  power: "Electric supply from a receptacle.",
  water: "Pressurised drinking water at a tap.",
  fill: "A tap to fill the tank from, not to stay connected to.",
  sewer: "A drain that the rig's sewer hose enters.",
  cable: "Television or data cable.",
} as const;

const NEED_WORDS = {
  required: "Absent or failing is `does not fit`; unrecorded is `unknown`.",
  wanted: "Failing is named in the headline only.",
  ignored: "Not judged.",
} as const;

const LAYOUT_WORDS = {
  "back-in": "Entered and left by the same end.",
  "pull-through": "Entered by one end and left by the other.",
  parallel: "Beside the road, along it.",
} as const;

/** In order of precedence. */
const SITE_VERDICT_WORDS = {
  "does not fit": "A deciding check fails for every value the record leaves open.",
  unknown: "A deciding check waits for something that is not recorded; `unknowns` says what to measure.",
  tight: "It works with less margin than `comfort`, or only when the line hangs clear of the ground.",
  "fits with kit": "It fits with the items listed under `kit`.",
  fits: "Every deciding check passes with what the rig carries.",
} as const;

const LINE_VERDICT_WORDS = {
  reaches: "The line reaches when laid, also when parked a little off.",
  tight: "It reaches with less than `comfort` to spare, or only hanging clear of the ground.",
  short: "It does not reach from any allowed stance.",
  unknown: "A place or a length that decides is not known well enough.",
  "not needed": "The need is `ignored`, or the rig has no such connection.",
  absent: "The site has no such hookup.",
} as const;

const CHECK_STATUS_WORDS = {
  pass: "Within the limit.",
  "pass with kit": "Within the limit with an item listed under `kit`.",
  tight: "Within the limit by little.",
  fail: "Beyond the limit.",
  unknown: "Waits for something that is not recorded.",
  "not applicable": "Nothing to judge on this rig at this site.",
} as const;

const CHECK_FAMILY_WORDS = {
  cannot: "Physics.",
  "must-not": "A hazard.",
  "may-not": "A rule of the place.",
  risk: "Informs; never makes a fit a no.",
} as const;

/** In the order in which every answer lists them; held to the answers by a test. */
export const CHECK_WORDS = {
  "site.closed": "Whether the record says that the site is closed.",
  "fit.stand": "Whether the body stands anywhere on the pad, clear of everything.",
  "fit.length": "The rig's length on the pad, with the overhang that is allowed.",
  "line.power": "Whether the cord reaches.",
  "line.water": "Whether the water hose reaches.",
  "line.sewer": "Whether the sewer hose reaches and falls all the way.",
  "line.cable": "Whether the cable reaches.",
  "line.fill": "Whether the fill hose reaches.",
  "power.mating": "Whether the rig's plug enters a receptacle of the site, by which adapter.",
  "power.contested": "Whether a receptacle shared with other sites may be taken.",
  "fit.parking": "Whether a yes survives being parked a little off.",
  "limits.length": "The longest rig that the host allows.",
  "height.limit": "The greatest height that the host allows.",
  "height.access": "The clear height on the way in.",
  "fit.width": "The body's width on the pad.",
  "fit.overhang": "What the rear end hangs over behind the pad's rear edge.",
  "fit.stop": "Wheel stop or kerb against the wheels and the rear end.",
  "fit.slides": "Slides against the pad's edges and what stands there.",
  "limits.width": "The greatest width that the host allows.",
  "height.overhead": "Branches, roofs and wires over the pad.",
  "awning.room": "Room for the open awning.",
  "door.clear": "Room before the doors.",
  "workspace.pedestal": "Working space before the pedestal.",
  "workspace.side": "Working space along the service side.",
  separation: "Distance to neighbours, where a local rule is named.",
  "second-vehicle": "Room for the second vehicle.",
  "water.drinkable": "Whether the water is recorded as drinkable.",
  "water.season": "Whether the water is shut for a season.",
  "water.hose": "Whether the hose is made for drinking water.",
  "water.thread": "Whether hose and tap have the same thread.",
  "water.pressure": "Pressure at the tap.",
  "drain-rule": "What a named local rule asks of the drain's place; nothing where none is named.",
  "water-rule": "What a named local rule asks of the water outlet; nothing where none is named.",
  level: "Slope of the pad against what the rig may stand at; blocks.",
  "accessible.width": "Width of an accessible site.",
  "accessible.slope": "Slope of an accessible site.",
  "accessible.water": "Reach of the tap at an accessible site.",
  "accessible.controls": "Reach of the receptacles at an accessible site.",
  manoeuvre: "Whether a clear path in and out was found, in one move; a risk, never a no unless physics shows it.",
  "awning.exposure": "How exposed the awning is to wind; a risk, never a no.",
  "awning.wind": "The wind by hand or of the worst hour of the stay against the awning's class; a risk, never a no.",
} as const;

const MANOEUVRE_WORDS = {
  "ok in one move": "A path was found and is clear along its whole length.",
  "needs a shunt": "No path was found in the family of moves that is searched; other moves may do.",
  unknown: "Something that decides is not on record; `measure` says what.",
  cannot: "Physics forbids it. Never said of a trailer.",
} as const;

const EXPOSURE_WORDS = {
  low: "A gust at the foot of a near gale (Beaufort 7) would press less than awning class 1 is made for.",
  moderate: "Between low and high, or low only by shelter that is a guess.",
  high: "A gust at the top of a fresh breeze (Beaufort 5) would press more than class 1 is made for.",
  unknown: "Nothing is recorded round the site, or its place is not.",
} as const;

const AWNING_LEVEL_WORDS = {
  low: "The pressure is below half of what the awning's class is made for.",
  moderate: "Below four fifths of it, or lower only by shelter that is a guess.",
  high: "Below all of it.",
  retract: "All of it or more, or the forecast warns of a hazard: take the awning in.",
  unknown: "No wind is known.",
} as const;

const HOUR_SIGNAL_WORDS = {
  "no retract signal": "The upper end of the band stays below the limit and the forecast is fresh; never a permission.",
  retract: "Take the awning in.",
  unknown: "Nothing can be said: no forecast, an old one, one too far ahead, or a band that reaches the limit.",
} as const;

const WORKS_WORDS = {
  yes: "Every stop fits with the kit packed.",
  tight: "The worst stop is tight.",
  unknown: "The worst stop waits for something that is not recorded.",
  no: "At a stop the rig does not fit, or no site is free.",
} as const;

const KIT_PLACE_WORDS = {
  aboard: "It is in the rig now.",
  "to pack": "It lies in the depot.",
  lent: "The campground of a stop lends it.",
  "to buy": "Neither rig nor depot has it.",
} as const;

const BASIS_WORDS = {
  measured: "Tape or survey; carries `accuracy`.",
  mapped: "Imagery or open map; carries `accuracy`.",
  gps: "A satellite fix; carries `accuracy`.",
  described: "Words such as driver side, rear third; a region without a probability.",
  code: "Placed by a named siting rule; a region without a probability.",
  assumed: "A default of the class; a range without a probability.",
} as const;

const WARNING_WORDS = {
  ignored: "Read and not used.",
  assumed: "Not given, so a default stands in.",
  estimated: "Given roughly.",
  implausible: "Kept as given, but unusual: check it.",
  stale: "Old enough to doubt.",
  contradiction: "Two members disagree.",
  repaired: "Put right in a way that leaves the meaning.",
} as const;

export function vocabulary(): Vocabulary {
  return {
    plugs: receptacles.devices.map(({ id, name, system, volts, amps }) => ({ id, name, system, volts, amps })),
    adapters: adapters.adapters.map(({ id, description, plug, receptacle, rating, source }) => ({
      id,
      description,
      plug,
      receptacle,
      rating,
      source,
    })),
    kitItems: Object.entries(kit.items).map(([id, { title }]) => ({ id, meaning: title })),
    rigClasses: rigClasses.map((id) => ({ id, meaning: rigTable.classes[id].description })),
    services: words(SERVICE_WORDS),
    needs: words(NEED_WORDS),
    layouts: words(LAYOUT_WORDS),
    siteVerdicts: words(SITE_VERDICT_WORDS),
    lineVerdicts: words(LINE_VERDICT_WORDS),
    checkStatuses: words(CHECK_STATUS_WORDS),
    checkFamilies: words(CHECK_FAMILY_WORDS),
    checks: words(CHECK_WORDS),
    manoeuvres: words(MANOEUVRE_WORDS),
    exposures: words(EXPOSURE_WORDS),
    awningLevels: words(AWNING_LEVEL_WORDS),
    hourSignals: words(HOUR_SIGNAL_WORDS),
    windFlags: words(WIND_FLAG_TEXTS),
    works: words(WORKS_WORDS),
    kitPlaces: words(KIT_PLACE_WORDS),
    bases: words(BASIS_WORDS),
    warningCodes: words(WARNING_WORDS),
    problemCodes: (Object.keys(PROBLEMS) as ProblemCode[]).map((id) => ({
      id,
      status: PROBLEMS[id].status,
      meaning: PROBLEMS[id].meaning,
    })),
  };
}
