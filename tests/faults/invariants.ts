/** What must hold in a ledger whatever happened to it, asked in SQL of its own and not by the code under test. */
import type { SqlDriver } from "../../src/ledger/driver.ts";

const QUESTIONS: Readonly<Record<string, string>> = {
  "a site belongs to two on one night":
    "SELECT campground, site, night FROM site_night GROUP BY campground, site, night HAVING count(*) > 1",
  "an outlet belongs to two on one night":
    "SELECT campground, outlet, night FROM outlet_night GROUP BY campground, outlet, night HAVING count(*) > 1",
  "a stay has a site for fewer or more nights than it is there": `
    SELECT stay.id FROM stay JOIN assignment ON assignment.campground = stay.campground AND assignment.stay = stay.id
    WHERE julianday(stay.departure) - julianday(stay.arrival) <>
      (SELECT count(*) FROM site_night WHERE site_night.campground = stay.campground
        AND site_night.stay = stay.id AND site_night.site = assignment.site
        AND night >= stay.arrival AND night < stay.departure)`,
  "a night belongs to a stay that is not placed there": `
    SELECT site_night.stay FROM site_night LEFT JOIN assignment ON assignment.campground = site_night.campground
      AND assignment.stay = site_night.stay AND assignment.site = site_night.site
    WHERE site_night.stay IS NOT NULL AND assignment.stay IS NULL`,
  "the log has a gap": `
    SELECT campground.id FROM campground
    WHERE change_number <> (SELECT count(*) FROM change_entry WHERE change_entry.campground = campground.id)
      OR change_number <> (SELECT coalesce(max(number), 0) FROM change_entry WHERE change_entry.campground = campground.id)`,
  "a stay has changed without an entry in the log": `
    SELECT stay.id FROM stay WHERE stay.version <>
      (SELECT count(*) FROM change_entry WHERE change_entry.campground = stay.campground
        AND change_entry.subject = stay.id AND kind IN ('stay', 'assignment'))`,
  "a record lacks its version": `
    SELECT id FROM campground WHERE record_version <>
      (SELECT count(*) FROM record_version WHERE record_version.campground = campground.id)`,
  "two features of one version have one place": `
    SELECT a.campground FROM record_feature a JOIN record_feature b ON a.campground = b.campground
      AND a.position = b.position AND a.first_version < b.first_version
    WHERE a.last_version IS NULL OR a.last_version >= b.first_version`,
};

/** Every breach, in words; empty when all is well. */
export function breaches(sql: SqlDriver, check: "quick" | "whole"): string[] {
  const found = Object.entries(QUESTIONS).flatMap(([what, question]) => {
    const rows = sql.all(`${question} LIMIT 5`);
    return rows.length === 0 ? [] : [`${what}: ${JSON.stringify(rows)}`];
  });
  const pragma = check === "quick" ? "quick_check" : "integrity_check";
  const said = sql.all(`PRAGMA ${pragma}`).map((row) => String(row[pragma]));
  if (said.join() !== "ok") found.push(`the file is damaged: ${said.join("; ")}`);
  const orphans = sql.all("PRAGMA foreign_key_check");
  if (orphans.length > 0) found.push(`rows refer to nothing: ${JSON.stringify(orphans.slice(0, 5))}`);
  return found;
}
