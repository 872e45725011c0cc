/** What the rose of a fit depends on besides the map: the height of the rig's awnings and the days of the stay. */
import type { CompletedAwning, CompletedRig } from "../../rig/completed.ts";
import type { When } from "./when.ts";

/** Members are left out where nobody gave them: then the usual height and an unknown season stand in. */
export function roseQuery(
  rig: CompletedRig,
  when: When | null,
): { readonly height?: number; readonly days?: readonly [string, string] } {
  const heights = rig.awnings.filter(({ height }) => height.basis !== "assumed").map(middleOf);
  return {
    ...(heights.length === 0 ? {} : { height: Math.max(...heights) }),
    ...(when?.kind === "stay" ? { days: [when.from, when.to] } : {}),
  };
}

/** Middle of the open fabric above the ground, metres. */
function middleOf({ height, pitch, projection }: CompletedAwning): number {
  return height.value - (Math.sin(pitch.value) * projection.value) / 2;
}
