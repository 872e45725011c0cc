/** What holds for the card of any rig at any site, in every language. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import steps from "../../data/card-steps.json" with { type: "json" };
import general from "../../data/cautions.json" with { type: "json" };
import electrical from "../../data/electrical-cautions.json" with { type: "json" };
import { cardParts } from "../../src/draw/card/parts.ts";
import type { AnswerLine, Fit } from "../../src/fit/answer.ts";
import type { CompletedRig, Service } from "../../src/rig/completed.ts";
import type { Card } from "../../src/trip/card/card.ts";
import { LANGUAGES } from "../../src/trip/card/languages.ts";
import { line, makeFit } from "../draw/makers.ts";
import { cardOf, coach, reaching, trailer } from "./cards.ts";

const SERVICES: readonly Service[] = ["power", "water", "fill", "sewer", "cable"];
const ARRIVAL_POWER = ["power-off", "power-test", "power-loads", "power-plug", "power-slack", "power-on"];
const DEPARTURE_POWER = ["power-loads-off", "power-breaker-off", "power-stow"];
const RUNS = { numRuns: 400 };
/** Stands in every sentence of an answer: it must never come out on a card. */
const LEAK = "LEAK of an English sentence";

const caution = (id: string) => ({ id, text: LEAK, source: "invented" });
/** Cautions that any fit may carry; those of blocks, trailers and awnings go with them. */
const FREE_CAUTIONS = [...general.cautions, ...electrical.cautions]
  .map(({ id }) => id)
  .filter((id) => !id.startsWith("level-") && !id.startsWith("awning-"));

const lineOf = (service: Service): fc.Arbitrary<AnswerLine> =>
  fc
    .record({
      verdict: fc.constantFrom(...(["reaches", "tight", "short", "unknown", "not needed", "absent"] as const)),
      need: fc.constantFrom(...(["required", "wanted", "ignored"] as const)),
      needed: fc.double({ min: 0.3, max: 12, noNaN: true }),
      available: fc.double({ min: 0.3, max: 12, noNaN: true }),
    })
    .map(({ verdict, need, needed, available }) => line(service, [], needed, available, verdict, { need, why: LEAK }));

const awningOf = fc
  .record({
    side: fc.constantFrom(...(["left", "right", "rear"] as const)),
    room: fc.constantFrom(...(["pass", "pass with kit", "tight", "fail", "unknown"] as const)),
    exposure: fc.constantFrom(...(["low", "moderate", "high", "unknown", null] as const)),
  })
  .map((more) => ({
    id: "a",
    padSide: null,
    needed: 2.4,
    clear: null,
    why: LEAK,
    azimuth: null,
    wind: null,
    hours: null,
    ...more,
  }));

interface Case {
  readonly fit: Fit;
  readonly rig: CompletedRig;
}

const someCase: fc.Arbitrary<Case> = fc
  .record({
    services: fc.subarray([...SERVICES]),
    lines: fc.tuple(...SERVICES.map(lineOf)),
    verdict: fc.constantFrom(...(["fits", "fits with kit", "tight", "unknown", "does not fit"] as const)),
    mating: fc.constantFrom(...(["direct", "adapter", "adapter with caution", "refused", "unknown", "none"] as const)),
    drop: fc.constantFrom(...(["fine", "watch", "low", "stop", "unknown"] as const)),
    legs: fc.constantFrom(1, 2),
    volts: fc.constantFrom(120, 230, 118.5, 400, null),
    drain: fc.constantFrom(...(["drains", "marginal", "poor", "uphill", "fall not checked", "none"] as const)),
    stands: fc.boolean(),
    blocks: fc.boolean(),
    awnings: fc.array(awningOf, { maxLength: 2 }),
    cautions: fc.subarray(FREE_CAUTIONS),
    towed: fc.boolean(),
    box: fc.boolean(),
    units: fc.constantFrom(...(["us", "metric"] as const)),
  })
  .map((made) => {
    const whole = reaching();
    const rig: CompletedRig = {
      ...(made.towed ? trailer : coach),
      generator: { watts: 4000, suppliesThrough: made.box ? "cord-in-box" : "transfer-switch" },
    };
    const ids = [
      ...made.cautions,
      ...(made.blocks ? ["level-parking-brake"] : []),
      ...(made.towed ? ["level-chock"] : []),
      ...(made.awnings.length > 0 ? ["awning-wind", "awning-leaving"] : []),
    ];
    const fit: Fit = {
      ...whole,
      units: made.units,
      verdict: made.verdict,
      headline: LEAK,
      stance: made.stands ? whole.stance : null,
      lines: made.lines.filter(({ service }) => made.services.includes(service)),
      power: {
        ...whole.power,
        mating: made.mating,
        why: LEAK,
        legs: made.legs,
        voltsToNeutral: made.volts,
        voltsLegToLeg: made.legs === 2 ? 208 : null,
        drop: {
          volts: 7.3,
          ratio: 0.06,
          voltsAtRigFromNominal: 112.7,
          voltsAtRigFromLowest: 106.2,
          status: made.drop,
          why: LEAK,
        },
      },
      sewer: { ...whole.sewer, status: made.drain, slope: 0.013, why: LEAK },
      level: { ...makeFit().level, blocks: made.blocks ? [{ wheel: "rear left wheel", height: 0.07 }] : [], why: LEAK },
      awning: made.awnings,
      cautions: ids.map(caution),
    };
    return { fit, rig };
  });

const idsOf = (list: readonly { readonly id: string }[]): string[] => list.map(({ id }) => id);
const powerIn = (list: Card["arrival"]): string[] => idsOf(list.filter(({ service }) => service === "power"));

/** Whether the answer lets a cord be joined at all, written out a second time. */
function powerAllowed({ lines, power }: Fit): boolean {
  const cord = lines.find(({ service }) => service === "power");
  if (cord === undefined || cord.need === "ignored") return false;
  if (["refused", "unknown", "none"].includes(power.mating) || power.drop?.status === "stop") return false;
  return cord.verdict === "reaches" || (cord.verdict === "tight" && (cord.margin ?? -1) >= 0);
}

/** Services that a caution is about; none when it is about the rig. */
function aboutOf(id: string): Service[] {
  if (electrical.cautions.some((one) => one.id === id)) return ["power"];
  const group = general.cautions.find((one) => one.id === id)?.group;
  if (group === "electricity") return ["power"];
  if (group === "water") return id === "water-drinking-hose" ? ["water", "fill"] : ["water"];
  return group === "sewer" ? ["sewer"] : [];
}

describe("the card of any rig at any site", () => {
  it("tells power whole and in its order, each step barring the next, or not at all", () => {
    fc.assert(
      fc.property(someCase, ({ fit, rig }) => {
        const card = cardOf(fit, rig);
        const allowed = card.approves && powerAllowed(fit);
        expect(powerIn(card.arrival)).toEqual(allowed ? ARRIVAL_POWER : []);
        expect(powerIn(card.departure)).toEqual(allowed ? DEPARTURE_POWER : []);
        const at = card.arrival.findIndex(({ service }) => service === "power");
        for (const [index, id] of (allowed ? ARRIVAL_POWER : []).entries()) {
          expect(card.arrival[at + index]?.id).toBe(id);
          expect(card.arrival[at + index]?.bars).toBe(ARRIVAL_POWER[index + 1] ?? null);
        }
        expect(card.run === null).toBe(!allowed);
      }),
      RUNS,
    );
  });

  it("joins no service that the site lacks, and names none that it does not join", () => {
    const named: Readonly<Partial<Record<Service, RegExp>>> = {
      power: /pedestal|receptacle|plug/i,
      sewer: /riser|valve|gloves/i,
      cable: /television/i,
    };
    fc.assert(
      fc.property(someCase, ({ fit, rig }) => {
        const { arrival } = cardOf(fit, rig);
        const joined = new Set(arrival.flatMap(({ service }) => (service === null ? [] : [service])));
        for (const service of joined) {
          const there = fit.lines.find((one) => one.service === service);
          expect(["reaches", "tight"]).toContain(there?.verdict);
          expect(there?.need).not.toBe("ignored");
        }
        const said = arrival.map(({ text, why, ifNot }) => `${text} ${why} ${ifNot ?? ""}`).join(" ");
        for (const service of SERVICES)
          if (!joined.has(service)) expect(said).not.toMatch(named[service] ?? /never said at all/);
        expect(joined.has("water") && joined.has("fill")).toBe(false);
      }),
      RUNS,
    );
  });

  it("says every caution of the answer that concerns what it joins", () => {
    fc.assert(
      fc.property(someCase, ({ fit, rig }) => {
        const card = cardOf(fit, rig);
        const said = new Set(
          [...card.arrival, ...card.departure, ...card.leaveFast, ...card.rules, ...card.cautions].flatMap(
            ({ cautions }) => cautions,
          ),
        );
        const joined = new Set([...card.arrival, ...card.departure].map(({ service }) => service));
        const wanted = idsOf(fit.cautions).filter((id) => {
          const about = aboutOf(id);
          return about.length === 0 || about.some((service) => joined.has(service));
        });
        expect(card.approves ? wanted.filter((id) => !said.has(id)) : []).toEqual([]);
      }),
      RUNS,
    );
  });

  it("ends the departure with the walk round before the engine starts, after every other step", () => {
    fc.assert(
      fc.property(someCase, ({ fit, rig }) => {
        const { departure, approves } = cardOf(fit, rig);
        expect(departure.at(-1)?.id).toBe(approves ? "walk" : undefined);
        expect(departure.at(-1)?.text ?? "before the engine starts").toContain("before the engine starts");
      }),
      RUNS,
    );
  });

  it("approves nothing where the answer does not, or where a line that is required stays off", () => {
    fc.assert(
      fc.property(someCase, ({ fit, rig }) => {
        const card = cardOf(fit, rig);
        const mayNot = fit.verdict === "does not fit" || fit.verdict === "unknown" || fit.stance === null;
        if (mayNot) expect(card.approves).toBe(false);
        if (card.approves) {
          const off = new Set(card.notConnected.map(({ service }) => service));
          expect(fit.lines.filter(({ need, service }) => need === "required" && off.has(service))).toEqual([]);
        } else {
          const { arrival, departure, leaveFast, stop, kit, rules } = card;
          expect([arrival, departure, leaveFast, stop, kit, rules].flat()).toEqual([]);
          expect(card.banner).not.toBeNull();
        }
      }),
      RUNS,
    );
  });

  it("lets no sentence of the answer through, leaves no gap open, and has the same steps in every language", () => {
    fc.assert(
      fc.property(someCase, ({ fit, rig }) => {
        const cards = LANGUAGES.map((language) => cardOf(fit, rig, language));
        for (const card of cards) {
          const text = JSON.stringify([cardParts(card), card.banner, card.checks, card.planLabels]);
          expect(text).not.toContain(LEAK);
          expect(text).not.toMatch(/[{]\w+:\w+[}]|undefined|NaN|not a number/);
          expect(idsOf(card.arrival)).toEqual(idsOf(cards[0]?.arrival ?? []));
          expect(idsOf(card.departure)).toEqual(idsOf(cards[0]?.departure ?? []));
        }
      }),
      { numRuns: 150 },
    );
  });
});

describe("the table of steps", () => {
  it("bars only steps that there are, and always a later one", () => {
    const ids = Object.keys(steps.steps);
    for (const [index, { bars }] of Object.values(steps.steps).entries())
      if (bars !== null) expect(ids.indexOf(bars)).toBeGreaterThan(index);
    for (const one of [...Object.values(steps.steps), ...Object.values(steps.rules)]) expect(one.source).not.toBe("");
  });
});
