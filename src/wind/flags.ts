/** What an answer about the wind rests on or leaves out, as words of the vocabulary with their sentences. */
import type { RoseFlag } from "./rose.ts";

export type WindFlag =
  | RoseFlag
  | "hazard"
  | "gust-estimated"
  | "direction-unknown"
  | "awning-side-unknown"
  | "class-assumed"
  | "class-unusual"
  | "shelter-uncertain";

/** One sentence for each flag. */
export const WIND_FLAG_TEXTS: Readonly<Record<WindFlag, string>> = {
  "among-trees": "The site stands among trees: its shelter is a guess, and limbs may fall.",
  "under-crown": "A tree's crown reaches over the site: limbs may fall.",
  "nothing-recorded": "The record holds neither shelter nor ground round the site; open land is assumed.",
  "leaf-season-unknown": "Trees are taken as out of leaf, because the season is not known.",
  hazard: "The forecast warns of a hazard.",
  "gust-estimated": "The forecast gives no gust; it is estimated from the mean wind.",
  "direction-unknown": "The wind's direction is not known; the worst of all directions is taken.",
  "awning-side-unknown": "Where the awning opens is not known; the wind is taken straight into it.",
  "class-assumed": "The awning's wind class is not known; class 1 is assumed.",
  "class-unusual": "Awnings with folding arms have classes 0 to 2; check the class in the awning's handbook.",
  "shelter-uncertain": "The shelter rests on a guess, so the level is not put below moderate.",
};

/** What the model leaves out; it belongs beside every answer about the wind. */
export const WIND_NOT_MODELLED: readonly string[] = [
  "speed-up over hills and ridges",
  "speed-up through gaps between buildings or trees",
  "downbursts and thunderstorm fronts that no forecast hour shows",
  "rain standing on the fabric",
  "a loose or untied awning",
];

/** The caution that belongs beside every answer about an awning. */
export const AWNING_CAUTION =
  "This is an estimate and no permission: the awning's own handbook goes first, and an open awning needs someone present and awake.";
