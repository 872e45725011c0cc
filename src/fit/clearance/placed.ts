/** The rig as it stands: outlines of body, slides and awnings in the pad frame with the heights that they occupy. */
import type { CompletedRig } from "../../rig/completed.ts";
import { awningBox, slideBox } from "../parts.ts";
import { boxOutline } from "../stance/frame.ts";
import type { PadPoint, RigBox, Stance } from "../stance/problem.ts";

export interface PlacedPart {
  readonly id: string;
  readonly kind: "body" | "slide" | "awning";
  readonly box: RigBox;
  readonly outline: readonly PadPoint[];
  /** Heights above the ground, metres. */
  readonly from: number;
  readonly to: number;
}

export interface PlacedRig {
  readonly rig: CompletedRig;
  readonly stance: Stance;
  readonly length: number;
  readonly width: number;
  readonly body: PlacedPart;
  /** Slides that are open. */
  readonly slides: readonly PlacedPart[];
  /** Every awning as it would lie open. */
  readonly awnings: readonly PlacedPart[];
  /** Most that levelling lifts the body above its own ground, metres; 0 when it stands unlevelled or nobody knows. */
  readonly raised: number;
}

/**
 * Places a rig. `closedSlides` names slides that stay in. Heights of every part grow by `raised`.
 */
export function placeRig(
  rig: CompletedRig,
  stance: Stance,
  options: { readonly closedSlides?: readonly string[]; readonly raised?: number } = {},
): PlacedRig {
  const length = rig.length.value;
  const half = rig.width.value / 2;
  const raised = options.raised ?? 0;
  const closed = options.closedSlides ?? [];
  const part = (id: string, kind: PlacedPart["kind"], box: RigBox): PlacedPart => ({
    id,
    kind,
    box,
    outline: boxOutline(stance, length, box),
    from: box.from + raised,
    to: box.to + raised,
  });
  const body = { fromRearMin: 0, fromRearMax: length, leftMin: -half, leftMax: half };
  return {
    rig,
    stance,
    length,
    width: rig.width.value,
    body: { ...part("body", "body", { ...body, from: 0, to: rig.height.value }), from: 0 },
    slides: rig.slideouts
      .filter((slide) => !closed.includes(slide.id))
      .map((slide) => part(slide.id, "slide", slideBox(slide, rig))),
    awnings: rig.awnings.map((awning) => part(awning.id, "awning", awningBox(awning, rig))),
    raised,
  };
}

/** True when two ranges of height overlap. */
export function heightsMeet(
  first: { readonly from: number; readonly to: number },
  second: { readonly from: number; readonly to: number },
): boolean {
  return first.from < second.to && second.from < first.to;
}
