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
  type SiteProperties,
  siteProperties,
  type WireHookup,
  type WireObstacle,
} from "./schema/properties.ts";
