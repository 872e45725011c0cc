/** POST /v1/trips and POST /v1/desk: one rig through its stops, and a fleet with its bookings. */
import { deskSteps } from "../../trip/desk/desk.ts";
import { tripSteps } from "../../trip/plan.ts";
import { BODY_PROBLEMS, type BodyRule, jsonBody } from "../body.ts";
import { negotiate } from "../negotiate.ts";
import { EXAMPLE_DESK_REQUEST, EXAMPLE_TRIP_REQUEST } from "../openapi/trip-examples.ts";
import { refuseParameters } from "../parameters.ts";
import { Problem, type ProblemCode } from "../problem.ts";
import { computed } from "../representation.ts";
import { type Call, type Route, schemaRef } from "../route.ts";
import { deskPairs, type ReadRequest, readDeskInput, readTripInput, sitesAsked } from "../trip-input.ts";
import { deskToWire, tripToWire } from "../trip-wire.ts";
import { refusal } from "./fit.ts";

const JSON_TYPE = "application/json";

const PROBLEMS_OF_BOTH: readonly ProblemCode[] = [
  ...BODY_PROBLEMS,
  "invalid-parameter",
  "invalid-request",
  "too-many-sites",
];

export const tripRoute: Route = {
  method: "POST",
  path: "/v1/trips",
  operationId: "trip",
  tag: "Trips",
  summary: "One rig through its stops: sites, kit to pack, tanks, cards",
  description:
    "Fits the rig at every stop (at a site, or at the best free site of a campground with the two next-best), finds the smallest kit that serves all of them, carries tanks and energy from stop to stop, and gives a card for each. `works: no` is an answer, not an error.",
  requestBody: {
    description: "A rig, or a unit of a fleet; stops in order; who travels.",
    content: {
      [JSON_TYPE]: {
        schema: schemaRef("TripRequest"),
        examples: { trip: { summary: "A site, then a night off the grid", value: EXAMPLE_TRIP_REQUEST } },
      },
    },
  },
  answer: { description: "The trip.", content: { [JSON_TYPE]: { schema: schemaRef("TripAnswer") } } },
  conditional: false,
  problems: PROBLEMS_OF_BOTH,
  handle: answerTrip,
};

export const deskRoute: Route = {
  method: "POST",
  path: "/v1/desk",
  operationId: "desk",
  tag: "Trips",
  summary: "Which unit of the fleet for which booking, and what to load",
  description:
    "Judges every unit on every booking: whether it works at all stops, with how little kit, and if not, which check at which stop keeps it from working. Proposes a unit for each booking that has none, lists what to load, and counts the stock by date.",
  requestBody: {
    description: "A fleet, bookings and the depot's stock.",
    content: {
      [JSON_TYPE]: {
        schema: schemaRef("DeskRequest"),
        examples: { desk: { summary: "Two units, one booking", value: EXAMPLE_DESK_REQUEST } },
      },
    },
  },
  answer: {
    description: "The matrix and what follows.",
    content: { [JSON_TYPE]: { schema: schemaRef("DeskAnswer") } },
  },
  conditional: false,
  problems: PROBLEMS_OF_BOTH,
  handle: answerDesk,
};

const nextTurn = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));

/** Other requests get their turn between two fits: a long answer must not hold up the whole process. */
async function inTurns<T>(steps: Generator<void, T>): Promise<T> {
  for (;;) {
    const next = steps.next();
    if (next.done) return next.value;
    await nextTurn();
  }
}

async function bodyOf({ request, url, limits }: Call): Promise<unknown> {
  const rule: BodyRule = { mediaTypes: [JSON_TYPE], maxBytes: limits.tripBodyBytes };
  const body: unknown = await jsonBody(request, rule, limits.jsonDepth);
  negotiate(request.headers.get("accept"), [JSON_TYPE]);
  refuseParameters(url, []);
  return body;
}

function accepted<T>({ input, errors }: ReadRequest<T>): T {
  if (input === null) throw refusal(errors);
  return input;
}

function tooMany(count: number, most: number, what: string, pointer: string): void {
  if (count <= most) return;
  const message = `It asks for ${count} ${what}. Name sites with \`among\`, or ask in parts.`;
  const error = { pointer, code: "too-many-sites", message, expected: `at most ${most} ${what}` };
  throw new Problem("too-many-sites", `The request covers more than ${most} ${what}.`, [error]);
}

async function answerTrip(call: Call): Promise<Response> {
  const body = await bodyOf(call);
  const input = accepted(await readTripInput(body, call.store, null));
  tooMany(sitesAsked(input.stops), call.limits.sitesPerTrip, "sites", "/stops");
  return computed(JSON.stringify(tripToWire(await inTurns(tripSteps(input)))), JSON_TYPE);
}

async function answerDesk(call: Call): Promise<Response> {
  const body = await bodyOf(call);
  const input = accepted(await readDeskInput(body, call.store, null));
  tooMany(deskPairs(input), call.limits.pairsPerDesk, "pairs of unit and site", "/trips");
  return computed(JSON.stringify(deskToWire(await inTurns(deskSteps(input)))), JSON_TYPE);
}
