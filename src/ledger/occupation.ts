/**
 * Who has which site and which outlet on which night: one row for each, under a primary key that no second row can
 * share. What is looked up before is only there to say who is in the way; the key decides.
 */
import { nightsOf } from "./dates.ts";
import { type SqlRow, textOf } from "./driver.ts";
import { type Ledger, LedgerRefusal, type RefusalPart } from "./ledger.ts";

export interface Nights {
  readonly arrival: string;
  readonly departure: string;
}

export interface Taking {
  readonly site: string;
  readonly outlets: readonly string[];
}

/** An outlet, or several of which the first that is free will do. */
export type OutletWish = string | readonly string[];

export interface TakingWish {
  readonly site: string;
  readonly outlets: readonly OutletWish[];
}

/**
 * What stands in the way of a site and its outlets on some nights; empty when nothing does.
 *
 * @param stay The stay that wants them: what it has itself is not in its way.
 */
function obstaclesTo(
  ledger: Ledger,
  campground: string,
  stay: string | null,
  taking: Taking,
  nights: Nights,
): RefusalPart[] {
  const takenBy = ledger.sql.all(
    `SELECT stay, hold, min(night) AS first, max(night) AS last FROM site_night
     WHERE campground = ? AND site = ? AND night >= ? AND night < ? AND (stay IS NULL OR stay IS NOT ?)
     GROUP BY stay, hold ORDER BY first`,
    campground,
    taking.site,
    nights.arrival,
    nights.departure,
    stay,
  );
  return [
    ...takenBy.map((row): RefusalPart => {
      const who = row["stay"] === null ? `the hold ${textOf(row, "hold")}` : `the stay ${textOf(row, "stay")}`;
      return { code: "taken", pointer: "", message: `Site ${taking.site} belongs to ${who} ${spanOf(row)}.` };
    }),
    ...closuresOf(ledger, campground, "site", taking.site, nights),
    ...taking.outlets.flatMap((outlet) => outletObstacles(ledger, campground, stay, outlet, nights)),
  ];
}

function outletObstacles(
  ledger: Ledger,
  campground: string,
  stay: string | null,
  outlet: string,
  nights: Nights,
): RefusalPart[] {
  const takenBy = ledger.sql.all(
    `SELECT stay, min(night) AS first, max(night) AS last FROM outlet_night
     WHERE campground = ? AND outlet = ? AND night >= ? AND night < ? AND stay IS NOT ?
     GROUP BY stay ORDER BY first`,
    campground,
    outlet,
    nights.arrival,
    nights.departure,
    stay,
  );
  return [
    ...takenBy.map((row): RefusalPart => {
      const message = `The outlet ${outlet} is held by the stay ${textOf(row, "stay")} ${spanOf(row)}.`;
      return { code: "taken", pointer: "", message };
    }),
    ...closuresOf(ledger, campground, "outlet", outlet, nights),
  ];
}

const spanOf = (row: SqlRow): string => {
  const [first, last] = [textOf(row, "first"), textOf(row, "last")];
  return first === last ? `on the night of ${first}` : `on nights from ${first} to ${last}`;
};

function closuresOf(
  ledger: Ledger,
  campground: string,
  kind: "site" | "outlet",
  id: string,
  { arrival, departure }: Nights,
): RefusalPart[] {
  const column = kind === "site" ? "site" : "outlet";
  return ledger.sql
    .all(
      `SELECT first_night, until FROM closure
       WHERE campground = ? AND ${column} = ? AND first_night < ? AND (until IS NULL OR until > ?) ORDER BY first_night`,
      campground,
      id,
      departure,
      arrival,
    )
    .map((row) => {
      const end = row["until"] === null ? "until further notice" : `until ${textOf(row, "until")}`;
      const what = kind === "site" ? "Site" : "The outlet";
      return {
        code: "closed",
        pointer: "",
        message: `${what} ${id} is closed from ${textOf(row, "first_night")} ${end}.`,
      };
    });
}

/**
 * Gives a stay, which has no site, a site and outlets, and says which outlets it got. Throws a refusal when somebody or
 * a closure is in the way.
 */
export function takeSite(
  ledger: Ledger,
  campground: string,
  stay: string,
  wish: TakingWish & { readonly locked: boolean },
  nights: Nights,
): readonly string[] {
  const outlets = wish.outlets.map((one) => chosenOutlet(ledger, campground, stay, one, nights));
  const taking = { site: wish.site, outlets: [...new Set(outlets)] };
  throwAny(obstaclesTo(ledger, campground, stay, taking, nights));
  ledger.sql.run(
    "INSERT INTO assignment (campground, stay, site, locked) VALUES (?, ?, ?, ?)",
    campground,
    stay,
    wish.site,
    wish.locked ? 1 : 0,
  );
  enterNights(ledger, campground, stay, taking, nights);
  return taking.outlets;
}

/** The first that is free on all nights; the first of all when none is, so that the refusal can name it. */
function chosenOutlet(ledger: Ledger, campground: string, stay: string, wish: OutletWish, nights: Nights): string {
  const choices = typeof wish === "string" ? [wish] : wish;
  const free = choices.find((outlet) => outletObstacles(ledger, campground, stay, outlet, nights).length === 0);
  const chosen = free ?? choices[0];
  if (chosen === undefined) throw new Error("A wish for one of no outlets.");
  return chosen;
}

/** Changes the nights of a stay that has a site. Throws, before anything is written, when somebody is in the way. */
export function keepNights(ledger: Ledger, campground: string, stay: string, taking: Taking, nights: Nights): void {
  throwAny(obstaclesTo(ledger, campground, stay, taking, nights));
  clearNights(ledger, campground, stay);
  enterNights(ledger, campground, stay, taking, nights);
}

/** Takes the site from a stay; its nights go with it. */
export function releaseStay(ledger: Ledger, campground: string, stay: string): void {
  clearNights(ledger, campground, stay);
  ledger.sql.run("DELETE FROM assignment WHERE campground = ? AND stay = ?", campground, stay);
}

/** Enters the nights of a hold, which has its row already. */
export function enterHold(ledger: Ledger, campground: string, hold: string, site: string, nights: Nights): void {
  throwAny(obstaclesTo(ledger, campground, null, { site, outlets: [] }, nights));
  ledger.sql.run(
    `INSERT INTO site_night (campground, site, night, stay, hold)
     SELECT ?, ?, value, NULL, ? FROM json_each(?)`,
    campground,
    site,
    hold,
    JSON.stringify(nightsOf(nights.arrival, nights.departure)),
  );
}

function enterNights(ledger: Ledger, campground: string, stay: string, taking: Taking, nights: Nights): void {
  const dates = JSON.stringify(nightsOf(nights.arrival, nights.departure));
  ledger.sql.run(
    `INSERT INTO site_night (campground, site, night, stay, hold)
     SELECT ?, ?, value, ?, NULL FROM json_each(?)`,
    campground,
    taking.site,
    stay,
    dates,
  );
  for (const outlet of taking.outlets) {
    ledger.sql.run(
      "INSERT INTO outlet_night (campground, outlet, night, stay) SELECT ?, ?, value, ? FROM json_each(?)",
      campground,
      outlet,
      stay,
      dates,
    );
  }
}

function clearNights(ledger: Ledger, campground: string, stay: string): void {
  ledger.sql.run("DELETE FROM site_night WHERE campground = ? AND stay = ?", campground, stay);
  ledger.sql.run("DELETE FROM outlet_night WHERE campground = ? AND stay = ?", campground, stay);
}

function throwAny(parts: readonly RefusalPart[]): void {
  const [first, ...rest] = parts;
  if (first !== undefined) throw new LedgerRefusal([first, ...rest]);
}
