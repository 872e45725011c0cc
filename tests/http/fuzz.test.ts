import fc from "fast-check";
import { beforeAll, describe, expect, it } from "vitest";
import { EXAMPLE_FIT_REQUEST, EXAMPLE_SEARCH_REQUEST, EXAMPLE_WIND_REQUEST } from "../../src/http/openapi/examples.ts";
import { problemIn, type TestApp, testApp } from "./helpers.ts";

const RUNS = 1000;
const WITHIN = 300_000;
/** Share of mutated requests that must still be answered, or the mutations would only try the door. */
const ANSWERED_AT_LEAST = 0.1;
const failures: unknown[] = [];
let answered = 0;
let app: TestApp;
beforeAll(async () => {
  app = await testApp(undefined, { log: (entry) => entry.error !== undefined && failures.push(entry.error) });
});

type Path = readonly (string | number)[];

/** Every place in a value. */
function pathsIn(value: unknown, path: Path = []): Path[] {
  const inner =
    typeof value === "object" && value !== null
      ? Object.entries(value).flatMap(([key, member]) =>
          pathsIn(member, [...path, Array.isArray(value) ? Number(key) : key]),
        )
      : [];
  return [path, ...inner];
}

/** A copy with the value at a path replaced, removed, or given a neighbour. */
function changed(root: unknown, path: Path, how: "replace" | "remove" | "add", value: unknown, key: string): unknown {
  const [step, ...rest] = path;
  if (step === undefined) {
    if (how !== "add" || typeof root !== "object" || root === null) return value;
    return Array.isArray(root) ? [...(root as unknown[]), value] : { ...root, [key]: value };
  }
  const copy = (Array.isArray(root) ? [...(root as unknown[])] : { ...(root as object) }) as Record<
    string | number,
    unknown
  >;
  if (rest.length === 0 && how === "remove") delete copy[step];
  else copy[step] = changed(copy[step], rest, how, value, key);
  return copy;
}

const oddValues = fc.oneof(
  fc.jsonValue({ maxDepth: 3 }),
  fc.double({ noNaN: true }),
  fc.integer({ min: -500, max: 500 }),
  fc.constantFrom(
    "25 ft",
    "-3 m",
    "1e9 km",
    "NaN",
    "11'2\"",
    "",
    " ",
    "0",
    "\u0000",
    "½ in",
    "yes",
    "power",
    "nema-14-50",
    "20 mph from SW",
    "2026-07-05",
  ),
  fc.constantFrom<unknown>(
    0,
    -0,
    1e308,
    1e-320,
    2 ** 53,
    -1,
    null,
    true,
    [],
    {},
    [[]],
    { along: 1 },
    { type: "Point" },
  ),
  fc.array(fc.tuple(fc.double({ min: -180, max: 180, noNaN: true }), fc.double({ min: -90, max: 90, noNaN: true }))),
);

const mutations = (request: unknown) => {
  const paths = pathsIn(request);
  const one = fc.record({
    path: fc.constantFrom(...paths),
    how: fc.constantFrom("replace", "remove", "add"),
    value: oddValues,
    key: fc.oneof(
      fc.string(),
      fc.constantFrom("lengt", "connections", "slideouts", "obstacles", "geometry", "campground", "toString"),
    ),
  });
  return fc.array(one, { minLength: 1, maxLength: 4 }).map((steps) =>
    steps.reduce<unknown>((value, { path, how, value: put, key }) => {
      try {
        return changed(value, path, how, put, key);
      } catch {
        // An earlier step took the place away.
        return value;
      }
    }, request),
  );
};

async function expectLawful(path: string, body: string, accept: string): Promise<void> {
  const response = await app.request(path, {
    method: "POST",
    body,
    headers: { "Content-Type": "application/json", Accept: accept },
  });
  if (response.status === 200) {
    answered += 1;
    const text = await response.text();
    if (accept !== "image/svg+xml") JSON.parse(text);
    expect(text).not.toMatch(/\bNaN\b|\bInfinity\b|undefined/);
    return;
  }
  expect(response.status).toBeLessThan(500);
  const code = ((await response.clone().json()) as { code: string }).code;
  const { errors } = await problemIn(response, response.status, code);
  if (response.status === 422) expect(errors.length).toBeGreaterThan(0);
}

describe("mutated valid requests", () => {
  it(
    "to /v1/fit are answered or refused with a problem, never broken",
    async () => {
      const accept = fc.constantFrom("application/json", "application/json", "image/svg+xml");
      await fc.assert(
        fc.asyncProperty(mutations(EXAMPLE_FIT_REQUEST), accept, (body, type) =>
          expectLawful("/v1/fit", JSON.stringify(body) ?? "null", type),
        ),
        { numRuns: RUNS, seed: 20_260_701 },
      );
      expect(answered).toBeGreaterThan(RUNS * ANSWERED_AT_LEAST);
      expect(failures).toEqual([]);
    },
    WITHIN,
  );

  it(
    "to /v1/wind too",
    async () => {
      const accept = fc.constantFrom("application/json", "application/json", "image/svg+xml");
      const before = answered;
      await fc.assert(
        fc.asyncProperty(mutations(EXAMPLE_WIND_REQUEST), accept, (body, type) =>
          expectLawful("/v1/wind", JSON.stringify(body) ?? "null", type),
        ),
        { numRuns: RUNS, seed: 20_260_703 },
      );
      expect(answered - before).toBeGreaterThan(RUNS * ANSWERED_AT_LEAST);
      expect(failures).toEqual([]);
    },
    WITHIN,
  );

  it(
    "to /v1/search too",
    async () => {
      await fc.assert(
        fc.asyncProperty(mutations(EXAMPLE_SEARCH_REQUEST), (body) =>
          expectLawful("/v1/search", JSON.stringify(body) ?? "null", "application/geo+json"),
        ),
        { numRuns: RUNS / 2, seed: 20_260_702 },
      );
      expect(failures).toEqual([]);
    },
    WITHIN,
  );

  it(
    "damaged text too",
    async () => {
      const text = JSON.stringify(EXAMPLE_FIT_REQUEST);
      const damage = fc.record({ at: fc.nat(text.length - 1), size: fc.nat(12), put: fc.string({ maxLength: 8 }) });
      await fc.assert(
        fc.asyncProperty(damage, ({ at, size, put }) =>
          expectLawful("/v1/fit", text.slice(0, at) + put + text.slice(at + size), "application/json"),
        ),
        { numRuns: RUNS / 2, seed: 20_260_703 },
      );
      expect(failures).toEqual([]);
    },
    WITHIN,
  );
});
