/** The message catalogues: complete in every language, nothing unused, typed gaps alike, numbers as the language has them. */
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import appliances from "../../data/appliances.json" with { type: "json" };
import steps from "../../data/card-steps.json" with { type: "json" };
import cautions from "../../data/cautions.json" with { type: "json" };
import electrical from "../../data/electrical-cautions.json" with { type: "json" };
import kit from "../../data/kit.json" with { type: "json" };
import { supports } from "../../src/fit/level/wheels.ts";
import { CHECK_WORDS } from "../../src/http/vocabulary.ts";
import { WORD_KEYS } from "../../src/trip/card/card.ts";
import { catalogueOf, LANGUAGES } from "../../src/trip/card/languages.ts";
import { amount, gapsOf, Speaker } from "../../src/trip/card/messages.ts";
import { coach, trailer } from "./cards.ts";

const SOURCE = new URL("../../src/trip/card/", import.meta.url);
const english = catalogueOf("en").messages;
const keys = Object.keys(english);
const others = LANGUAGES.filter((language) => language !== "en");
/** Said of a translation only. */
const TRANSLATION = "translation";

/** Keys that stand in the source as they are. */
const written = new Set(
  readdirSync(SOURCE)
    .map((name) => readFileSync(new URL(name, SOURCE), "utf8"))
    .flatMap((text) => [...text.matchAll(/["`]([a-z]+\.[A-Za-z-]+)["`]/g)].map(([, key]) => key ?? "")),
);
/** Beginnings of keys that the source ends with a value, `service.${service}`. */
const begun = [
  ...new Set(
    readdirSync(SOURCE)
      .map((name) => readFileSync(new URL(name, SOURCE), "utf8"))
      .flatMap((text) => [...text.matchAll(/`([a-z]+\.[a-z-]*)\$\{/g)].map(([, key]) => key ?? "")),
  ),
];

describe("catalogues", () => {
  it.each(others)("%s has the messages of English, no fewer and no more", (language) => {
    expect(Object.keys(catalogueOf(language).messages).sort()).toEqual([...keys, TRANSLATION].sort());
  });

  it.each(others)("%s has the gaps of English, of the same kinds", (language) => {
    const { messages } = catalogueOf(language);
    for (const key of keys) expect([key, gapsOf(messages[key] ?? "")]).toEqual([key, gapsOf(english[key] ?? "")]);
  });

  it.each(others)(
    "%s says something of its own in every sentence, and says that nobody has reviewed it",
    (language) => {
      const { messages, reviewed } = catalogueOf(language);
      expect(reviewed).toBe(false);
      expect(messages[TRANSLATION]).not.toBe("");
      const sentences = keys.filter((key) => /\w+ \w+ \w+/.test((english[key] ?? "").replace(/\{[^}]*\}/g, "")));
      expect(sentences.length).toBeGreaterThan(150);
      expect(sentences.filter((key) => messages[key] === english[key])).toEqual([]);
    },
  );

  it("have no empty message and no space at an end", () => {
    for (const language of LANGUAGES)
      for (const [key, message] of Object.entries(catalogueOf(language).messages))
        expect([language, key, message.trim() === message || key === "word.colon", message !== ""]).toEqual([
          language,
          key,
          true,
          true,
        ]);
  });

  it("have no message that nothing says", () => {
    const unused = keys.filter((key) => !written.has(key) && !begun.some((start) => key.startsWith(start)));
    expect(unused).toEqual([]);
  });
});

describe("every word of the tables has its message", () => {
  const missing = (wanted: readonly string[]): string[] => wanted.filter((key) => !keys.includes(key));
  const dashed = (name: string): string => name.replaceAll(" ", "-");

  it("steps, rules and parts", () => {
    expect(missing(Object.keys(steps.steps).flatMap((id) => [`step.${id}.do`, `step.${id}.why`]))).toEqual([]);
    expect(
      missing(
        Object.keys(steps.rules)
          .filter((id) => id !== "wind")
          .map((id) => `rule.${id}`),
      ),
    ).toEqual([]);
    expect(missing(WORD_KEYS.map((key) => `word.${key}`))).toEqual([]);
  });

  it("no message of a step or rule that the table does not have", () => {
    const ids = new Set([...Object.keys(steps.steps)]);
    const said = keys.filter((key) => key.startsWith("step.")).map((key) => key.split(".")[1] ?? "");
    expect(said.filter((id) => !ids.has(id))).toEqual([]);
  });

  it("cautions: in words of their own, or said by a step or a rule", () => {
    const ids = [...cautions.cautions, ...electrical.cautions].map(({ id }) => id);
    const covered = [...Object.values(steps.steps), ...Object.values(steps.rules)].flatMap((one) => one.cautions);
    expect(covered.filter((id) => !ids.includes(id))).toEqual([]);
    expect(missing(ids.filter((id) => !covered.includes(id)).map((id) => `caution.${id}`))).toEqual([]);
    const own = keys.filter((key) => key.startsWith("caution.")).map((key) => key.slice("caution.".length));
    expect(own.filter((id) => !ids.includes(id))).toEqual([]);
  });

  it("checks, kit, wheels and usual appliances", () => {
    expect(missing(Object.keys(CHECK_WORDS).map((id) => `check.${id}`))).toEqual([]);
    expect(missing(Object.keys(kit.items).map((id) => `kit.${id}`))).toEqual([]);
    const wheels = [coach, trailer].flatMap((rig) => {
      const { wheels: own, jack } = supports(rig);
      return [...own, ...(jack === null ? [] : [jack])].map(({ name }) => name);
    });
    expect(missing(wheels.map((name) => `wheel.${dashed(name)}`))).toEqual([]);
    expect(missing(appliances.rows.map(({ name }) => `appliance.${dashed(name)}`))).toEqual([]);
  });
});

describe("numbers and units", () => {
  const say = (language: (typeof LANGUAGES)[number], units: "us" | "metric") =>
    new Speaker(catalogueOf(language), units);

  it("have the decimal mark and the foot of the language", () => {
    const length = amount("length", 1.8542, "down");
    expect(LANGUAGES.map((language) => say(language, "us").print(length))).toEqual([
      "6 ft 1 in",
      "6 ft 1 in",
      "6 pi 1 po",
      "6 ft 1 in",
    ]);
    expect(LANGUAGES.map((language) => say(language, "metric").print(length))).toEqual([
      "1.85 m",
      "1,85 m",
      "1,85 m",
      "1,85 m",
    ]);
    expect(say("de", "us").print(amount("percent", 0.0208, "up"))).toBe("2,1 %");
  });

  it("are rounded as the value says, never as the message says", () => {
    const speaker = say("en", "metric");
    expect(speaker.print(amount("length", 1.236, "down"))).toBe("1.23 m");
    expect(speaker.print(amount("length", 1.231, "up"))).toBe("1.24 m");
    expect(speaker.print(amount("far", 13.2, "up"))).toBe("14 m");
    expect(say("en", "us").print(amount("far", 13.2, "up"))).toBe("44 ft");
  });

  it("count days and turn the compass as the language does", () => {
    expect([1, 1.5, 2].map((days) => say("fr", "us").print(amount("days", days)))).toEqual([
      "1 jour",
      "1,5 jour",
      "2 jours",
    ]);
    expect(say("en", "us").print(amount("days", 1.5))).toBe("1.5 days");
    expect(LANGUAGES.map((language) => say(language, "us").compass("WSW"))).toEqual(["WSW", "OSO", "OSO", "WSW"]);
    expect(say("de", "us").compass("ENE")).toBe("ONO");
  });

  it("refuse a message that is not there, a value that is missing and one of another kind", () => {
    const speaker = say("en", "us");
    expect(() => speaker.say("no.such")).toThrow(/no message "no.such" in en/);
    expect(() => speaker.say("reason.short")).toThrow(/lacks its value "missing"/);
    expect(() => speaker.say("reason.short", { missing: amount("volts", 2) })).toThrow(/as length, not volts/);
  });
});
