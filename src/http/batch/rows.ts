/** The rows of a batch, one after another: of each site all rigs, so that a record is read once and gone again. */
import { completeOptions, type FitOptions } from "../../fit/options.ts";
import type { When } from "../../fit/wind/when.ts";
import { isSite } from "../../records/store.ts";
import { type CampgroundFeature, featureId, type WireGeometry } from "../../site/feature.ts";
import { fitCase } from "../fit-case.ts";
import { Problem, type ProblemError } from "../problem.ts";
import { type ReadRig, readRig } from "../rig-input.ts";
import type { Call } from "../route.ts";
import type { BatchRequest, BatchRow } from "../schemas/batch.ts";
import { summaryOf } from "../search/search-sites.ts";
import { type ReadSite, readSite, storedRead } from "../site-input.ts";
import { whenOf } from "../weather.ts";
import { fitToWire } from "../wire.ts";

export interface Row {
  readonly row: BatchRow;
  readonly geometry: WireGeometry | null;
}

interface Rig {
  readonly read: ReadRig | null;
  readonly errors: BatchRow["errors"];
}

/** A site of which it is not yet known whether its record can be read. */
interface Waiting {
  readonly campground: string | null;
  readonly siteId: string | null;
  readonly read: (errors: ProblemError[]) => Promise<ReadSite | null>;
}

export interface Batch {
  readonly rigs: readonly Rig[];
  readonly sites: readonly Waiting[];
  readonly options: FitOptions;
  readonly asked: BatchRequest;
}

/** Lists what is to be fitted. Throws when it is more than a batch may hold, or when a campground is not there. */
export async function planBatch({ store, limits }: Call, asked: BatchRequest): Promise<Batch> {
  const rigs = asked.rigs.map((rig, index) => readOne(rig, index));
  const sites = asked.sites === undefined ? await sitesOf(store, asked.campgrounds ?? []) : sentSites(store, asked);
  if (sites.length > limits.sitesPerBatch || sites.length * rigs.length > limits.pairsPerBatch) {
    const expected = `at most ${limits.sitesPerBatch} sites and ${limits.pairsPerBatch} pairs of a rig and a site`;
    throw new Problem("too-many-sites", `The batch is too large: ${sites.length} sites for ${rigs.length} rigs.`, [
      { pointer: "", code: "too-many-sites", message: "Send it in parts.", expected },
    ]);
  }
  // What a summary does not show is not computed, unless it is asked for.
  const options = asked.answers === "full" ? asked.options : { detail: "summary" as const, ...asked.options };
  return { rigs, sites, options: completeOptions(options), asked };
}

function readOne(rig: unknown, index: number): Rig {
  const errors: ProblemError[] = [];
  const read = readRig({ rig }, errors);
  return { read, errors: errors.map((one) => rowError(one, "/rig", `/rigs/${index}`)) };
}

/** Faults of one rig or site are told where it stands in the batch. */
function rowError({ pointer = "", code, message }: ProblemError, from: string, to: string): BatchRow["errors"][number] {
  return { pointer: pointer.startsWith(from) ? to + pointer.slice(from.length) : pointer, code, message };
}

function sentSites(store: Call["store"], asked: BatchRequest): Waiting[] {
  return (asked.sites ?? []).map((site) => {
    const ids =
      typeof site === "object" && site !== null ? (site as { campground?: unknown; site?: unknown; id?: unknown }) : {};
    const isSent = "type" in ids;
    // A stored site brings its own campground and surroundings.
    const body = isSent
      ? { site, ...defined("campground", asked.campground), ...defined("around", asked.around) }
      : { site };
    return {
      campground: isSent ? null : textOrNull(ids.campground),
      siteId: textOrNull(isSent ? ids.id : ids.site),
      read: (errors) => readSite(body, store, errors),
    };
  });
}

const defined = (key: string, value: unknown) => (value === undefined ? {} : { [key]: value });
const textOrNull = (value: unknown): string | null =>
  typeof value === "string" || typeof value === "number" ? String(value) : null;

async function sitesOf(store: Call["store"], campgrounds: readonly string[]): Promise<Waiting[]> {
  const found: Waiting[] = [];
  for (const [index, campground] of campgrounds.entries()) {
    const stored = await store.get(campground);
    if (stored === null) {
      throw new Problem("invalid-request", "The request names a campground that is not there.", [
        {
          pointer: `/campgrounds/${index}`,
          code: "not-found",
          message: "There is no campground of this id.",
          expected: "an id from /v1/campgrounds",
        },
      ]);
    }
    for (const feature of stored.features.filter(isSite)) {
      found.push({ campground, siteId: featureId(feature), read: async () => storedRead(stored, feature) });
    }
  }
  return found;
}

/** Computes a row when it is asked for, and nothing before; other requests get their turn between two fits. */
export async function* batchRows(call: Call, batch: Batch): AsyncGenerator<Row> {
  const { rigs, sites, options, asked } = batch;
  const of = rigs.length * sites.length;
  let row = 0;
  for (const [siteIndex, site] of sites.entries()) {
    const faults: ProblemError[] = [];
    const read = await site.read(faults);
    const when = read === null ? null : await whenOf(asked.when, read.feature, call.weather);
    for (const [rigIndex, rig] of rigs.entries()) {
      await nextTurn();
      const errors = [...rig.errors, ...faults.map((one) => rowError(one, "/site", `/sites/${siteIndex}`))];
      const answer =
        read === null || rig.read === null ? { fit: null, errors } : fitOf(call, rig.read, read, options, when, asked);
      const names = { campground: site.campground, siteId: site.siteId };
      yield {
        row: { row, of, rig: rigIndex, site: siteIndex, ...names, ...answer },
        geometry: geometryOf(read?.feature),
      };
      row += 1;
    }
  }
}

const nextTurn = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));

function geometryOf(feature: CampgroundFeature | undefined): WireGeometry | null {
  return feature?.geometry ?? null;
}

function fitOf(
  call: Call,
  rig: ReadRig,
  site: ReadSite,
  options: FitOptions,
  when: When | null,
  asked: BatchRequest,
): Pick<BatchRow, "fit" | "errors"> {
  try {
    const fit = fitCase(rig, site, options, when);
    return { fit: asked.answers === "full" ? fitToWire(fit) : summaryOf(fit), errors: [] };
  } catch (fault) {
    // One pair that breaks the engine must not take the others with it; the fault is logged and the row says so.
    call.report(fault);
    const message = "This pair could not be judged; the fault is ours and has been logged.";
    return { fit: null, errors: [{ pointer: "", code: "internal-error", message }] };
  }
}
