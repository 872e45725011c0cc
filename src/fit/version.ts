/** Version of the rules and formulas behind an answer; raised whenever the same request may answer differently. */
export const ENGINE_VERSION = "0.1.0";
