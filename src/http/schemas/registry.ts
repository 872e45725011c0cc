/** Every schema that the description names, and those that are published one by one. */
import * as z from "zod";
import { rigJsonSchema } from "../../rig/json-schema.ts";
import { campground, campgroundCollection, hookup, siteFeature } from "../../site/schema.ts";
import { addComponent, fromZod, shareRepeats } from "../openapi/components.ts";
import { type JsonSchema, schemaRef } from "../route.ts";
import {
  healthSchema,
  limitListSchema,
  problemSchema,
  readinessSchema,
  schemaListSchema,
  vocabularySchema,
} from "./about.ts";
import { fitAnswerSchema } from "./answer.ts";
import { assignmentRequestSchema } from "./assignment.ts";
import { assignmentAnswerSchema, stayExplanationSchema } from "./assignment-answer.ts";
import { batchFeatureSchema, batchRequestSchema, batchRowSchema } from "./batch.ts";
import { deskAnswerSchema, deskRequestSchema } from "./desk.ts";
import { fitRequestSchema, siteReferenceSchema } from "./fit-request.ts";
import { HOST_SCHEMAS } from "./host-registry.ts";
import { importAnswerSchema } from "./import-answer.ts";
import { OGC_SCHEMAS } from "./ogc.ts";
import { campgroundListSchema } from "./records.ts";
import { searchRequestSchema } from "./search.ts";
import { searchAnswerSchema } from "./search-answer.ts";
import { cardRequestSchema, cardSchema } from "./trip-card.ts";
import { tripAnswerSchema, tripRequestSchema } from "./trips.ts";
import { windReportSchema, windRequestSchema } from "./wind.ts";

const aroundFeature = z.looseObject({
  type: z.literal("Feature"),
  geometry: z.looseObject({}).nullable(),
  properties: z.looseObject({ kind: z.string() }),
});

/** Built on demand: the description is asked for far less often than a fit. */
export function componentSchemas(): Record<string, JsonSchema> {
  const schemas: Record<string, JsonSchema> = {};
  const add = (name: string, schema: JsonSchema, description: string) =>
    addComponent(schemas, name, { description, ...schema });
  const named = new Map<string, string>();
  /** Adds a part of the campground record; what comes later refers to it instead of repeating it. */
  const addPart = (name: string, schema: z.ZodType, description: string) => {
    const { $schema: _dialect, ...body } = fromZod(schema, "input");
    add(name, shareRepeats(body, named), description);
    named.set(JSON.stringify(body), name);
  };
  addPart("Hookup", hookup, "A hookup of a site.");
  addPart("Site", siteFeature, "A site as a GeoJSON Feature. Unknown members are kept.");
  addPart("CampgroundMember", campground, "What holds for a whole campground.");
  addPart(
    "Campground",
    campgroundCollection,
    "A campground as one GeoJSON FeatureCollection (RFC 7946) with the member `campground`.",
  );
  add("Rig", rigJsonSchema() as JsonSchema, "A rig.");
  add("AroundFeature", fromZod(aroundFeature, "input"), "A feature near a site: its `kind` says what it is.");
  add("SiteReference", fromZod(siteReferenceSchema, "input"), "A stored site.");
  add("SiteOrReference", { oneOf: [schemaRef("Site"), schemaRef("SiteReference")] }, "A site, or the ids of one.");
  add("FitRequest", fromZod(fitRequestSchema, "input"), "One rig and one site.");
  add("Fit", fromZod(fitAnswerSchema, "output"), "The answer to one rig on one site.");
  add("CardRequest", fromZod(cardRequestSchema, "input"), "One rig, one site and a language.");
  add("HookupCard", fromZod(cardSchema, "output"), "What to do on arrival and departure.");
  add("BatchRequest", fromZod(batchRequestSchema, "input"), "Rigs and sites.");
  add("BatchRow", fromZod(batchRowSchema, "output"), "One rig at one site.");
  add("BatchFeature", fromZod(batchFeatureSchema, "output"), "A row with its site's geometry.");
  add("SearchRequest", fromZod(searchRequestSchema, "input"), "One rig, and where to look.");
  add("SearchAnswer", fromZod(searchAnswerSchema, "output"), "A page of sites with their fit.");
  add("TripRequest", fromZod(tripRequestSchema, "input"), "One rig, its stops in order, and who travels.");
  add("TripAnswer", fromZod(tripAnswerSchema, "output"), "A trip: stops, kit, supplies, cards.");
  add("DeskRequest", fromZod(deskRequestSchema, "input"), "A fleet, bookings and the depot's stock.");
  add("DeskAnswer", fromZod(deskAnswerSchema, "output"), "Units for bookings, what to load, stock by date.");
  add("WindRequest", fromZod(windRequestSchema, "input"), "One site, and what is known of the awning.");
  add("WindReport", fromZod(windReportSchema, "output"), "The wind at one site.");
  add("AssignmentRequest", fromZod(assignmentRequestSchema, "input"), "Stays and sites to be brought together.");
  add("AssignmentAnswer", fromZod(assignmentAnswerSchema, "output"), "A plan, its bound, and the reasons.");
  add("StayExplanation", fromZod(stayExplanationSchema, "output"), "Why a stay has its site, or none.");
  add("CampgroundList", fromZod(campgroundListSchema, "output"), "A page of the stored campgrounds.");
  add("ImportAnswer", fromZod(importAnswerSchema, "output"), "The record and the report of an import.");
  add("Problem", fromZod(problemSchema, "output"), "Problem details.");
  add("Vocabulary", fromZod(vocabularySchema, "output"), "Every word that requests and answers use.");
  add("LimitList", fromZod(limitListSchema, "output"), "Every cap of this interface.");
  add("SchemaList", fromZod(schemaListSchema, "output"), "The published schemas.");
  add("Readiness", fromZod(readinessSchema, "output"), "Requests may be sent here.");
  add("Health", fromZod(healthSchema, "output"), "The service answers.");
  for (const [name, schema] of OGC_SCHEMAS) addComponent(schemas, name, fromZod(schema, "output"));
  for (const { name, schema, io, description } of HOST_SCHEMAS) add(name, fromZod(schema, io), description);
  return Object.fromEntries(Object.entries(schemas).sort(([a], [b]) => (a < b ? -1 : 1)));
}

/** Name under /schemas, and the component that it gives. */
export const PUBLISHED_SCHEMAS: Readonly<Record<string, string>> = {
  rig: "Rig",
  site: "Site",
  campground: "Campground",
  "fit-request": "FitRequest",
  fit: "Fit",
  "card-request": "CardRequest",
  card: "HookupCard",
  "search-request": "SearchRequest",
  "search-answer": "SearchAnswer",
  "trip-request": "TripRequest",
  "trip-answer": "TripAnswer",
  "desk-request": "DeskRequest",
  "desk-answer": "DeskAnswer",
  "assignment-request": "AssignmentRequest",
  "assignment-answer": "AssignmentAnswer",
  "wind-request": "WindRequest",
  "wind-report": "WindReport",
  problem: "Problem",
  vocabulary: "Vocabulary",
};
