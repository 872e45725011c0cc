/** Holds: sites that are kept free for a while. */
import { createHold, listHolds, readHold, removeHold } from "../../../ledger/holds.ts";
import { siteOf } from "../../../records/store.ts";
import { parseJsonText } from "../../body.ts";
import { Problem } from "../../problem.ts";
import type { Route } from "../../route.ts";
import { holdRequestSchema } from "../../schemas/host.ts";
import { check } from "../../validate.ts";
import { jsonContent, part, query, readRoute, writeRoute } from "../describe.ts";
import { sha256 } from "../local-tokens.ts";
import { dateParameter } from "../queries.ts";
import { storedRecord } from "../stored.ts";

const listRoute = readRoute(
  {
    path: "/holds",
    operationId: "listHolds",
    summary: "Sites that are kept free",
    description: "Those that have not expired.",
    parameters: [query("from", "Holds with a night at or after this date.", { type: "string", format: "date" })],
    answer: "HoldList",
  },
  async ({ host, campground }, { url }) => {
    const body = { holds: listHolds(host.ledger, campground, dateParameter(url, "from")) };
    return { body, tag: `"${await sha256(JSON.stringify(body))}"` };
  },
);

const createRoute = writeRoute(
  {
    method: "POST",
    path: "/holds",
    operationId: "createHold",
    scope: "stays",
    summary: "Keep a site free",
    description: "Nobody else gets it on these nights until the hold is removed or expires.",
    body: { description: "The hold.", content: jsonContent("HoldRequest"), most: "hostBodyBytes" },
    status: 201,
    answer: "Hold",
  },
  async (writing) => {
    const checked = check(holdRequestSchema, parseJsonText(writing.text, writing.call.limits.jsonDepth));
    if (!checked.ok) throw new Problem("invalid-request", "The hold cannot be used as it stands.", checked.errors);
    const { id = writing.call.newId(), site, arrival, departure, why = null, expiresAt } = checked.value;
    if (siteOf(await storedRecord(writing.host, writing.campground), site) === null) {
      const message = `There is no site ${site}.`;
      throw new Problem("invalid-request", message, [{ pointer: "/site", code: "absent", message }]);
    }
    const ends = expiresAt === undefined ? null : new Date(expiresAt).toISOString();
    const hold = { id, site, arrival, departure, why, expiresAt: ends };
    return () => {
      createHold(writing.ledger, writing.act, hold);
      return { status: 201, body: hold };
    };
  },
);

const deleteRoute = writeRoute(
  {
    method: "DELETE",
    path: "/holds/{hold}",
    operationId: "deleteHold",
    scope: "stays",
    summary: "Let a site go again",
    description: "A hold does not change, so that no If-Match is wanted.",
    parameters: [part("hold", "Id of the hold.")],
    answer: "Removed",
  },
  (writing) => () => {
    const hold = readHold(writing.ledger, writing.campground, writing.call.params["hold"] ?? "");
    if (hold === null) throw new Problem("not-found", "There is no hold of this id.");
    removeHold(writing.ledger, writing.act, hold);
    return { status: 200, body: { removed: hold.id } };
  },
);

export const HOLD_ROUTES: readonly Route[] = [listRoute, createRoute, deleteRoute];
