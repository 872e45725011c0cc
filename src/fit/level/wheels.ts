/** Where a rig stands on the ground: its wheels, and the jack or landing legs of a trailer. */
import type { LevelInput } from "./level.ts";

export interface Corner {
  readonly name: string;
  /** Rig frame, metres. */
  readonly fromRear: number;
  readonly left: number;
}

/** The classes that stand on an axle and a jack. */
const TRAILERS: readonly string[] = ["travel-trailer", "fifth-wheel", "folding-trailer"];

export function isTrailer(rigClass: string): boolean {
  return TRAILERS.includes(rigClass);
}

/**
 * Wheels at the sides of the body, which is the usual base for a block's height (track or body width); the axles of a
 * trailer count as one, at their middle, and its jack stands a wheelbase before them.
 */
export function supports(rig: LevelInput["rig"]): { readonly wheels: readonly Corner[]; readonly jack: Corner | null } {
  const half = rig.width.value / 2;
  const rear = rig.rearOverhang.value;
  const front = rear + rig.wheelbase.value;
  if (isTrailer(rig.class)) {
    return {
      wheels: [
        { name: "left wheels", fromRear: rear, left: half },
        { name: "right wheels", fromRear: rear, left: -half },
      ],
      jack: { name: "jack", fromRear: front, left: 0 },
    };
  }
  return {
    wheels: [
      { name: "rear left wheel", fromRear: rear, left: half },
      { name: "rear right wheel", fromRear: rear, left: -half },
      { name: "front left wheel", fromRear: front, left: half },
      { name: "front right wheel", fromRear: front, left: -half },
    ],
    jack: null,
  };
}
