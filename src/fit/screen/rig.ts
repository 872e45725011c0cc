/** A rig made ready to be held against columns of sites: what its lines span at the most, and as they should lie. */
import type { CompletedConnection, CompletedRig, RigWall, Service } from "../../rig/completed.ts";
import type { Estimate } from "../../units/estimate.ts";
import type { Need } from "../answer.ts";
import { rigKeepOuts } from "../keep-outs.ts";
import { usualHeight, WORKING_SHARE } from "../lines/candidates.ts";
import type { FitOptions } from "../options.ts";
import { slideBox } from "../parts.ts";
import { solvePower } from "../power/solve.ts";
import type { RigKeepOut } from "../stance/problem.ts";
import { type Departure, shortestDepartures } from "../stance/routes.ts";
import { HERE, type ReceptacleKind, SERVICE_NUMBERS } from "./sites.ts";

const SIGMAS = 4;

/** One connection of the rig. Rig frame, metres. */
export interface ScreenConnection {
  readonly fromRear: number;
  readonly left: number;
  /** Farthest that it may truly be from there. */
  readonly spread: number;
  /** Where a line leaves the body, and how far that is from the inlet. */
  readonly startX: number;
  readonly startY: number;
  readonly setback: number;
  /** The wall that a straight line keeps outside of; null beneath the rig. */
  readonly wall: RigWall | null;
  /** Longest reach of what may be joined to it; per kind of receptacle for power. Negative: it may not be joined. */
  readonly farthest: Float64Array;
  /** Length of everything that may be joined, fittings taken off, nominal; per kind of receptacle for power. */
  readonly lengths: Float64Array;
  /** Length of line less what the inlet's height and the allowance take, nominal. */
  readonly laid: Float64Array;
  /** Height of a drain's outlet; NaN when nobody knows it and for dropped lines. */
  readonly outlet: number;
  /** Ways from the inlet round the body to the last, straight leg. */
  readonly departures: readonly Departure[];
}

export interface ScreenLine {
  readonly service: Service;
  readonly number: number;
  /** True when the line is asked for only where the record has power. */
  readonly ifPower: boolean;
  readonly connections: readonly ScreenConnection[];
  /** Height taken for a hookup whose record has none, metres. */
  readonly usualHeight: number;
}

export interface ScreenRig {
  /** False when the options ask for what the screen does not model; then nothing is decided. */
  readonly applies: boolean;
  /** False when an awning must open, or only devices with a recorded body count: that is for the whole fit. */
  readonly mayClaim: boolean;
  readonly lengthLow: number;
  readonly widthLow: number;
  readonly heightLow: number;
  readonly length: number;
  readonly halfWidth: number;
  /** How far open slides stand out to the left, to the right and behind. */
  readonly slideLeft: number;
  readonly slideRight: number;
  readonly slideRear: number;
  /** Most that a rear end could hang over where nobody has said that it may not. */
  readonly overhangMost: number;
  readonly facings: readonly ("out" | "in")[] | null;
  readonly lines: readonly ScreenLine[];
  readonly keepOuts: readonly RigKeepOut[];
  readonly clearance: number;
  /** True when hookup devices count as solids. */
  readonly solidDevices: boolean;
}

const error = ({ sigma, sigmaShared }: Estimate): number => SIGMAS * Math.hypot(sigma, sigmaShared);
const high = (estimate: Estimate): number => estimate.high + error(estimate);
const low = (estimate: Estimate): number => estimate.low - error(estimate);
const reachOf = (estimate: Estimate): number =>
  Math.max(estimate.high - estimate.value, estimate.value - estimate.low) + error(estimate);

/** Reach for a receptacle of which nobody knows whether it can be used: nothing is refused for it. */
const UNDECIDED = Infinity;
/** A line that may not be joined. */
const BARRED = -1;

/** Lengths that a line may have with what is carried: at the most, and nominal; BARRED without any. */
interface Lengths {
  readonly farthest: Float64Array;
  readonly nominal: Float64Array;
}

export function screenRig(rig: CompletedRig, options: FitOptions, kinds: readonly ReceptacleKind[]): ScreenRig {
  const slides = rig.slideouts
    .filter((slide) => !options.closeSlides.includes(slide.id))
    .map((slide) => slideBox(slide, rig));
  const half = rig.width.value / 2;
  const needs = SERVICE_NUMBERS.map((service): { readonly need: Need; readonly ifPower: boolean } => {
    const asked = options.needs[service];
    if (asked !== undefined) return { need: asked, ifPower: false };
    const hasCord = rig.connections.some((connection) => connection.service === "power");
    return { need: service === "power" && hasCord ? "required" : "wanted", ifPower: true };
  });
  const lines = SERVICE_NUMBERS.flatMap((service, number): ScreenLine[] => {
    const { need, ifPower } = needs[number]!;
    if (need !== "required") return [];
    const connections = connectionsOf(service, rig).map((one) => screenConnection(one, rig, options, kinds));
    return [{ service, number, ifPower, connections, usualHeight: usualHeight(service, "").value }];
  });
  return {
    applies: options.yaws.every((yaw) => yaw === 0),
    mayClaim: (options.awning !== "required" || rig.awnings.length === 0) && options.devices !== "given",
    lengthLow: low(rig.length),
    widthLow: low(rig.width),
    heightLow: low(rig.height),
    length: rig.length.value,
    halfWidth: half,
    slideLeft: Math.max(0, ...slides.map((slide) => slide.leftMax - half)),
    slideRight: Math.max(0, ...slides.map((slide) => -half - slide.leftMin)),
    slideRear: Math.max(0, ...slides.map((slide) => -slide.fromRearMin)),
    overhangMost: high(rig.rearOverhang),
    facings: options.facings,
    lines,
    keepOuts: rigKeepOuts(rig),
    clearance: options.clearance,
    solidDevices: options.devices !== "ignore",
  };
}

/** Of power only the first connection is fitted; of other services all. */
function connectionsOf(service: Service, rig: CompletedRig): readonly CompletedConnection[] {
  const all = rig.connections.filter((connection) => connection.service === service);
  return service === "power" ? all.slice(0, 1) : all;
}

function screenConnection(
  connection: CompletedConnection,
  rig: CompletedRig,
  options: FitOptions,
  kinds: readonly ReceptacleKind[],
): ScreenConnection {
  const { service, wall } = connection;
  const lengths =
    service === "power" ? cordLengths(connection, rig, options, kinds) : hoseLengths(connection, rig, options);
  const fromRear = connection.fromRear.value;
  const left = connection.left.value;
  const half = rig.width.value / 2;
  const beneath = connection.mayRunBeneath;
  const startX = beneath || wall === "left" || wall === "right" ? fromRear : wall === "rear" ? 0 : rig.length.value;
  const startY = beneath || wall === "rear" || wall === "front" ? left : wall === "left" ? half : -half;
  const drain = service === "sewer";
  const taken = options.allowance[service] + (drain ? 0 : (connection.height?.value ?? 0));
  return {
    fromRear,
    left,
    spread: Math.hypot(reachOf(connection.fromRear), reachOf(connection.left)),
    startX,
    startY,
    setback: Math.hypot(startX - fromRear, startY - left),
    wall: beneath ? null : wall,
    farthest: lengths.farthest,
    lengths: lengths.nominal,
    laid: lengths.nominal.map((length) => (length < 0 ? BARRED : length - taken)),
    outlet: drain ? (connection.height?.value ?? Number.NaN) : Number.NaN,
    departures: shortestDepartures(
      {
        id: service,
        inlet: { fromRear, left },
        wall,
        mayRunBeneath: beneath,
        target: { along: 0, left: 0 },
        law: { budget: 0, fallAtLevel: 0, slopeAlong: 0, slopeLeft: 0 },
      },
      rig.length.value,
      rig.width.value,
    ),
  };
}

/** Own cord with adapters, protector and owned extensions, for every kind of receptacle. */
function cordLengths(
  connection: CompletedConnection,
  rig: CompletedRig,
  options: FitOptions,
  kinds: readonly ReceptacleKind[],
): Lengths {
  const farthest = new Float64Array(kinds.length).fill(BARRED);
  const nominal = new Float64Array(kinds.length).fill(BARRED);
  const own = connection.line?.workingLength ?? null;
  kinds.forEach((kind, place) => {
    const candidates = [0, OWNED_EXTENSION].flatMap(
      (extraLength) =>
        solvePower({
          plug: connection.plug,
          cord: connection.line,
          kit: rig.kit,
          appliances: [],
          receptacles: [{ hookup: HERE, shared: kind.shared, receptacle: kind.receptacle }],
          siteId: HERE,
          electricalSystem: kind.electricalSystem,
          rules: { largerBreaker: kind.largerBreaker },
          policy: options.policy,
          kitPolicy: options.kitPolicy,
          units: options.units,
          ...(extraLength > 0 ? { extraLength } : {}),
        }).candidates,
    );
    const owned = candidates.filter(({ items }) =>
      items.every((item) => item.item !== "extension" || item.where !== "to bring"),
    );
    const usable = owned.filter((candidate) => candidate.usable);
    if (usable.length > 0) {
      const added = Math.max(...usable.map((candidate) => candidate.addedLength));
      if (own !== null || added > 0) {
        farthest[place] = (own === null ? 0 : high(own)) + added;
        nominal[place] = (own?.value ?? 0) + added;
      }
    } else if (candidates.some((candidate) => candidate.mating === "unknown")) farthest[place] = UNDECIDED;
  });
  return { farthest, nominal };
}

/** Any extension of the kit, metres to ask for: the least that makes the power solver look for one. */
const OWNED_EXTENSION = 0.01;

const HOSES: Partial<Readonly<Record<Service, string>>> = {
  water: "drinking-hose",
  fill: "drinking-hose",
  sewer: "sewer-hose",
  cable: "cable",
};

/** Own hose with every hose of the kit joined to it: one entry, because any tap or riser takes it. */
function hoseLengths(connection: CompletedConnection, rig: CompletedRig, options: FitOptions): Lengths {
  const { service, line } = connection;
  const own = line?.workingLength ?? null;
  const share = service === "sewer" ? WORKING_SHARE : 1;
  const added = rig.kit
    .filter((item) => item.item === HOSES[service] && (options.kitPolicy === "any" || item.where === "aboard"))
    .reduce((sum, item) => sum + share * Math.max(0, item.addsLength), 0);
  if (own === null && added === 0) {
    return { farthest: Float64Array.of(BARRED), nominal: Float64Array.of(BARRED) };
  }
  const fittings = line?.fittings ?? 0;
  return {
    farthest: Float64Array.of((own === null ? 0 : high(own)) + added - Math.min(0, fittings)),
    nominal: Float64Array.of((own?.value ?? 0) + added - fittings),
  };
}
