/** The campground records of a worker: filled in when it is bundled, from a folder of .geojson files. */
declare module "bundled-records" {
  const records: readonly { readonly name: string; readonly input: string }[];
  export default records;
}
