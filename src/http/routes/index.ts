/** Every route of the application, in the order in which the description lists them. */
import type { Route } from "../route.ts";
import { healthRoute, limitsRoute, vocabularyRoute } from "./about.ts";
import { campgroundListRoute, campgroundRoute } from "./campgrounds.ts";
import { docsRoute, openapiJsonRoute, openapiYamlRoute, schemaListRoute, schemaRoute } from "./description.ts";
import { fitRoute } from "./fit.ts";
import { searchRoute } from "./search.ts";

export const ROUTES: readonly Route[] = [
  fitRoute,
  searchRoute,
  campgroundListRoute,
  campgroundRoute,
  vocabularyRoute,
  limitsRoute,
  schemaListRoute,
  schemaRoute,
  openapiJsonRoute,
  openapiYamlRoute,
  docsRoute,
  healthRoute,
];
