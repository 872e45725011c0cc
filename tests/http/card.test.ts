/** POST /v1/card: the same question as a fit and a language; the card as data, page and sheet. */
import { beforeAll, describe, expect, it } from "vitest";
import {
  EXAMPLE_CAMPGROUND,
  EXAMPLE_FIT_REQUEST,
  EXAMPLE_RIG,
  EXAMPLE_VAGUE_SITE,
} from "../../src/http/openapi/examples.ts";
import { cardSchema } from "../../src/http/schemas/trip-card.ts";
import type { Card } from "../../src/trip/card/card.ts";
import { LANGUAGES } from "../../src/trip/card/languages.ts";
import { post, problemIn, type TestApp, testApp } from "./helpers.ts";

let app: TestApp;
beforeAll(async () => {
  app = await testApp();
});

/** The sewer of the example is not known well enough to be required. */
const OPTIONS = { ...EXAMPLE_FIT_REQUEST.options, needs: { sewer: "wanted" } };
const asked = (language: string, more: object = {}) => ({
  ...EXAMPLE_FIT_REQUEST,
  options: OPTIONS,
  ...more,
  language,
});
const accepting = (accept: string) => ({ Accept: accept });

async function cardOf(body: unknown): Promise<Card> {
  const response = await post(app, "/v1/card", body);
  const text = await response.text();
  expect([response.status, response.status === 200 ? "" : text]).toEqual([200, ""]);
  return JSON.parse(text) as Card;
}

describe("POST /v1/card", () => {
  it("gives nothing beyond its published schema, in English when no language is named", async () => {
    const card = await cardOf(EXAMPLE_FIT_REQUEST);
    expect(cardSchema.parse(card)).toEqual(card);
    expect(card).toMatchObject({ language: "en", translation: null, units: "us" });
  });

  it("gives the same steps in every language, and says of a translation that nobody has reviewed it", async () => {
    const cards: Card[] = [];
    for (const language of LANGUAGES) cards.push(await cardOf(asked(language)));
    const [english, ...others] = cards;
    expect(english?.approves).toBe(true);
    for (const card of others) {
      expect(card.arrival.map(({ id }) => id)).toEqual(english?.arrival.map(({ id }) => id));
      expect(card.translation).not.toBeNull();
      for (const [index, { text }] of card.arrival.entries()) expect(text).not.toBe(english?.arrival[index]?.text);
    }
  });

  it("asks for the window and the fixes even of a caller who wants a summary", async () => {
    const short = await cardOf(asked("en", { options: { ...OPTIONS, detail: "summary" } }));
    expect(short).toEqual(await cardOf(asked("en")));
  });

  it("gives a card without steps for a site that is hardly known", async () => {
    const card = await cardOf({
      rig: EXAMPLE_RIG,
      site: EXAMPLE_VAGUE_SITE,
      campground: EXAMPLE_CAMPGROUND,
      language: "de",
    });
    expect(card).toMatchObject({ approves: false, arrival: [], departure: [], leaveFast: [], kit: [], run: null });
    expect(card.banner?.text).toMatch(/^Nicht bekannt/);
  });

  it("gives a page that loads nothing and runs nothing", async () => {
    const response = await post(app, "/v1/card", asked("fr"), accepting("text/html"));
    expect(response.headers.get("content-type")).toBe("text/html; charset=utf-8");
    expect(response.headers.get("content-language")).toBe("fr");
    expect(response.headers.get("content-security-policy")).toContain("default-src 'none'");
    const page = await response.text();
    expect(page).toMatch(/^<!doctype html>\n<html lang="fr">/);
    expect(page).toContain("borne");
    expect(page).not.toMatch(/<script|<link|<img|\ssrc=|\shref=|url\(|@import| on\w+=/i);
  });

  it("gives the sheet as a drawing", async () => {
    const response = await post(app, "/v1/card", asked("es"), accepting("image/svg+xml"));
    expect(response.headers.get("content-type")).toBe("image/svg+xml");
    const drawing = await response.text();
    expect(drawing).toMatch(/^<svg [^>]*viewBox="0 0 739 995"/);
    expect(drawing).toContain('xml:lang="es"');
  });

  it("shows what a record says as text, whatever it holds", async () => {
    const nasty = `<b onclick="x()">A&7</b>`;
    const site = {
      ...EXAMPLE_FIT_REQUEST.site,
      properties: { ...EXAMPLE_FIT_REQUEST.site.properties, name: nasty },
    };
    for (const type of ["text/html", "image/svg+xml"]) {
      const text = await (await post(app, "/v1/card", asked("en", { site }), accepting(type))).text();
      expect(text).not.toContain("<b onclick");
      expect(text).toContain("&lt;b onclick");
    }
  });

  it("refuses a language that it does not have, with everything else that is wrong", async () => {
    const response = await post(app, "/v1/card", { rig: EXAMPLE_RIG, language: "la" });
    const problem = await problemIn(response, 422, "invalid-request");
    expect(problem.errors.map(({ pointer }) => pointer)).toEqual(expect.arrayContaining(["/language", "/site"]));
  });

  it("refuses a media type that it does not give", async () => {
    const response = await post(app, "/v1/card", asked("en"), accepting("application/pdf"));
    await problemIn(response, 406, "not-acceptable");
  });
});
