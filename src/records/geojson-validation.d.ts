declare module "geojson-validation" {
  const validation: {
    /** Complaints about a feature; an empty list or undefined when there are none. */
    isFeature(feature: unknown, trace: true): readonly string[] | undefined;
  };
  export default validation;
}
