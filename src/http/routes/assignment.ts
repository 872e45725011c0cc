/** POST /v1/assignment: everything in the request, a plan in the answer; nothing is kept. */
import type { AskedProblem } from "../../assign/assemble.ts";
import type { WayFit } from "../../assign/score.ts";
import type { ProposeProgress } from "../assignment/propose.ts";
import { JobQueue } from "../assignment/queue.ts";
import { askedProblem } from "../assignment/read.ts";
import { type ReadRequest, readAssignmentRequest } from "../assignment/request.ts";
import { runAssignment } from "../assignment/run.ts";
import { streamed } from "../assignment/stream.ts";
import { BODY_PROBLEMS, type BodyRule, jsonBody } from "../body.ts";
import { negotiate } from "../negotiate.ts";
import { EXAMPLE_ASSIGNMENT_REQUEST } from "../openapi/assignment-example.ts";
import { refuseParameters } from "../parameters.ts";
import { Problem, type ProblemError } from "../problem.ts";
import { computed } from "../representation.ts";
import { type Call, type Memory, type Route, schemaRef } from "../route.ts";
import { refusal } from "./fit.ts";

const JSON_TYPE = "application/json";
const EVENT_STREAM = "text/event-stream";
/** Pairs of different rigs and sites that one request may have fitted. */
const MOST_PAIRS = 150_000;
const MOST_SITES = 700;

export const assignmentRoute: Route = {
  method: "POST",
  path: "/v1/assignment",
  operationId: "assign",
  tag: "Hosts",
  summary: "Stays to sites: a plan, how far from the best it can be, and why",
  description:
    "Fits every rig at every site, then searches for the plan worth most: `optimal` when nothing is worth more, else `feasible` with its gap to a bound that no plan exceeds. Every plan has passed a checker of its own. For each stay the answer tells why this site and what the next two would cost; for each without a site what bars it and the smallest change that would help. With `plan` it tells what the caller's own plan breaks. Ask for text/event-stream to hear the progress; close the connection to stop. One search runs at a time; a few wait, the next is refused (429). Nothing is kept.",
  requestBody: {
    description: "A campground, stays with their rigs, closures, feeders, and a plan to judge.",
    content: {
      [JSON_TYPE]: {
        schema: schemaRef("AssignmentRequest"),
        examples: { two: { summary: "Two stays on one weekend", value: EXAMPLE_ASSIGNMENT_REQUEST } },
      },
    },
  },
  answer: {
    description: "The plan, or progress and then the plan.",
    content: {
      [JSON_TYPE]: { schema: schemaRef("AssignmentAnswer") },
      [EVENT_STREAM]: { schema: { type: "string" } },
    },
  },
  conditional: false,
  problems: [...BODY_PROBLEMS, "invalid-parameter", "invalid-request", "too-many-sites", "too-many-jobs"],
  handle: answerAssignment,
};

async function answerAssignment(call: Call): Promise<Response> {
  const { request, url, store, limits } = call;
  const rule: BodyRule = { mediaTypes: [JSON_TYPE], maxBytes: limits.importBodyBytes };
  const body: unknown = await jsonBody(request, rule, limits.jsonDepth);
  const mediaType = negotiate(request.headers.get("accept"), [JSON_TYPE, EVENT_STREAM]);
  refuseParameters(url, []);
  const errors: ProblemError[] = [];
  const read = await readAssignmentRequest(body, store, errors);
  if (read === null) throw refusal(errors);
  return solve(call, read, mediaType, { body: { refused: read.refused ?? [] }, headers: {} });
}

/** Solves what was read, and answers or streams. `extend` adds what the answer is told with. */
export async function solve(
  call: Call,
  { asked, parts, stays }: ReadRequest,
  mediaType: typeof JSON_TYPE | typeof EVENT_STREAM,
  extend: { readonly body: object; readonly headers: Readonly<Record<string, string>> } = { body: {}, headers: {} },
): Promise<Response> {
  const { request } = call;
  const { firstNight } = asked;
  const problem = await askedProblem(parts, stays, asked.closures ?? [], { ...asked.options, firstNight });
  refuseTooMany(problem);
  const leave = await shopOf(call.memory).queue.enter();
  const controller = new AbortController();
  const stop = () => controller.abort();
  request.signal.addEventListener("abort", stop);
  // Who has gone while waiting for a turn wants nothing any more.
  if (request.signal.aborted) stop();
  const work = async (progress?: (value: ProposeProgress) => void) => {
    try {
      const answer = await runAssignment(asked, problem, {
        clock: call.clock,
        exact: call.exact,
        stop: controller.signal,
        breathe: nextTurn,
        memory: shopOf(call.memory).fits,
        ...(progress === undefined ? {} : { progress }),
      });
      return { ...extend.body, ...answer };
    } finally {
      request.signal.removeEventListener("abort", stop);
      leave();
    }
  };
  if (mediaType === EVENT_STREAM) return streamed(call.clock, ({ progress }) => work(progress), stop, call.report);
  return computed(JSON.stringify(await work()), JSON_TYPE, extend.headers);
}

/** Throws when there is nothing to fit, or more than one request may have fitted. */
export function refuseTooMany({ sites, stays }: AskedProblem): void {
  const rigs = new Set(stays.map(({ rigContent }) => rigContent)).size;
  if (sites.length <= MOST_SITES && rigs * sites.length <= MOST_PAIRS && sites.length > 0 && stays.length > 0) return;
  if (sites.length === 0 || stays.length === 0) {
    const what = sites.length === 0 ? "site" : "stay with a night to come";
    throw new Problem("invalid-request", `There is no ${what} in the request.`);
  }
  throw new Problem(
    "too-many-sites",
    `${rigs} different rigs at ${sites.length} sites; at most ${MOST_SITES} sites and ${MOST_PAIRS} pairs are fitted.`,
  );
}

const nextTurn = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));

/** What searches of one application share: their queue and the fits that were made. */
interface Shop {
  readonly queue: JobQueue;
  readonly fits: Map<string, readonly WayFit[]>;
}

const SHOPS = new WeakMap<Memory, Shop>();

/** The shop that belongs to an application, by its memory. */
export function shopOf(memory: Memory): Shop {
  const known = SHOPS.get(memory);
  if (known !== undefined) return known;
  const shop: Shop = { queue: new JobQueue(), fits: new Map() };
  SHOPS.set(memory, shop);
  return shop;
}
