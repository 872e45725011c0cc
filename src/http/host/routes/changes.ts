/** What has changed: the feed that pages follow, and the trail of who changed what. */
import { type ChangeEntry, changesSince, newestChange } from "../../../ledger/changes.ts";
import { pageSize } from "../../parameters.ts";
import type { Call, Parameter, Route } from "../../route.ts";
import { query, readRoute } from "../describe.ts";
import type { HostDependencies } from "../host.ts";
import { readPlace, writePlace } from "../pages.ts";

const PAGING: readonly Parameter[] = [
  query("since", "The cursor of the last answer. Default: from the beginning; `now`: only what comes after."),
  query("limit", "Largest number of entries in this answer.", { type: "integer", minimum: 1, default: 20 }),
];

const feedRoute = readRoute(
  {
    path: "/changes",
    operationId: "listChanges",
    summary: "What has changed since a cursor",
    description:
      "Every change once, in order, without gaps; what changed is read at its own address. When nothing is new the cursor stays and the ETag too, so that asking often costs little.",
    parameters: PAGING,
    answer: "ChangeList",
  },
  ({ host, campground }, call) => {
    const page = pageOf(call, host, campground);
    const changes = page.entries.map(({ number, at, kind, subject, action, version }) => ({
      number,
      at,
      kind,
      subject,
      action,
      version,
    }));
    return { body: { changes, cursor: page.cursor, more: page.more }, tag: page.tag };
  },
);

const auditRoute = readRoute(
  {
    path: "/audit",
    operationId: "listAudit",
    summary: "Who changed what",
    description: "The same entries with who made them and how it was before and after, without the guests' names.",
    parameters: [
      ...PAGING,
      query("kind", "Only entries of this kind: record, site, stay, assignment, hold, closure, plan."),
      query("subject", "Only entries about this id; wants `kind`."),
    ],
    answer: "AuditList",
  },
  ({ host, campground }, call) => {
    const { entries, ...page } = pageOf(call, host, campground);
    return { body: { entries, cursor: page.cursor, more: page.more }, tag: page.tag };
  },
);

interface Page {
  readonly entries: readonly ChangeEntry[];
  readonly cursor: string;
  readonly more: boolean;
  readonly tag: string;
}

function pageOf({ url, limits }: Call, { ledger }: HostDependencies, campground: string): Page {
  const most = pageSize(url, limits);
  const text = url.searchParams.get("since");
  const kind = url.searchParams.get("kind");
  const subject = url.searchParams.get("subject");
  const newest = newestChange(ledger, campground);
  const since = text === null ? 0 : text === "now" ? newest : (readPlace("since", text, ["number"])[0] as number);
  const only = kind === null ? undefined : { kind, subject };
  const found = changesSince(ledger, campground, since, most + 1, only);
  const entries = found.slice(0, most);
  const more = found.length > most;
  // Past the last entry of a kind there may be others: the cursor goes past them too.
  const reached = more ? (entries.at(-1)?.number ?? since) : Math.max(since, newest);
  return { entries, cursor: writePlace([reached]), more, tag: `"changes-${since}-${reached}-${entries.length}"` };
}

export const CHANGE_ROUTES: readonly Route[] = [feedRoute, auditRoute];
