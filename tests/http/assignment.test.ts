import { beforeAll, describe, expect, test } from "vitest";
import { type App, createApp } from "../../src/http/app.ts";
import { JobQueue } from "../../src/http/assignment/queue.ts";
import type { Problem } from "../../src/http/problem.ts";
import { memoryStore } from "../../src/records/store.ts";

const RIG = {
  class: "class-c",
  length: "25 ft",
  height: "11 ft",
  power: { plug: "nema-tt-30", cord: "30 ft" },
} as const;

/** Two neighbours on one post with one 30 A receptacle each, and one site of its own. */
const CAMPGROUND = {
  type: "FeatureCollection",
  campground: { id: "elm-row", name: "Elm Row (invented)", electricalSystem: "120/240", drivesOn: "right" },
  features: [site("elm-1", 1), site("elm-2", 2), site("elm-3", 3)],
};

function site(id: string, index: number) {
  const shared = index <= 2;
  const receptacles = shared
    ? [{ id: "only", type: "nema-tt-30", state: "working" }]
    : [{ id: "own", type: "nema-tt-30", state: "working" }];
  return {
    type: "Feature",
    id,
    geometry: null,
    properties: {
      kind: "site",
      name: `Elm ${index}`,
      layout: "back-in",
      facings: ["out"],
      pad: { length: 12, width: 4 },
      services: { power: "yes", water: "no", sewer: "no", cable: "no", fill: "no" },
      hookups: [
        {
          service: "power",
          at: { along: 3, left: 2.8, height: 0.8 },
          accuracy: 0.02,
          basis: "measured",
          receptacles,
          ...(shared ? { pedestal: "post", shared: true } : {}),
        },
      ],
    },
  };
}

const stay = (id: string, arrival: string, departure: string, more: object = {}) => ({
  id,
  arrival: `2027-06-${arrival}`,
  departure: `2027-06-${departure}`,
  rig: RIG,
  tight: true,
  ...more,
});

let app: App;

beforeAll(async () => {
  const { store } = await memoryStore([{ name: "elm", input: CAMPGROUND }]);
  app = createApp({ store, clock: () => performance.now(), now: () => 0, requestId: () => "id", version: "test" });
});

async function ask(body: unknown, accept = "application/json") {
  return app.request("/v1/assignment", {
    method: "POST",
    body: JSON.stringify(body),
    headers: { "Content-Type": "application/json", Accept: accept },
  });
}

interface Answer {
  readonly status: string;
  readonly bound: number;
  readonly value: number;
  readonly places: readonly { readonly stay: string; readonly site: string; readonly outlets: readonly string[] }[];
  readonly unplaced: readonly {
    readonly stay: string;
    readonly blocking: readonly { readonly rule: string }[];
    readonly change: { readonly kind: string };
  }[];
  readonly given: null | { readonly sound: boolean; readonly breaches: readonly { readonly code: string }[] };
  readonly feeders: readonly { readonly design: number; readonly warnings: readonly string[] }[];
}

async function answered(body: unknown): Promise<Answer> {
  const response = await ask(body);
  const text = await response.text();
  expect(response.status, text).toBe(200);
  return JSON.parse(text) as Answer;
}

describe("POST /v1/assignment", () => {
  test("gives one receptacle of a shared post to one stay at a time", async () => {
    const stays = [stay("a", "04", "06"), stay("b", "04", "06"), stay("c", "05", "07")];
    const answer = await answered({ campground: "elm-row", stays, options: { effort: "quick" } });
    expect(answer.places).toHaveLength(2);
    const onPost = answer.places.filter(({ site }) => site !== "elm-3");
    expect(onPost.map(({ outlets }) => outlets)).toEqual([["post/only"]]);
    expect(answer.unplaced).toHaveLength(1);
    expect(answer.unplaced[0]!.blocking.map(({ rule }) => rule)).toContain("held");
    expect(answer.status).toBe("optimal");
    expect(answer.bound).toBe(answer.value);
  });

  test("a closed outlet closes the outlet: the site of its own takes the stay, the post's sites none", async () => {
    const closures = [{ outlet: "post/only", firstNight: "2027-06-01", why: "burnt" }];
    const stays = [stay("a", "04", "06"), stay("b", "06", "07")];
    const answer = await answered({ campground: CAMPGROUND, stays, closures, options: { effort: "quick" } });
    expect(answer.places.map(({ site }) => site)).toEqual(["elm-3", "elm-3"]);
  });

  test("tells what the caller's own plan breaks", async () => {
    const stays = [stay("a", "04", "06"), stay("b", "05", "07")];
    const plan = [
      { stay: "a", site: "elm-1" },
      { stay: "b", site: "elm-2" },
    ];
    const answer = await answered({ campground: "elm-row", stays, plan, options: { effort: "quick" } });
    expect(answer.given?.sound).toBe(false);
    expect(answer.given?.breaches.map(({ code }) => code)).toEqual(["resource-held"]);
  });

  test("warns of a planned night above the feeder, and gives the design load", async () => {
    const feeders = [{ id: "row", sites: ["elm-1", "elm-2", "elm-3"], voltAmperes: 5000 }];
    const stays = [stay("a", "04", "06"), stay("b", "05", "07")];
    const answer = await answered({ campground: "elm-row", stays, feeders, options: { effort: "quick" } });
    // Three sites of 30 A: 10,800 VA x 0.8; two rigs of 30 A on the night of the 5th: 7,200 VA x 0.9.
    expect(answer.feeders[0]!.design).toBeCloseTo(8640, 6);
    expect(answer.feeders[0]!.warnings).toEqual(["2027-06-05"]);
  });

  test("streams progress, then the answer", async () => {
    const response = await ask({ campground: "elm-row", stays: [stay("a", "04", "06")] }, "text/event-stream");
    expect(response.headers.get("content-type")).toBe("text/event-stream");
    const text = await response.text();
    const events = text
      .trim()
      .split("\n\n")
      .map((event) => event.split("\n"));
    expect(events[0]![0]).toBe("event: progress");
    expect(events.at(-1)![0]).toBe("event: answer");
    const answer = JSON.parse(events.at(-1)![1]!.slice("data: ".length)) as Answer;
    expect(answer.places.map(({ stay: id }) => id)).toEqual(["a"]);
  });

  test("tells every fault at once", async () => {
    const stays = [stay("a", "06", "04"), stay("a", "04", "05", { rig: { ...RIG, length: "-3 ft" } })];
    const response = await ask({ campground: "nowhere", stays });
    expect(response.status).toBe(422);
    const { errors } = (await response.json()) as { errors: readonly { pointer: string }[] };
    expect(errors.map(({ pointer }) => pointer).sort()).toEqual([
      "/campground",
      "/stays/0/departure",
      "/stays/1/id",
      "/stays/1/rig/length",
    ]);
  });

  test("refuses a plan of strangers", async () => {
    const plan = [{ stay: "nobody", site: "elm-1" }];
    const response = await ask({ campground: "elm-row", stays: [stay("a", "04", "06")], plan });
    expect(response.status).toBe(422);
    expect(await response.text()).toContain("/plan/0/stay");
  });
});

test("the queue runs one at a time, lets four wait, and refuses the next", async () => {
  const queue = new JobQueue();
  const leave = await queue.enter();
  const order: number[] = [];
  const waiting = [1, 2, 3, 4].map(async (each) => {
    const done = await queue.enter();
    order.push(each);
    done();
  });
  await expect(queue.enter()).rejects.toMatchObject({ code: "too-many-jobs" } satisfies Partial<Problem>);
  expect(order).toEqual([]);
  leave();
  await Promise.all(waiting);
  expect(order).toEqual([1, 2, 3, 4]);
  await queue.enter();
});
