/** POST /v1/card: what to do on arrival and departure, for one rig at one site. */
import { cardPage } from "../../draw/card/page.ts";
import { drawCardSheet } from "../../draw/card/sheet.ts";
import { completeOptions } from "../../fit/options.ts";
import { hookupCard } from "../../trip/card/hookup-card.ts";
import { catalogueOf } from "../../trip/card/languages.ts";
import { BODY_PROBLEMS, type BodyRule, jsonBody } from "../body.ts";
import { fitReady, readyCase } from "../fit-case.ts";
import { negotiate } from "../negotiate.ts";
import { EXAMPLE_FIT_REQUEST } from "../openapi/examples.ts";
import { refuseParameters } from "../parameters.ts";
import type { ProblemError } from "../problem.ts";
import { computed, DRAWING_POLICY } from "../representation.ts";
import { readRig } from "../rig-input.ts";
import { type Call, type Route, schemaRef } from "../route.ts";
import { cardRequestSchema } from "../schemas/trip-card.ts";
import { readSite } from "../site-input.ts";
import { check } from "../validate.ts";
import { whenOf } from "../weather.ts";
import { refusal } from "./fit.ts";

const JSON_TYPE = "application/json";
const HTML_TYPE = "text/html";
const SVG_TYPE = "image/svg+xml";

export const cardRoute: Route = {
  method: "POST",
  path: "/v1/card",
  operationId: "card",
  tag: "Fit",
  summary: "The hookup card of one rig at one site",
  description:
    "What a beginner does there: where to stop, arrival and departure in order, the short order for storm and flood, what instruments should show, what not to connect and why. Power is told in one fixed order in which each step bars the next, or not at all. A site that does not fit, or of which too little is known, gets a card without steps. As text/html it is a page that loads nothing and prints on one sheet of A4 or Letter, as image/svg+xml the same sheet drawn.",
  requestBody: {
    description: "As for a fit, with the language of the card.",
    content: {
      [JSON_TYPE]: {
        schema: schemaRef("CardRequest"),
        examples: {
          spanish: {
            summary: "A card in Spanish",
            value: { ...EXAMPLE_FIT_REQUEST, language: "es" },
          },
        },
      },
    },
  },
  answer: {
    description: "The card.",
    content: {
      [JSON_TYPE]: { schema: schemaRef("HookupCard") },
      [HTML_TYPE]: { schema: { type: "string" } },
      [SVG_TYPE]: { schema: { type: "string" } },
    },
  },
  conditional: false,
  problems: [...BODY_PROBLEMS, "invalid-parameter", "invalid-request"],
  handle: answerCard,
};

async function answerCard({ request, url, store, limits, weather }: Call): Promise<Response> {
  const rule: BodyRule = { mediaTypes: [JSON_TYPE], maxBytes: limits.fitBodyBytes };
  const body: unknown = await jsonBody(request, rule, limits.jsonDepth);
  const mediaType = negotiate(request.headers.get("accept"), [JSON_TYPE, HTML_TYPE, SVG_TYPE]);
  refuseParameters(url, []);
  const envelope = check(cardRequestSchema, body);
  const errors: ProblemError[] = envelope.ok ? [] : [...envelope.errors];
  const rig = readRig(body, errors);
  const isObject = typeof body === "object" && body !== null && !Array.isArray(body);
  const site = isObject ? await readSite(body as Readonly<Record<string, unknown>>, store, errors) : null;
  if (!envelope.ok || rig === null || site === null || errors.length > 0) throw refusal(errors);
  const when = await whenOf(envelope.value.when, site.feature, weather);
  // A card needs the window and the fixes, which a summary leaves out.
  const options = { ...completeOptions(envelope.value.options), detail: "full" as const };
  const ready = readyCase(rig, site, options, when);
  const fit = fitReady(ready, site, options, when);
  const card = hookupCard({ fit, rig: ready.rig }, catalogueOf(envelope.value.language ?? "en"));
  const language = { "Content-Language": card.language };
  if (mediaType === HTML_TYPE)
    return computed(cardPage(fit, card), `${HTML_TYPE}; charset=utf-8`, { ...DRAWING_POLICY, ...language });
  if (mediaType === SVG_TYPE) return computed(drawCardSheet(fit, card), SVG_TYPE, { ...DRAWING_POLICY, ...language });
  return computed(JSON.stringify(card), JSON_TYPE, language);
}
