/** What every read of a host does first, and how its answer leaves: for this caller alone, with an entity tag. */
import { SqlFault } from "../../ledger/driver.ts";
import type { Scope } from "../../ledger/tokens.ts";
import { negotiate } from "../negotiate.ts";
import { refuseParameters } from "../parameters.ts";
import { matchesTag } from "../representation.ts";
import type { Call } from "../route.ts";
import { admit, requireCampground } from "./admit.ts";
import type { HostDependencies } from "./host.ts";
import { databaseProblem } from "./refusals.ts";
import { hostOf, JSON_TYPE } from "./writing.ts";

export interface ReadRule {
  readonly scope: Scope;
  readonly parameters: readonly string[];
}

export interface Reading {
  readonly host: HostDependencies;
  readonly campground: string;
}

/** An answer to a read; without a tag of its own it gets one from its text. */
export interface ReadAnswer {
  readonly body: unknown;
  readonly tag: string;
  readonly headers?: Readonly<Record<string, string>>;
}

export async function read(
  call: Call,
  rule: ReadRule,
  answer: (reading: Reading) => ReadAnswer | Promise<ReadAnswer>,
): Promise<Response> {
  const host = hostOf(call);
  const campground = call.params["id"] ?? "";
  await admit(call, host, campground, rule.scope);
  negotiate(call.request.headers.get("accept"), [JSON_TYPE]);
  refuseParameters(call.url, rule.parameters, call.limits.parameterLength);
  try {
    requireCampground(host, campground);
    const { body, tag, headers = {} } = await answer({ host, campground });
    const common = { ...headers, ETag: tag, "Cache-Control": "private, no-cache", Vary: "Authorization, Accept" };
    if (matchesTag(call.request.headers.get("if-none-match"), tag)) {
      return new Response(null, { status: 304, headers: common });
    }
    return new Response(JSON.stringify(body), { status: 200, headers: { ...common, "Content-Type": JSON_TYPE } });
  } catch (fault) {
    throw fault instanceof SqlFault ? databaseProblem(fault) : fault;
  }
}
