/**
 * Getting in and out: from the road into the pad, to the stance, and out again. A yes is proven by the path that is
 * shown; a no is never claimed unless physics shows it, because only a published family of moves is searched.
 */
import type { CompletedRig } from "../../rig/completed.ts";
import type { CompletedSite, SiteObstacle } from "../../site/completed.ts";
import { devices } from "../devices.ts";
import type { Say } from "../say.ts";
import { noseVector, rigToPad } from "../stance/frame.ts";
import type { Stance } from "../stance/problem.ts";
import type { ManoeuvreAnswer, ManoeuvreLeg } from "./answer.ts";
import { apartFirst, couplingOf, withHitchAngle } from "./coupling.ts";
import { backToPad, type End, mouthSides, type PadSize, type Road, roadLine } from "./ground.ts";
import { drivenBack, judgeLeg, type LegInput, legWithout, type Thing, worseOf } from "./leg.ts";
import type { State } from "./motion.ts";
import { type RoadFinding, roadBefore } from "./roads.ts";
import { aloneTrains, drawingTrains, drawnTrains, isTrailer, type Trains } from "./trains.ts";
import type { Train } from "./vehicle.ts";

export interface ManoeuvreInput {
  readonly rig: CompletedRig;
  readonly site: CompletedSite;
  readonly stance: Stance;
  readonly devices: "assumed" | "given" | "ignore";
  /** True when the rig stands without blocks or jacks; null when the pad's slope is not known. */
  readonly level: boolean | null;
}

const SOURCE = "path found by search over a published family of moves; vehicles as data/turning.json says";

interface Plan {
  readonly kind: ManoeuvreAnswer["kind"];
  readonly in: { readonly end: End; readonly gear: 1 | -1 };
  readonly out: { readonly end: End; readonly gear: 1 | -1 };
}

/** By which end, and in which gear the rig leaves the stance by that end. */
function planOf(site: CompletedSite, stance: Stance): Plan | null {
  const out = stance.facing === "out";
  if (site.layout === "back-in") {
    const leg = { end: "exit", gear: out ? 1 : -1 } as const;
    return { kind: out ? "back-in" : "nose-in", in: leg, out: leg };
  }
  if (site.layout !== "pull-through") return null;
  const [tail, nose]: [End, End] = out ? ["rear", "exit"] : ["exit", "rear"];
  return { kind: "pull-through", in: { end: tail, gear: -1 }, out: { end: nose, gear: 1 } };
}

function asThing({ what, outline, from, to, sigma, sigmaShared }: SiteObstacle): Thing {
  return { what, outline, from, to, sigma: Math.hypot(sigma, sigmaShared) };
}

function thingsOn(site: CompletedSite, mode: ManoeuvreInput["devices"]): Thing[] {
  const stands = devices(site, mode).map(({ service, outline, height }) => ({
    what: service === "power" ? "pedestal" : "riser",
    outline,
    from: 0,
    to: height,
    sigma: 0,
  }));
  return [...site.obstacles.filter(({ bars }) => bars !== "line").map(asThing), ...stands];
}

/** The drawing vehicle's rear axle with the rig at its stance and everything in line. */
function stanceFor(rig: CompletedRig, stance: Stance): (train: Train) => State {
  const { cos, sin } = noseVector(stance.facing, stance.yaw);
  const heading = Math.atan2(sin, cos);
  return (train) => {
    const unit = train.rigIsDrawn ? (train.drawn?.unit ?? train.drawing) : train.drawing;
    const axle = rigToPad(stance, rig.length.value, { fromRear: -unit.body.rear, left: 0 });
    const ahead = train.rigIsDrawn && train.drawn !== null ? train.drawn.hitch.length + train.drawn.hitch.behind : 0;
    return { along: axle.along + ahead * cos, left: axle.left + ahead * sin, heading, trailer: heading };
  };
}

/** Metres of road drawn to either side. */
const DRAWN = 28;

function edgesOf(end: End, road: Road, pad: PadSize): ManoeuvreAnswer["roads"][number] {
  const { length } = pad;
  const { way, off } = roadLine(road);
  const edge = (across: number) =>
    [Math.max(road.from, -DRAWN), Math.min(road.to, DRAWN)].map((far) =>
      backToPad(end, length, {
        along: road.gap + off.along * across + way.along * far,
        left: off.left * across + way.left * far,
      }),
    );
  const mouth = mouthSides(road, pad).map((side) => side.map((point) => backToPad(end, length, point)));
  return { end, edges: [edge(0), edge(road.width)], mouth };
}

function trainsFor(rig: CompletedRig, coupled: boolean): Trains {
  if (isTrailer(rig)) return drawnTrains(rig);
  return coupled ? drawingTrains(rig) : aloneTrains(rig);
}

function answerOf(parts: Omit<ManoeuvreAnswer, "status" | "why" | "source">): ManoeuvreAnswer {
  const legs = [parts.in, parts.out];
  const status = worseOf(parts.in.status, parts.out.status);
  const { needs } = parts.coupling;
  const found = legs.filter((leg) => leg.status === status).map((leg) => leg.why);
  const needed = needs.length === 0 ? "" : ` Needed: ${needs.join("; ")}.`;
  const said = parts.coupling.other === null ? "" : ` ${parts.coupling.why}`;
  return { ...parts, status, why: `${[...new Set(found)].join(" ")}${said}${needed}`, source: SOURCE };
}

function withoutPlan(site: CompletedSite, coupling: ManoeuvreAnswer["coupling"]): ManoeuvreAnswer {
  const parallel = site.layout === "parallel";
  const why = parallel
    ? "Turning into a pad along the road is not judged."
    : "Whether the pad is backed into or driven through is not on record.";
  const leg = legWithout("unknown", why);
  return answerOf({
    kind: parallel ? "parallel" : null,
    coupling,
    in: leg,
    out: leg,
    roads: [],
    measure: parallel ? [] : ["/site/properties/layout"],
    assumed: [],
  });
}

/** The two ends' roads, each looked up once. */
function roadsOf(input: ManoeuvreInput, plan: Plan, pad: PadSize): Readonly<Record<"in" | "out", RoadFinding>> {
  const find = (end: End, recorded: boolean) => roadBefore(input.site, end, pad.length, pad.width, recorded);
  const entry = find(plan.in.end, true);
  return { in: entry, out: plan.out.end === plan.in.end ? entry : find(plan.out.end, false) };
}

/** Physics before any search: a mouth narrower than the rig. Of a trailer no flat no is said. */
function tooNarrow({ rig, site }: ManoeuvreInput, say: Say): ManoeuvreLeg | null {
  const mouth = site.access.mouth ?? null;
  if (mouth === null || mouth >= rig.width.low) return null;
  const why = `The opening at the road is ${say.available(mouth)} wide and the rig ${say.needed(rig.width.low)}.`;
  return legWithout(isTrailer(rig) ? "unknown" : "cannot", why);
}

const WHOLE_ROAD = {
  path: "/site/properties/access",
  value: "the whole width of the road is used, and nothing stands or drives on it",
  source: "assumed",
};

/** The manoeuvre with the trains that this coupling makes. */
function withCoupling(
  input: ManoeuvreInput,
  plan: Plan,
  pad: PadSize,
  coupling: ManoeuvreAnswer["coupling"],
  say: Say,
): ManoeuvreAnswer {
  const { rig, site, stance } = input;
  const coupled = coupling.state === "stays coupled" || coupling.state === "unknown";
  const trains = trainsFor(rig, coupled);
  const findings = roadsOf(input, plan, pad);
  const things = thingsOn(site, input.devices);
  const narrow = tooNarrow(input, say);
  const leg = (way: "in" | "out"): ManoeuvreLeg => {
    if (narrow !== null) return narrow;
    if (isTrailer(rig) && plan.kind === "nose-in") {
      return legWithout("unknown", "A trailer drawn nose first into a pad with one end is not judged.");
    }
    const task: LegInput = {
      ...plan[way],
      way,
      finding: findings[way],
      pad,
      things,
      trains,
      stanceOf: stanceFor(rig, stance),
      drivesOn: site.drivesOn,
      mayOvershoot: site.stop === null,
    };
    return judgeLeg(task, say);
  };
  const inwards = leg("in");
  // A train that is backed in comes out by the same path: its family is the way out, read backwards.
  const back = trains.worst.drawn !== null && plan.in.end === plan.out.end;
  const legs = { in: inwards, out: back ? drivenBack(inwards) : leg("out") };
  const both = [...new Set([findings.in, findings.out])];
  const ends = plan.in.end === plan.out.end ? [plan.in.end] : [plan.in.end, plan.out.end];
  const open = [legs.in, legs.out].some((one) => one.status === "unknown");
  const roads = both.flatMap((finding, index) =>
    finding.known ? finding.roads.slice(0, 1).map((road) => edgesOf(ends[index] ?? "exit", road, pad)) : [],
  );
  const unrecorded = both.flatMap((finding) => (finding.known ? [] : finding.measure));
  return answerOf({
    kind: plan.kind,
    coupling: withHitchAngle(coupling, legs.in.outlines.length === 0),
    ...legs,
    roads,
    measure: open ? [...new Set([...unrecorded, ...trains.measure])] : [],
    assumed: [
      ...(roads.length === 0 ? [] : [WHOLE_ROAD]),
      ...both.flatMap((finding) => (finding.known ? finding.assumed : [])),
      ...trains.assumed,
    ],
  });
}

/** The manoeuvre of a rig to its stance. Needs a pad of known size. */
export function judgeManoeuvre(input: ManoeuvreInput, say: Say): ManoeuvreAnswer | null {
  const { rig, site, stance } = input;
  const { length, width } = site.pad;
  if (length === null || width === null) return null;
  const plan = planOf(site, stance);
  const coupling = couplingOf({ ...input, pullThrough: plan?.kind === "pull-through" }, say);
  if (plan === null) return withoutPlan(site, coupling);
  const pad = { length: length.value, width: width.value, mouth: site.access.mouth ?? null };
  const answer = withCoupling(input, plan, pad, coupling, say);
  const coupled = coupling.state === "stays coupled" || coupling.state === "unknown";
  if (!coupled || isTrailer(rig) || answer.status === "ok in one move") return answer;
  // What the two cannot do together the rig may do alone.
  const alone = withCoupling(input, plan, pad, apartFirst(coupling, site), say);
  return alone.status === "ok in one move" ? alone : answer;
}
