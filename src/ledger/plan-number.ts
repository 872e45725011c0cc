/** The number of the plan: it grows whenever any stay's site, its nights there or its lock changes. */
import { numberOf } from "./driver.ts";
import { type Ledger, refuse } from "./ledger.ts";

/** 0 when nothing has been placed yet, or there is no such campground. */
export function planVersion(ledger: Ledger, campground: string): number {
  const row = ledger.sql.get("SELECT plan_version FROM campground WHERE id = ?", campground);
  return row === null ? 0 : numberOf(row, "plan_version");
}

/** Makes the plan's number grow and gives the new one. */
export function growPlan(ledger: Ledger, campground: string): number {
  const row = ledger.sql.get(
    "UPDATE campground SET plan_version = plan_version + 1 WHERE id = ? RETURNING plan_version",
    campground,
  );
  if (row === null) throw new Error("A plan of a campground that the ledger does not hold.");
  return numberOf(row, "plan_version");
}

/** Refuses when the plan is not the one that the caller has seen. */
export function expectPlan(ledger: Ledger, campground: string, expected: number): void {
  const present = planVersion(ledger, campground);
  if (present !== expected) refuse("changed", `The plan has number ${present} now.`);
}
