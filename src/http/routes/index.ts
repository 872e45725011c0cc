/** Every route of the application, in the order in which the description lists them. */
import type { Route } from "../route.ts";
import { healthRoute, limitsRoute, vocabularyRoute } from "./about.ts";
import { campgroundListRoute, campgroundRoute } from "./campgrounds.ts";
import { docsRoute, openapiJsonRoute, openapiYamlRoute, schemaListRoute, schemaRoute } from "./description.ts";
import { fitRoute } from "./fit.ts";
import { importRoute } from "./import-osm.ts";
import { searchRoute } from "./search.ts";
import { windRoute } from "./wind.ts";

export const ROUTES: readonly Route[] = [
  fitRoute,
  searchRoute,
  windRoute,
  campgroundListRoute,
  campgroundRoute,
  importRoute,
  vocabularyRoute,
  limitsRoute,
  schemaListRoute,
  schemaRoute,
  openapiJsonRoute,
  openapiYamlRoute,
  docsRoute,
  healthRoute,
];
