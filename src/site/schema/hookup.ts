/** A hookup of a site: where it stands, how well that is known, and what it gives. */
import { z } from "zod";
import { current, length, lengthOrRange, pressure, voltage } from "../quantities.ts";
import { day, id, position, provenance, side, text, third, word, yesNo } from "./parts.ts";

const LONGEST_SIDE = 1000;
const HIGHEST = 20;
const WIDEST_BODY = 10;
const WIDEST_PIPE = 1;
const MOST_AMPERES = 1000;
const MOST_VOLTS = 1000;
const MOST_PASCALS = 1e8;
const MOST_RECEPTACLES = 24;

export const receptacle = z.looseObject({
  id: id.optional(),
  type: word.meta({ description: "Receptacle id of the vocabulary, for instance nema-14-50; another word is kept." }),
  amps: current({ min: 0, max: MOST_AMPERES })
    .meta({ description: "Rating of the breaker that feeds it, amperes; missing is the receptacle's own rating." })
    .optional(),
  volts: voltage({ min: 0, max: MOST_VOLTS }).meta({ description: "Nominal volts as recorded." }).optional(),
  state: z.enum(["working", "failed", "taken", "unknown"]).optional(),
  checkedAt: day.meta({ description: "When it was last tried." }).optional(),
  forSites: z.array(id).meta({ description: "Ids of the sites this receptacle is allotted to." }).optional(),
});

const distance = lengthOrRange({ min: -LONGEST_SIDE, max: LONGEST_SIDE });
const height = lengthOrRange({ min: -HIGHEST, max: HIGHEST });

/** In the pad frame, each a length or [low, high]; or on the earth. */
export const hookupPlace = z.looseObject({
  along: distance.meta({ description: "Metres from the pad's rear edge towards the exit, or [low, high]." }).optional(),
  left: distance.meta({ description: "Metres left of the pad's axis (right is negative), or [low, high]." }).optional(),
  position: position.optional(),
  height: height.meta({ description: "Metres above its ground, or [low, high]." }).optional(),
});

export const hookup = z.looseObject({
  id: id.optional(),
  service: z.enum(["power", "water", "fill", "sewer", "cable"]),
  at: hookupPlace.optional(),
  place: z
    .looseObject({ side: side.optional(), third: third.optional() })
    .meta({ description: "The place in words, when nobody measured it; gives a region, never a point." })
    .optional(),
  height: height
    .meta({ description: "Height of the receptacle, outlet or sewer rim above its ground, metres or [low, high]." })
    .optional(),
  ...provenance,
  body: z
    .looseObject({
      width: length({ min: 0, max: WIDEST_BODY }),
      depth: length({ min: 0, max: WIDEST_BODY }),
      height: length({ min: 0, max: HIGHEST }),
    })
    .meta({ description: "Its solid body: width along the pad, depth across it, height, metres." })
    .optional(),
  receptacles: z.array(receptacle).max(MOST_RECEPTACLES).optional(),
  pedestal: id.meta({ description: "Id of the pedestal that several hookups share." }).optional(),
  shared: z.boolean().meta({ description: "True when more than one site uses it." }).optional(),
  diameter: length({ min: 0, max: WIDEST_PIPE })
    .meta({ description: "Inside diameter of the sewer inlet." })
    .optional(),
  threaded: yesNo.meta({ description: "Whether the sewer inlet takes a threaded fitting." }).optional(),
  thread: word.meta({ description: "Thread of the water outlet, for instance ght-3-4 or bsp-3-4." }).optional(),
  pressure: pressure({ min: 0, max: MOST_PASCALS }).meta({ description: "Static water pressure, pascals." }).optional(),
  drinkable: yesNo.optional(),
  seasonal: text.meta({ description: "When it is shut, in words." }).optional(),
});
