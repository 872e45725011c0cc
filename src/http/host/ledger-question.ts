/** What the ledger holds at one moment, as the question that an assignment answers. */
import { type Snapshot, snapshot } from "../../ledger/snapshot.ts";
import type { Stay } from "../../ledger/stays.ts";
import { aroundOf } from "../../records/store.ts";
import { parseRig } from "../../rig/parse.ts";
import type { ReadStay } from "../assignment/read.ts";
import type { ReadRequest } from "../assignment/request.ts";
import { type AssignmentRequest, assignmentStaySchema } from "../schemas/assignment.ts";
import { absentCampground } from "./admit.ts";
import type { HostDependencies } from "./host.ts";
import { wireOf } from "./stay-input.ts";
import { storedRecord } from "./stored.ts";
import { todayAt } from "./today.ts";

/** Why a site that is kept for somebody is closed to stays, when the hold does not say. */
const HELD = "held";

export interface LedgerQuestion extends ReadRequest {
  /** Number of the plan that the places of the stays make up. */
  readonly planVersion: number;
  readonly kept: readonly Stay[];
}

export async function ledgerQuestion(host: HostDependencies, campground: string): Promise<LedgerQuestion> {
  const stored = await storedRecord(host, campground);
  const taken = snapshot(host.ledger, campground, todayAt(host.ledger, stored));
  if (taken === null) throw absentCampground();
  const stays = taken.stays.map(readKept);
  return {
    asked: {
      campground,
      firstNight: taken.today,
      stays: stays.map(({ wire }) => wire),
      closures: closuresOf(taken),
    },
    parts: { campground: stored.campground, features: stored.features, around: aroundOf(stored) },
    stays,
    planVersion: taken.planVersion,
    kept: taken.stays,
  };
}

/** A stay of the ledger as one that is sent: without its guests, with its place. */
function readKept(stay: Stay): ReadStay {
  const { party: _party, ...wire } = wireOf(stay);
  const place = stay.place === null ? {} : { site: stay.place.site, locked: stay.place.locked };
  const read = assignmentStaySchema.safeParse({ ...wire, id: stay.id, ...place });
  const rig = parseRig(stay.asks["rig"]);
  // Both were read before the stay was kept: this means a changed reader or a damaged file.
  if (!read.success || !rig.ok) throw new Error(`The stay ${stay.id} cannot be read.`);
  return { wire: read.data, rig: rig.rig };
}

/** What is closed, and what is held for nobody yet: neither can be given to a stay. */
function closuresOf({ closures, holds }: Snapshot): NonNullable<AssignmentRequest["closures"]> {
  return [
    ...closures.map(({ site, outlet, firstNight, until, why }) => ({
      ...(site === null ? {} : { site }),
      ...(outlet === null ? {} : { outlet }),
      firstNight,
      until,
      ...(why === null ? {} : { why }),
    })),
    ...holds.map(({ site, arrival, departure, why }) => ({
      site,
      firstNight: arrival,
      until: departure,
      why: why ?? HELD,
    })),
  ];
}
