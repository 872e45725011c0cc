/** POST /v1/wind: one site, its exposure, and the hours of a stay at an awning there. */
import { drawWindRose } from "../../draw/rose.ts";
import { BODY_PROBLEMS, type BodyRule, jsonBody } from "../body.ts";
import { negotiate } from "../negotiate.ts";
import { EXAMPLE_WIND_REQUEST } from "../openapi/examples.ts";
import { refuseParameters } from "../parameters.ts";
import type { ProblemError } from "../problem.ts";
import { computed, DRAWING_POLICY } from "../representation.ts";
import { type Call, type Route, schemaRef } from "../route.ts";
import { windRequestSchema } from "../schemas/wind.ts";
import { readSite } from "../site-input.ts";
import { check } from "../validate.ts";
import { whenOf } from "../weather.ts";
import { type SiteWind, windCase } from "../wind-case.ts";
import { siteWindToWire } from "../wind-wire.ts";
import { refusal } from "./fit.ts";

const JSON_TYPE = "application/json";
const SVG_TYPE = "image/svg+xml";

export const windRoute: Route = {
  method: "POST",
  path: "/v1/wind",
  operationId: "wind",
  tag: "Fit",
  summary: "How one site lies to the wind, and when an awning there is to be in",
  description:
    "Exposure over all directions and to the prevailing wind on record, the rose of sixteen directions with what shelters, and with `when` the wind at the awning or the hours of the stay. Ask for image/svg+xml to get the rose drawn. An estimate and never a permission: `no retract signal` is the absence of a warning. Without a forecast the hours are unknown and everything else stands.",
  requestBody: {
    description: "A site as a GeoJSON Feature or as the ids of a stored one; the awning and `when` as far as known.",
    content: {
      [JSON_TYPE]: {
        schema: schemaRef("WindRequest"),
        examples: {
          days: { summary: "Days with a forecast that is handed in", value: EXAMPLE_WIND_REQUEST },
          hand: {
            summary: "A wind by hand at a stored site",
            value: {
              site: { campground: "alder-flat", site: "A7" },
              awning: { padSide: "right" },
              when: { wind: "20 mph from SW" },
              options: { units: "us" },
            },
          },
        },
      },
    },
  },
  answer: {
    description: "The wind at the site, or its rose drawn.",
    content: { [JSON_TYPE]: { schema: schemaRef("WindReport") }, [SVG_TYPE]: { schema: { type: "string" } } },
  },
  conditional: false,
  problems: [...BODY_PROBLEMS, "invalid-parameter", "invalid-request"],
  handle: answerWind,
};

async function answerWind({ request, url, store, limits, weather }: Call): Promise<Response> {
  const rule: BodyRule = { mediaTypes: [JSON_TYPE], maxBytes: limits.fitBodyBytes };
  const body: unknown = await jsonBody(request, rule, limits.jsonDepth);
  const mediaType = negotiate(request.headers.get("accept"), [JSON_TYPE, SVG_TYPE]);
  refuseParameters(url, []);
  const envelope = check(windRequestSchema, body);
  const errors: ProblemError[] = envelope.ok ? [] : [...envelope.errors];
  const isObject = typeof body === "object" && body !== null && !Array.isArray(body);
  const site = isObject ? await readSite(body as Readonly<Record<string, unknown>>, store, errors) : null;
  if (!envelope.ok || site === null || errors.length > 0) throw refusal(errors);
  const { awning = {}, when, options } = envelope.value;
  const found = windCase(site, awning, await whenOf(when, site.feature, weather), options?.units ?? "metric");
  if (mediaType === SVG_TYPE) return computed(drawing(found), SVG_TYPE, DRAWING_POLICY);
  return computed(JSON.stringify(siteWindToWire(found)), JSON_TYPE);
}

function drawing({ site, exposure, exposureRose, azimuth, judged, units }: SiteWind): string {
  if (exposureRose === null) {
    const message = "Where the pad lies on the earth is not on record, so no rose can be drawn.";
    throw refusal([{ pointer: "/site", code: "missing", message, expected: "an outline, a point or pad.origin" }]);
  }
  return drawWindRose(exposureRose, {
    name: site.name,
    awning: azimuth,
    prevailing: exposure?.prevailing?.from ?? null,
    forecast: judged.wind?.from ?? [],
    units,
  });
}
