/** Dump stations and fill taps of a campground, each solved for the rig as the fit solves a site. */
import type { Fit } from "../../fit/answer.ts";
import { fitRig } from "../../fit/fit.ts";
import { DEFAULT_OPTIONS } from "../../fit/options.ts";
import { sayer } from "../../fit/say.ts";
import { drainRuleChecks } from "../../fit/sewer/rules.ts";
import { fillTapCheck } from "../../fit/water/rules.ts";
import { tangentPlane } from "../../geo/tangent-plane.ts";
import type { Known } from "../../site/completed.ts";
import { type CampgroundFeature, featureId } from "../../site/feature.ts";
import { KINDS } from "../../site/schema.ts";
import { type Lane, laneSite } from "./lane.ts";
import type { StationCheck, StationsInput, StationVisit } from "./types.ts";

type Kind = StationVisit["kind"];
type Side = "left" | "right";

interface Station {
  readonly feature: CampgroundFeature;
  readonly kind: Kind;
  readonly id: string;
  readonly name: string;
  readonly side: Side | null;
  readonly properties: NonNullable<ReturnType<typeof readProperties>>;
  readonly path: string;
}

const TITLES: Readonly<Record<Kind, string>> = { dump: "Dump station", fill: "Fill tap" };
/** A slope that every lane keeps. */
const ANY_SLOPE = 1;
const SERVICES = { dump: "sewer", fill: "fill" } as const;

function readProperties(kind: Kind, properties: unknown) {
  const read = KINDS[kind].properties.safeParse(properties);
  return read.success ? read.data : null;
}

/** Side of the lane as driven. The driver of a country that drives on the right sits on the left. */
function sideOf(word: string | undefined, drivesOn: "right" | "left" | undefined): Side | null {
  if (word === "left" || word === "right") return word;
  if (word === undefined || drivesOn === undefined) return null;
  return (drivesOn === "right") === (word === "driver") ? "left" : "right";
}

function stationsOf({ features, campground }: StationsInput): Station[] {
  return features.flatMap((feature, index): Station[] => {
    const kind = feature.properties["kind"];
    if (kind !== "dump" && kind !== "fill") return [];
    const properties = readProperties(kind, feature.properties);
    if (properties === null) return [];
    return [
      {
        feature,
        kind,
        id: featureId(feature) ?? `${kind}-${index + 1}`,
        name: properties.name ?? TITLES[kind],
        side: sideOf(properties.inletSide, campground?.drivesOn),
        properties,
        path: `/features/${index}/properties`,
      },
    ];
  });
}

/** Metres between two stations that are points; null when either has no point on record. */
function distanceBetween(one: Station, other: Station): number | null {
  const [from, to] = [pointOf(one), pointOf(other)];
  if (from === null || to === null) return null;
  const { east, north } = tangentPlane(from).toPlane(to);
  return Math.hypot(east, north);
}

function pointOf({ feature }: Station) {
  const { geometry } = feature;
  if (geometry?.type !== "Point") return null;
  const [longitude, latitude] = geometry.coordinates;
  return longitude === undefined || latitude === undefined ? null : { longitude, latitude };
}

/** Metres to the nearest station of the other kind; null when there is none, or its place is not on record. */
function apartOf(station: Station, all: readonly Station[]): number | null {
  const distances = all
    .filter((other) => other.kind !== station.kind)
    .map((other) => distanceBetween(station, other))
    .filter((distance) => distance !== null);
  return distances.length === 0 ? null : Math.min(...distances);
}

/** The fit with each outlet in turn brought beside the inlet; the best of them. */
function fitAt(station: Station, side: Side, input: StationsInput): Fit {
  const service = SERVICES[station.kind];
  const order: readonly Known[] = ["yes", "unknown", "no"];
  const marginOf = (fit: Fit) => fit.lines.find((line) => line.service === service)?.margin ?? Number.NEGATIVE_INFINITY;
  const fits = input.rig.connections
    .filter((connection) => connection.service === service)
    .map((connection) => fitBeside(station, side, connection.fromRear.value, input));
  return fits.reduce((best, fit) => {
    const better = order.indexOf(usableOf(fit, service)) - order.indexOf(usableOf(best, service));
    return better < 0 || (better === 0 && marginOf(fit) > marginOf(best)) ? fit : best;
  });
}

function fitBeside(station: Station, side: Side, fromRear: number, input: StationsInput): Fit {
  const service = SERVICES[station.kind];
  const ignored = { power: "ignored", water: "ignored", sewer: "ignored", cable: "ignored", fill: "ignored" } as const;
  const { rig, campground, kitPolicy, units } = input;
  const lane: Lane = {
    id: station.id,
    name: station.name,
    service,
    side,
    width: station.properties.width ?? null,
    clearHeight: station.properties.clearHeight ?? null,
    drinkable: station.properties.drinkable ?? "unknown",
    drivesOn: campground?.drivesOn ?? null,
    rigLength: rig.length.high,
    fromRear,
    path: station.path,
  };
  return fitRig({
    // Nobody levels a rig to empty its tanks: it is judged as it stands on the slab.
    rig: { ...rig, offLevelLimit: ANY_SLOPE },
    site: laneSite(lane),
    options: {
      ...DEFAULT_OPTIONS,
      units,
      kitPolicy,
      detail: "summary",
      needs: { ...ignored, [service]: "required" },
      devices: "ignore",
      workspace: { pedestal: 0, side: 0 },
      awning: "in",
      closeSlides: rig.slideouts.map((slide) => slide.id),
    },
  });
}

function usableOf(fit: Fit, service: "sewer" | "fill"): Known {
  switch (fit.verdict) {
    case "fits":
    case "fits with kit":
      return "yes";
    case "tight": {
      const margin = fit.lines.find((line) => line.service === service)?.margin ?? null;
      return margin !== null && margin >= 0 ? "yes" : "unknown";
    }
    case "unknown":
      return "unknown";
    case "does not fit":
      return "no";
  }
}

function stationCheck({ id, status, value, limit, margin, source, why }: StationCheck): StationCheck {
  return { id, status, value, limit, margin, source, why };
}

/** Named local rules, only where the campground names one; elsewhere distances are told and nothing is judged. */
function ruleChecks(station: Station, apart: number | null, input: StationsInput): StationCheck[] {
  const rule = input.campground?.sitingCode;
  if (rule === undefined) return [];
  const say = sayer(input.units);
  if (station.kind === "dump") {
    const place = { rimHeight: null, diameter: null, outsideWall: null, dumpSide: station.side };
    return drainRuleChecks(rule, place, say)
      .filter((check) => check.id === "drain-rule.side")
      .map(stationCheck);
  }
  const made = fillTapCheck(rule, apart, say);
  return made === null ? [] : [stationCheck(made)];
}

function shared(station: Station, apart: number | null, input: StationsInput) {
  const { drinkable, hours, fee, season } = station.properties;
  return {
    id: station.id,
    name: station.name,
    kind: station.kind,
    inletSide: station.side,
    drinkable: drinkable ?? ("unknown" as const),
    hours: hours ?? null,
    fee: fee ?? null,
    season: season ?? null,
    apart,
    checks: ruleChecks(station, apart, input),
  };
}

/** Failing and doubtful deciding checks that are not the line's own: height, width. */
function hindrances(fit: Fit, service: string): string {
  return fit.checks
    .filter((check) => check.deciding && check.id !== `line.${service}`)
    .filter((check) => check.status === "fail" || check.status === "unknown")
    .map((check) => ` ${check.why}`)
    .join("");
}

function apartWords(station: Station, apart: number | null, input: StationsInput): string {
  if (station.kind === "dump") return "";
  return apart === null
    ? " How far it is from a dump station is not on record."
    : ` It stands ${sayer(input.units).available(apart)} from the nearest dump station.`;
}

/** The fit speaks of pads; here the pad is a lane. */
const ofLane = (sentence: string): string => sentence.replaceAll("pad's", "lane's");

function answered(station: Station, side: Side, fit: Fit, apart: number | null, input: StationsInput): StationVisit {
  const service = SERVICES[station.kind];
  const line = fit.lines.find((one) => one.service === service)!;
  const what = station.kind === "dump" ? "inlet" : "tap";
  const usable = usableOf(fit, service);
  return {
    ...shared(station, apart, input),
    verdict: fit.verdict,
    usable,
    needed: line.needed,
    available: line.available,
    margin: line.margin,
    kit: fit.kit,
    why: ofLane(
      `The ${what} stands on the ${side} of the lane as it is driven. ${line.why}${hindrances(fit, service)}${apartWords(station, apart, input)}`,
    ),
    assumed: fit.assumed.filter((one) => one.path.startsWith(station.path)),
    unknowns: usable === "yes" ? [] : fit.unknowns.map((unknown) => ofLane(unknown.measure)),
  };
}

/** The side is not on record: what holds on both sides holds, and the rest is not known. */
function eitherSide(station: Station, apart: number | null, input: StationsInput): StationVisit {
  const [left, right] = (["left", "right"] as const).map((side) =>
    answered(station, side, fitAt(station, side, input), apart, input),
  ) as [StationVisit, StationVisit];
  if (left.usable === right.usable && left.verdict === right.verdict) {
    const worse = (left.margin ?? 0) <= (right.margin ?? 0) ? left : right;
    return { ...worse, why: `On which side of the lane it stands is not on record. ${worse.why}` };
  }
  const what = station.kind === "dump" ? "inlet" : "tap";
  const good = left.usable === "yes" ? "left" : right.usable === "yes" ? "right" : null;
  const hint =
    good === null ? "" : ` With it on the rig's ${good} it serves: drive the lane so, if it may be driven both ways.`;
  return {
    ...left,
    verdict: "unknown",
    usable: "unknown",
    needed: null,
    available: null,
    margin: null,
    kit: [],
    why: `On which side of the lane the ${what} stands is not on record, and that decides.${hint}`,
    unknowns: [`Ask on which side of the lane, as it is driven, the ${what} stands`],
  };
}

function solve(station: Station, all: readonly Station[], input: StationsInput): StationVisit {
  const service = SERVICES[station.kind];
  const apart = apartOf(station, all);
  if (!input.rig.connections.some((connection) => connection.service === service)) {
    const part = station.kind === "dump" ? "drain outlet" : "tank-filling inlet";
    return {
      ...shared(station, apart, input),
      verdict: "absent",
      usable: "no",
      needed: null,
      available: null,
      margin: null,
      kit: [],
      why: `The rig's record names no ${part}.`,
      unknowns: [],
      assumed: [],
    };
  }
  if (station.side === null) return eitherSide(station, apart, input);
  return answered(station, station.side, fitAt(station, station.side, input), apart, input);
}

/** Every dump station and fill tap on record, in the record's order. */
export function solveStations(input: StationsInput): readonly StationVisit[] {
  const all = stationsOf(input);
  return all.map((station) => solve(station, all, input));
}
