/** Today's date where a campground is. */
import { localDate } from "../../ledger/dates.ts";
import type { Ledger } from "../../ledger/ledger.ts";
import type { StoredCampground } from "../../records/store.ts";

/** Local date by the time zone of the record; see `localDate` for a record without one. */
export const todayAt = (ledger: Ledger, stored: StoredCampground | null): string =>
  localDate(ledger.now(), stored?.campground.timeZone ?? null);
