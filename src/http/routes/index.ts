/** Every route that everybody may use, in the order in which the description lists them. */
import { HOST_ROUTES } from "../host/routes/index.ts";
import { OGC_ROUTES } from "../ogc/routes.ts";
import type { Route } from "../route.ts";
import { healthRoute, limitsRoute, metricsRoute, readyRoute, vocabularyRoute } from "./about.ts";
import { assignmentRoute } from "./assignment.ts";
import { batchRoute } from "./batch.ts";
import { campgroundListRoute, campgroundRoute } from "./campgrounds.ts";
import { cardRoute } from "./card.ts";
import { docsRoute, openapiJsonRoute, openapiYamlRoute, schemaListRoute, schemaRoute } from "./description.ts";
import { fitRoute } from "./fit.ts";
import { importRoute } from "./import-osm.ts";
import { searchRoute } from "./search.ts";
import { deskRoute, tripRoute } from "./trips.ts";
import { windRoute } from "./wind.ts";

export const ROUTES: readonly Route[] = [
  fitRoute,
  batchRoute,
  cardRoute,
  searchRoute,
  windRoute,
  tripRoute,
  deskRoute,
  assignmentRoute,
  campgroundListRoute,
  campgroundRoute,
  importRoute,
  ...OGC_ROUTES,
  vocabularyRoute,
  limitsRoute,
  schemaListRoute,
  schemaRoute,
  openapiJsonRoute,
  openapiYamlRoute,
  docsRoute,
  healthRoute,
  readyRoute,
  metricsRoute,
];

/** With the routes for hosts, which are there where a ledger is. */
export const ALL_ROUTES: readonly Route[] = [...ROUTES, ...HOST_ROUTES];
