/** The routes for hosts, in the order in which the description lists them. */
import type { Route } from "../../route.ts";
import { ASSIGNMENT_ROUTES } from "./assignment.ts";
import { CHANGE_ROUTES } from "./changes.ts";
import { CLOSURE_ROUTES } from "./closures.ts";
import { EXPLAIN_ROUTES } from "./explain.ts";
import { HOLD_ROUTES } from "./holds.ts";
import { proposeRoute } from "./propose.ts";
import { RECORD_ROUTES } from "./records.ts";
import { SITE_ROUTES } from "./sites.ts";
import { STAY_TABLE_ROUTES } from "./stay-table.ts";
import { STAY_ROUTES } from "./stays.ts";

export const HOST_ROUTES: readonly Route[] = [
  ...RECORD_ROUTES,
  ...SITE_ROUTES,
  ...STAY_ROUTES,
  ...STAY_TABLE_ROUTES,
  ...ASSIGNMENT_ROUTES,
  proposeRoute,
  ...EXPLAIN_ROUTES,
  ...HOLD_ROUTES,
  ...CLOSURE_ROUTES,
  ...CHANGE_ROUTES,
];
