/** The trip that is shown: a booking of the desk with its unit, or the reader's own rig on a trip of his own. */
import { type DeskFiles, deskFiles, setTrip, tripOf, type Wire, wireOf } from "../desk/files.ts";
import { deskBody, desks, jobOf, type Units } from "../desk/jobs.ts";
import { readShelf, writeShelf } from "../desk/watched.ts";
import { addDays, today } from "../desk/words.ts";
import { type Kept, makeStore } from "../state/store.ts";

/** The id, in an address, of the trip of the page's own rig. */
export const MINE = "mine";

const KEY = "padwright-trip";

/** Two nights at the campground that stands open, then one off the grid. */
function firstTrip(campground: string | null): Wire {
  const [first, second, third] = [1, 3, 4].map((days) => addDays(today(), days));
  const place = campground === null ? { offGrid: true } : { campground };
  return {
    name: "My trip",
    party: { adults: 2 },
    stops: [
      { arrive: first, leave: second, ...place },
      { name: "A night off the grid", arrive: second, leave: third, offGrid: true },
    ],
  };
}

export const ownTrip = makeStore<{ readonly trip: Wire | null }>({ trip: ownKept() });

function ownKept(): Wire | null {
  const trip = wireOf(readShelf(KEY));
  return Array.isArray(trip["stops"]) ? trip : null;
}

/** Null for a booking that is not in the file. */
export function tripShown(id: string, campground: string | null): Wire | null {
  return id === MINE ? (ownTrip.get().trip ?? firstTrip(campground)) : tripOf(id);
}

export function keepTrip(id: string, trip: Wire): void {
  if (id !== MINE) {
    setTrip(trip);
    return;
  }
  ownTrip.set({ trip });
  writeShelf(KEY, trip);
}

/** The unit that goes: the booked one, or the one that the desk proposes; null while neither is known. */
export function unitOf(trip: Wire, files: DeskFiles, units: Units): string | null {
  if (typeof trip["unit"] === "string") return trip["unit"];
  const job = jobOf(desks.get(), deskBody(files, units));
  if (job.state !== "done" || !job.told.ok) return null;
  return job.told.plan.trips.find((one) => one.id === trip["id"])?.unit ?? null;
}

/** The request for a trip; null for a booking whose unit is not known yet. */
export function tripBody(id: string, trip: Wire, kept: Pick<Kept, "rig" | "units" | "cardLanguage">): Wire | null {
  const { units, cardLanguage: language, rig } = kept;
  const common = { options: { units }, language };
  if (id === MINE) return { rig, ...trip, ...common };
  const files = deskFiles.get();
  const unit = unitOf(trip, files, units);
  if (unit === null) return null;
  const fleet = files.fleet.list.filter((one) => wireOf(one)["id"] === unit);
  return { ...trip, fleet, unit, stock: files.stock.list, ...common };
}
