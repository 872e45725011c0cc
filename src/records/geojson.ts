/**
 * Reads a campground: one GeoJSON FeatureCollection (RFC 7946) with the member `campground`.
 *
 * A bad feature is refused with its index, id and JSON Pointer, and the rest loads; a hookup that lies too far from its
 * pad is left out and its site kept. Never throws. Our own checks decide; the package geojson-validation, which
 * follows the older 2008 specification, gives a second opinion on what they took.
 */
import secondOpinion from "geojson-validation";
import { FARTHEST_HOOKUP, hookupDistance } from "../site/far.ts";
import type { CampgroundFeature, WireGeometry } from "../site/feature.ts";
import {
  type Campground,
  campground as campgroundSchema,
  KINDS,
  type Kind,
  type SiteProperties,
} from "../site/schema.ts";
import { type PositionBudget, readGeometry, shown } from "./geojson-geometry.ts";
import { isPlainObject, readInput } from "./geojson-input.ts";
import { refuseIssues } from "./geojson-issues.ts";
import { CAMPGROUND_LIMITS, type CampgroundLimits } from "./geojson-limits.ts";
import { checkForeignMembers, checkReferenceSystem, readBox } from "./geojson-members.ts";
import { type CampgroundReading, Findings, type Refusal } from "./geojson-report.ts";
import { warnOfStrays } from "./geojson-strays.ts";

export { CAMPGROUND_LIMITS, type CampgroundLimits } from "./geojson-limits.ts";
export type { CampgroundReading, CampgroundReport, Refusal } from "./geojson-report.ts";

const MOST_DOCUMENT_FAULTS = 100;

/**
 * @param input JSON text, or the value that it stands for.
 * @param limits Caps; each defaults to the published one.
 */
export function readCampground(input: unknown, limits: Partial<CampgroundLimits> = {}): CampgroundReading {
  const caps = { ...CAMPGROUND_LIMITS, ...limits };
  const findings = new Findings(null, null, MOST_DOCUMENT_FAULTS);
  const value = readInput(input, caps, findings);
  const slips = findings.refused.filter((fault) => fault.code === "not-json" && fault.path.startsWith("/features/"));
  const fatal = findings.refused.length > slips.length;
  if (fatal || !isPlainObject(value)) {
    if (!fatal) findings.refuse("", "wrong-type", `${shown(value)} is no FeatureCollection.`, "a FeatureCollection");
    return refusedDocument(findings);
  }
  const members = collectionMembers(value, caps, findings);
  if (members === null) return refusedDocument(findings);
  const { kept, refused, warnings } = readFeatures(members, caps, slips);
  const campground = readCampgroundMember(value, findings);
  warnOfStrays(kept, findings);
  const { features: _, bbox, ...rest } = value;
  const boxed = bbox !== undefined && readBox(value, "", findings) ? { bbox } : {};
  return {
    campground,
    features: kept.map(({ feature }) => feature),
    document: { ...rest, ...boxed, features: kept.map(({ feature }) => feature) },
    report: {
      accepted: kept.length,
      features: members.length,
      refused: [...findings.refused.filter((fault) => !slips.includes(fault)), ...refused],
      warnings: [...findings.warnings, ...warnings],
    },
  };
}

function refusedDocument(findings: Findings): CampgroundReading {
  const report = { accepted: 0, features: null, refused: findings.refused, warnings: findings.warnings };
  return { campground: null, features: [], document: null, report };
}

/** The list of features; null when the document is none that can be read. */
function collectionMembers(
  value: Readonly<Record<string, unknown>>,
  caps: CampgroundLimits,
  findings: Findings,
): readonly unknown[] | null {
  if (value["type"] !== "FeatureCollection") {
    findings.refuse("/type", "wrong-type", `${shown(value["type"])} is not the type.`, "FeatureCollection");
    return null;
  }
  const right = checkForeignMembers("collection", value, "", findings) && checkReferenceSystem(value, "", findings);
  const features = value["features"];
  if (!Array.isArray(features)) {
    findings.refuse("/features", "wrong-type", "features is missing or no array.", "an array of features");
    return null;
  }
  if (features.length > caps.features) {
    const expected = `at most ${caps.features} features`;
    findings.refuse("/features", "too-many-features", `The document has ${features.length} features.`, expected);
    return null;
  }
  return right ? features : null;
}

export interface KeptFeature {
  readonly index: number;
  readonly feature: CampgroundFeature;
}

function readFeatures(members: readonly unknown[], caps: CampgroundLimits, slips: readonly Refusal[]) {
  const kept: KeptFeature[] = [];
  const refused: Refusal[] = [];
  const warnings: CampgroundReading["report"]["warnings"][number][] = [];
  const budget: PositionBudget = { left: caps.positions };
  const firstWithId = new Map<string, number>();
  members.forEach((member, index) => {
    const path = `/features/${index}`;
    const findings = new Findings(index, rawId(member), caps.faultsPerFeature);
    for (const { path: slip, code, message, expected } of slips) {
      if (slip === path || slip.startsWith(`${path}/`)) findings.refuse(slip, code, message, expected);
    }
    const feature = findings.refused.length > 0 ? null : readFeature(member, path, caps, findings, budget);
    if (feature !== null) {
      const id = feature.id === undefined ? null : String(feature.id);
      const before = id === null ? undefined : firstWithId.get(id);
      if (before !== undefined) {
        const message = `Feature ${before} has the id ${shown(id)} already.`;
        findings.refuse(`${path}/id`, "duplicate-id", message, "an id of its own for each feature");
      } else {
        if (id !== null) firstWithId.set(id, index);
        kept.push({ index, feature });
      }
    }
    refused.push(...findings.refused);
    warnings.push(...findings.warnings);
  });
  return { kept, refused, warnings };
}

function rawId(member: unknown): string | null {
  if (!isPlainObject(member)) return null;
  const properties = isPlainObject(member["properties"]) ? member["properties"] : {};
  const id = member["id"] ?? properties["id"] ?? properties["name"];
  return typeof id === "string" || typeof id === "number" ? String(id) : null;
}

/** One feature, cleaned; null when it is refused. A hookup that lies too far away is left out and told as refused. */
function readFeature(
  member: unknown,
  path: string,
  limits: CampgroundLimits,
  findings: Findings,
  budget: PositionBudget,
): CampgroundFeature | null {
  if (!isPlainObject(member) || member["type"] !== "Feature") {
    const found = isPlainObject(member) ? shown(member["type"]) : shown(member);
    const at = isPlainObject(member) ? `${path}/type` : path;
    findings.refuse(at, "wrong-type", `${found} is no feature.`, 'an object of type "Feature"');
    return null;
  }
  const { geometry, properties, id } = member;
  checkForeignMembers("feature", member, path, findings);
  checkReferenceSystem(member, path, findings);
  readBox(member, path, findings);
  if (id !== undefined && typeof id !== "string" && typeof id !== "number") {
    findings.refuse(`${path}/id`, "wrong-type", `${shown(id)} is no id.`, "a string or a number");
  }
  if (properties === undefined || (properties !== null && !isPlainObject(properties))) {
    findings.refuse(`${path}/properties`, "wrong-type", `${shown(properties)} are no properties.`, "an object or null");
  }
  if (geometry === undefined) {
    findings.refuse(
      `${path}/geometry`,
      "missing",
      "A feature has a geometry, which may be null.",
      "a geometry or null",
    );
  }
  const shape =
    geometry === undefined ? undefined : readGeometry(geometry, `${path}/geometry`, { limits, findings, budget });
  if (findings.refused.length > 0 || shape === undefined) return null;
  const cleaned = { ...member, geometry: shape, properties: properties ?? {} } as unknown as CampgroundFeature;
  const feature = readKind(cleaned, path, findings);
  if (feature !== null) askSecondOpinion(feature, path, findings);
  return feature;
}

function readKind(feature: CampgroundFeature, path: string, findings: Findings): CampgroundFeature | null {
  const kind = feature.properties["kind"];
  if (typeof kind !== "string" || !Object.hasOwn(KINDS, kind)) {
    const known = Object.keys(KINDS).join(", ");
    const named = kind === undefined ? "A feature without a kind" : `The kind ${shown(kind)}`;
    const text = `${named} is not one of ${known}: the feature is kept and has no effect.`;
    findings.warn("ignored", `${path}/properties/kind`, text);
    return feature;
  }
  const { properties, geometries } = KINDS[kind as Kind];
  const type = feature.geometry?.type ?? null;
  const fits = (geometries as readonly (string | null)[]).includes(type);
  if (!fits || !cutOnly(kind, feature.geometry)) {
    const expected = geometries.map(String).join(", ");
    const message = fits ? "A pad in several parts that are not cut at the antimeridian." : `A ${kind} as ${type}.`;
    findings.refuse(`${path}/geometry`, "wrong-geometry", message, expected);
  }
  const parsed = properties.safeParse(feature.properties);
  if (!parsed.success) refuseIssues(parsed.error.issues, `${path}/properties`, findings);
  if (findings.refused.length > 0 || !parsed.success) return null;
  return kind === "site" ? withoutFarHookups(feature, parsed.data as SiteProperties, path, findings) : feature;
}

/** A site may be a MultiPolygon only because the antimeridian cuts its pad: every part touches it. */
function cutOnly(kind: string, geometry: WireGeometry | null): boolean {
  const halfTurn = 180;
  if (kind !== "site" || geometry?.type !== "MultiPolygon") return true;
  return geometry.coordinates.every((polygon) =>
    polygon[0]?.some((position) => Math.abs(position[0] as number) === halfTurn),
  );
}

function withoutFarHookups(
  feature: CampgroundFeature,
  site: SiteProperties,
  path: string,
  findings: Findings,
): CampgroundFeature {
  const far = (site.hookups ?? []).map((hookup) => {
    const distance = hookupDistance(hookup, site, feature.geometry);
    return distance !== null && distance > FARTHEST_HOOKUP ? distance : null;
  });
  if (far.every((distance) => distance === null)) return feature;
  far.forEach((distance, index) => {
    if (distance === null) return;
    const message = `The hookup lies ${Math.round(distance)} m from its pad and was left out; the site is kept.`;
    const expected = `at most ${FARTHEST_HOOKUP} m from the pad`;
    findings.refuse(`${path}/properties/hookups/${index}`, "pedestal-too-far", message, expected);
  });
  const hookups = (feature.properties["hookups"] as readonly unknown[]).filter((_, index) => far[index] === null);
  return { ...feature, properties: { ...feature.properties, hookups } };
}

function askSecondOpinion(feature: CampgroundFeature, path: string, findings: Findings): void {
  try {
    for (const complaint of secondOpinion.isFeature(feature, true) ?? []) {
      findings.warn("contradiction", path, `geojson-validation objects: ${complaint}.`);
    }
  } catch {
    findings.warn("contradiction", path, "geojson-validation could not read this feature.");
  }
}

/** The campground's own data. A member that cannot be read is refused and left out; the others stand. */
function readCampgroundMember(document: Record<string, unknown>, findings: Findings): Campground | null {
  const raw = document["campground"];
  if (!isPlainObject(raw)) {
    const message = raw === undefined ? "The member campground is missing." : `${shown(raw)} is no campground.`;
    findings.refuse("/campground", "missing", message, "an object with id, name, electricalSystem, drivesOn, …");
    return null;
  }
  const first = campgroundSchema.safeParse(raw);
  if (first.success) return first.data;
  refuseIssues(first.error.issues, "/campground", findings);
  const bad = new Set(first.error.issues.map((issue) => issue.path[0]));
  const rest = Object.fromEntries(Object.entries(raw).filter(([key]) => !bad.has(key)));
  const second = campgroundSchema.safeParse(rest);
  document["campground"] = rest;
  return second.success ? second.data : null;
}
