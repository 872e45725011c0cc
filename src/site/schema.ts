/** The campsite record: schemas of everything in a campground's file, and the JSON Schemas made from them. */
export {
  type Campground,
  campground,
  campgroundCollection,
  KINDS,
  type Kind,
  siteFeature,
} from "./schema/campground.ts";
export { hookup } from "./schema/hookup.ts";
export {
  type Pattern,
  pattern,
  type SiteProperties,
  siteProperties,
  type WireHookup,
  type WireMark,
  type WireMeasurement,
  type WireObstacle,
  type WirePad,
} from "./schema/properties.ts";
