/**
 * What is thrown at the service, and the test that catches it. The table is read by the test below: it fails when a
 * test that is named is not there any more, so that the list stays true. `npx tsx tests/faults/campaign.ts` is the long
 * form of the killed servers, the racing hosts and the full disks; its figures are in tests/bench/RESULTS.md.
 */
import { existsSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";

interface Fault {
  readonly thrown: string;
  /** File below tests/, and a part of the title of a test in it. */
  readonly caughtBy: readonly (readonly [file: string, title: string])[];
  /** What of it no test shows. */
  readonly notShown?: string;
}

const FAULTS: readonly Fault[] = [
  {
    thrown: "bodies beyond the cap: honest, lying, chunked, compressed",
    caughtBy: [
      ["http/body.test.ts", "is counted on the stream, whatever Content-Length says"],
      ["node/serve.test.ts", "cuts off a chunked body that goes on"],
      ["node/serve.test.ts", "refuses an honest large Content-Length without reading"],
      ["http/bad-input.test.ts", "a mebibyte and a byte"],
    ],
    notShown: "growth of the process's memory is not measured",
  },
  {
    thrown: "JSON nested 33, 100,000 and a million levels deep",
    caughtBy: [
      ["http/bad-input.test.ts", "100,000 levels"],
      ["records/json.test.ts", "reads 32 levels and refuses 33, and a million without a deep stack"],
    ],
  },
  {
    thrown: "GeoJSON with too many positions, features, rings, or itself inside itself",
    caughtBy: [
      ["records/geojson.test.ts", "bytes, features, positions and rings"],
      ["records/geojson.test.ts", "an object that holds itself ends at the depth cap"],
      ["records/geojson-fuzz.test.ts", "arbitrary features never crash"],
    ],
  },
  {
    thrown: "numbers that are none, too large, too small, text or null, in every place",
    caughtBy: [
      ["http/fuzz.test.ts", "to /v1/fit are answered or refused with a problem, never broken"],
      ["faults/strange-bodies.test.ts", "that mutates a right one is answered so too"],
      ["rig/parse.test.ts", "on a right record with one value replaced anywhere"],
    ],
  },
  { thrown: "lengths below zero and cords of none", caughtBy: [["http/bad-input.test.ts", "a negative length"]] },
  {
    thrown: "feet taken for metres, and lengths without a unit",
    caughtBy: [
      ["rig/parse.test.ts", "a rig record that is odd is kept, and asks"],
      ["units/parse.test.ts", "gives the same number for feet and for their exact metric form"],
      ["faults/table.test.ts", "takes every good row and tells line and column of every bad one"],
    ],
  },
  {
    thrown: "longitude and latitude swapped",
    caughtBy: [["records/geojson.test.ts", "a stray feature is asked about"]],
  },
  {
    thrown: "a pedestal far from its pad",
    caughtBy: [["records/geojson.test.ts", "a hookup more than 60 m from its pad is left out and the site kept"]],
  },
  {
    thrown: "pads that cross themselves, run the wrong way round or enclose nothing",
    caughtBy: [
      ["http/bad-input.test.ts", "an outline that crosses itself"],
      ["outside/rfc7946.test.ts", "describe("],
    ],
  },
  {
    thrown: "pads over the antimeridian and at the poles",
    caughtBy: [
      ["geo/tangent-plane.test.ts", "a pad over the antimeridian measures the same as the same pad elsewhere"],
      ["records/geojson.test.ts", "a site cut at the antimeridian is a pad"],
    ],
  },
  {
    thrown: "keys given twice, keys that reach for a prototype, marks and odd characters",
    caughtBy: [
      ["records/json.test.ts", "gathers duplicate and prototype keys with their pointers"],
      ["faults/strange-bodies.test.ts", "is answered with a problem, never with a fault of ours"],
    ],
  },
  {
    thrown: "members that nobody asked for, on every route that writes",
    caughtBy: [["faults/strange-bodies.test.ts", "is tried on every route that takes a closed body"]],
  },
  {
    thrown: "stays of no night, backwards, of years, on dates that are none, over changes of the clock, in other zones",
    caughtBy: [
      ["http/host/stays.test.ts", "are refused with every fault at once"],
      ["ledger/dates.test.ts", "do not change with the clock"],
      ["ledger/dates.test.ts", "give the same under every zone that the process may run in"],
      ["ledger/occupation.test.ts", "belongs to one stay; back to back on one day is allowed"],
    ],
  },
  {
    thrown: "a weather service that is down, slow, lying, endless or stale",
    caughtBy: [
      ["records/forecast/service.test.ts", "an endless body is left at the cap"],
      ["records/forecast/service.test.ts", "leaves a failing host alone after five failures"],
      ["records/forecast/service.test.ts", "is given with its honest age and a warning when the host fails"],
    ],
  },
  {
    thrown: "many hosts who want one site for one night, also through two processes",
    caughtBy: [
      ["faults/race.test.ts", "are one winner and clear conflicts, through two servers over one file"],
      ["faults/race.test.ts", "are one winner of two hundred within one server"],
      ["ledger/occupation.test.ts", "cannot be given twice by any statement"],
    ],
  },
  {
    thrown: "two plans made from the same plan",
    caughtBy: [["http/host/stays.test.ts", "come from a plan that is accepted once"]],
  },
  {
    thrown: "kill -9 during writes",
    caughtBy: [["faults/kill.test.ts", "has lost nothing that it acknowledged"]],
  },
  {
    thrown: "loss of power",
    caughtBy: [],
    notShown: "every commit is synced before it is acknowledged, but no test cuts the power or drops writes of a disk",
  },
  {
    thrown: "a full disk at every size that is left; a limit on the size of files",
    caughtBy: [["faults/full-disk.test.ts", "refuses writes with 507"]],
    notShown: "every single write and sync made to fail in turn",
  },
  { thrown: "no memory, no file handles", caughtBy: [], notShown: "not tried" },
  {
    thrown: "clocks that are wrong or put back",
    caughtBy: [
      ["faults/replay.test.ts", "is kept for a day and more, also when the clock is put back"],
      ["faults/tokens.test.ts", "makes one request in a cool-down too while the provider is down"],
      ["faults/tokens.test.ts", "is 401 with a challenge when anything about it is wrong"],
    ],
  },
  {
    thrown: "keys sent again: at once, with another body, by others, after days, after a crash before the answer",
    caughtBy: [
      ["faults/replay.test.ts", "sent a hundred times at once has one effect"],
      ["faults/replay.test.ts", "belongs to one request"],
      ["faults/replay.test.ts", "is stored with its effect"],
      ["faults/kill.test.ts", "answers repeats with one effect"],
    ],
  },
  {
    thrown: "entity tags: stale, missing, weak, wild, listed; races of changes",
    caughtBy: [
      ["faults/etags.test.ts", "is wanted, compared strongly, and may be a list or *"],
      ["faults/etags.test.ts", "never lose an update"],
      ["faults/etags.test.ts", "or race at once: one wins"],
    ],
  },
  {
    thrown: "tokens: expired, early, unsigned, signed with what is published, for others, floods of keys, a megabyte",
    caughtBy: [
      ["faults/tokens.test.ts", "is 401 with a challenge when anything about it is wrong"],
      ["faults/tokens.test.ts", "makes one request for keys in a cool-down"],
    ],
  },
  {
    thrown: "every route for hosts by every role, own and foreign",
    caughtBy: [
      ["faults/authorisation.test.ts", "has a scope for every route under a campground"],
      ["faults/authorisation.test.ts", "answers a foreign campground exactly like one that is not there"],
      ["faults/authorisation.test.ts", "lets in the scope that it names and no other"],
    ],
    notShown: "that the time to the answer is alike is not measured; both leave before anything is looked up",
  },
  {
    thrown: "names of guests in logs, errors, feeds and open answers",
    caughtBy: [
      ["faults/guests.test.ts", "are in no log, no problem, no change feed and no audit"],
      ["faults/guests.test.ts", "are in no answer that everybody may get"],
    ],
  },
  {
    thrown: "slow headers and slow bodies",
    caughtBy: [["node/serve.test.ts", "ends slow headers and slow bodies with 408"]],
    notShown: "a thousand of them at once, and what the other clients feel",
  },
  {
    thrown: "two lengths, large headers, no HTTP",
    caughtBy: [["node/serve.test.ts", "answers broken requests with a problem: two lengths, large headers, no HTTP"]],
  },
  {
    thrown: "plans that break the rules",
    caughtBy: [["assign/check.test.ts", "two stays on one site for one night"]],
    notShown: "floods of jobs for the solver",
  },
  {
    thrown: "SIGTERM while hosts write; files of older and newer programs",
    caughtBy: [
      ["faults/stop.test.ts", "ends with 0 after every request that runs"],
      ["ledger/migrate.test.ts", "comes to the same from version %i as from nothing"],
      ["ledger/migrate.test.ts", "of a newer program is not touched"],
    ],
    notShown: "two programs of different versions over one file at the same time",
  },
  {
    thrown: "tables of ten thousand stays with bad rows, formulas, markup, SQL",
    caughtBy: [
      ["faults/table.test.ts", "takes every good row and tells line and column of every bad one"],
      ["faults/table.test.ts", "keeps what looks like a formula or like markup as the text that it is"],
    ],
  },
];

const TESTS = fileURLToPath(new URL("..", import.meta.url));

describe("the faults", () => {
  it.each(FAULTS.map((fault) => [fault.thrown, fault] as const))("%s", (_thrown, { caughtBy, notShown }) => {
    for (const [file, title] of caughtBy) {
      expect(existsSync(TESTS + file), file).toBe(true);
      expect(readFileSync(TESTS + file, "utf8"), `${file}: ${title}`).toContain(title);
    }
    if (caughtBy.length === 0) expect(notShown).toBeTypeOf("string");
  });
});
