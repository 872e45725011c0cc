/** What of the page needs no browser: addresses, the list's order, the plan's frame, the message. */
import { describe, expect, test } from "vitest";
import type { RowWind, SiteCard, SiteRow } from "../../src/web/core/protocol.ts";
import { hrefOf, readRoute } from "../../src/web/route.ts";
import { inside, type PlanFrameOnPage, stepOnPad, toPage, WHOLE, zoomAt } from "../../src/web/site/plan-frame.ts";
import { arrangeList, passes } from "../../src/web/sites/listing.ts";
import { NO_FILTERS } from "../../src/web/state/store.ts";

describe("addresses", () => {
  test("every route is read back from its own address", () => {
    for (const route of [
      { view: "sites" },
      { view: "about" },
      { view: "rig" },
      { view: "site", id: "loop a/7 ü" },
      { view: "card", id: "curlew-3" },
      { view: "measure", id: "100%" },
      { view: "compare", ids: ["a,b", "c/d"] },
    ] as const) {
      expect(readRoute(hrefOf(route))).toEqual(route);
    }
  });

  test("what is no address shows the sites; a fourth site is not compared; a broken escape is taken as it is", () => {
    expect(readRoute("#/nowhere")).toEqual({ view: "sites" });
    expect(readRoute("#/site/")).toEqual({ view: "sites" });
    expect(readRoute("#/compare/a,b,c,d")).toEqual({ view: "compare", ids: ["a", "b", "c"] });
    expect(readRoute("#/site/50%")).toEqual({ view: "site", id: "50%" });
  });
});

function card(id: string, changes: Partial<SiteCard> = {}): SiteCard {
  const services = { power: "unknown", water: "no", fill: "no", sewer: "yes", cable: "no" } as const;
  const none = {
    layout: null,
    length: null,
    width: null,
    amps: [],
    shade: null,
    closed: null,
    outline: null,
    centre: null,
  };
  return { ...none, id, name: id, services, accessible: "unknown", ...changes };
}

function row(id: string, rank: number, best: number | null, worst: number | null): SiteRow {
  return {
    id,
    name: id,
    verdict: rank > 40 ? "fits" : "does not fit",
    reason: "",
    headline: "",
    worst: worst === null ? null : { service: "sewer", margin: worst },
    bestMargin: best,
    probability: null,
    lines: [],
    mating: "direct",
    kit: [],
    rank,
  };
}

const RATIOS = { low: 0.4, moderate: 0.6, high: 0.9, unknown: 0.8 } as const;

function windOf(usual: keyof typeof RATIOS, from: readonly (keyof typeof RATIOS)[]): RowWind {
  const exposed = (level: keyof typeof RATIOS, index = 0) => ({ level, ratio: RATIOS[level] + index / 100 });
  return { usual: exposed(usual), from: from.map(exposed) };
}

describe("the list", () => {
  test("an unknown is not a yes", () => {
    const one = { card: card("a"), row: null };
    expect(passes(one, NO_FILTERS)).toBe(true);
    expect(passes(one, { ...NO_FILTERS, power: true })).toBe(false);
    expect(passes(one, { ...NO_FILTERS, sewer: true })).toBe(true);
    expect(passes(one, { ...NO_FILTERS, accessible: true })).toBe(false);
    expect(passes(one, { ...NO_FILTERS, shade: true })).toBe(false);
    // Before an answer nobody knows the wind; with one, only low and moderate exposure is shelter.
    expect(passes(one, { ...NO_FILTERS, windFrom: "E" })).toBe(true);
    const wind = windOf("moderate", ["high", "high", "low", "moderate", "unknown", "high", "high", "high"]);
    const judged = (from: "E" | "SE" | "S" | "W") =>
      passes({ ...one, row: { ...row("a", 43, 1, 1), wind } }, { ...NO_FILTERS, windFrom: from });
    expect(judged("E")).toBe(true);
    expect(judged("SE")).toBe(true);
    expect(judged("S")).toBe(false);
    expect(judged("W")).toBe(false);
    expect(passes({ ...one, row: row("a", 43, 1, 1) }, { ...NO_FILTERS, windFrom: "E" })).toBe(false);
  });

  test("rank, then the best margin, then the name with its numbers; sites without an answer last", () => {
    const cards = ["site 10", "site 2", "b", "c", "waiting"].map((id) => card(id));
    const rows = new Map([
      ["site 10", row("site 10", 43, 0.4, 0.1)],
      ["site 2", row("site 2", 43, 0.4, 2.2)],
      ["b", row("b", 42, 7, null)],
      ["c", row("c", 43, null, 0.9)],
    ]);
    const ids = (order: "rank" | "margin" | "name") =>
      arrangeList(cards, rows, NO_FILTERS, order).map((one) => one.card.id);
    expect(ids("rank")).toEqual(["site 2", "site 10", "c", "b", "waiting"]);
    expect(ids("margin")).toEqual(["site 2", "c", "site 10", "b", "waiting"]);
    expect(ids("name")).toEqual(["b", "c", "site 2", "site 10", "waiting"]);
  });

  test("least exposed first, to the wind that is chosen; what is not known is no shelter and comes after", () => {
    const cards = ["waiting", "nowhere", "unmapped", "lee", "open"].map((id) => card(id));
    const calmFrom = (index: number) =>
      Array.from({ length: 8 }, (_, other) => (other === index ? "low" : "high") as "low" | "high");
    const rows = new Map([
      ["lee", { ...row("lee", 41, 1, 1), wind: windOf("moderate", calmFrom(6)) }],
      ["open", { ...row("open", 43, 1, 1), wind: windOf("high", calmFrom(2)) }],
      [
        "unmapped",
        {
          ...row("unmapped", 43, 1, 1),
          wind: windOf(
            "unknown",
            calmFrom(2).map(() => "unknown" as const),
          ),
        },
      ],
      ["nowhere", row("nowhere", 43, 1, 1)],
    ]);
    const ids = (windFrom: "" | "E" | "W") =>
      arrangeList(cards, rows, { ...NO_FILTERS, windFrom }, "shelter").map((one) => one.card.id);
    expect(ids("")).toEqual(["lee", "open", "nowhere", "unmapped", "waiting"]);
    expect(ids("W")).toEqual(["lee", "waiting"]);
    expect(ids("E")).toEqual(["open", "waiting"]);
  });
});

describe("the plan's frame", () => {
  const right: PlanFrameOnPage = { exitRight: true, scale: 31, x: 40, y: 200, width: 700, height: 420 };
  const down: PlanFrameOnPage = { ...right, exitRight: false };

  test("a step on the page is the step on the pad that made it, either way up", () => {
    for (const frame of [right, down]) {
      const [from, to] = [toPage(frame, { along: 1.2, left: -0.4 }), toPage(frame, { along: 3.7, left: 0.9 })];
      const step = stepOnPad(frame, to.x - from.x, to.y - from.y);
      expect(step.along).toBeCloseTo(2.5, 9);
      expect(step.left).toBeCloseTo(1.3, 9);
    }
  });

  test("the pad's left is up when the exit is to the right, and to the right when it is down", () => {
    expect(toPage(right, { along: 0, left: 1 }).y).toBeLessThan(right.y);
    expect(toPage(down, { along: 0, left: 1 }).x).toBeGreaterThan(down.x);
  });

  test("zooming keeps what is under the finger, and never leaves the drawing", () => {
    const at = { x: 500, y: 130 };
    const view = zoomAt(WHOLE, 2.5, at, right);
    expect((at.x - view.x) * view.zoom).toBeCloseTo(at.x, 6);
    expect((at.y - view.y) * view.zoom).toBeCloseTo(at.y, 6);
    expect(zoomAt(view, 0.01, at, right)).toEqual(WHOLE);
    expect(inside({ x: 9999, y: -5, zoom: 2 }, right)).toEqual({ x: 350, y: 0, zoom: 2 });
  });
});
