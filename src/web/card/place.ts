/** Where to stop, in words for the one who drives: the window, the sideways tolerance and a landmark. */
import type { Fit, Scene } from "../../fit/answer.ts";
import type { Service } from "../../rig/completed.ts";
import { RADIANS_PER_DEGREE } from "../../units/factors.ts";
import { formatDegrees, formatLength } from "../../units/print.ts";

/** Steps to which an "about" is rounded, metres: three inches, or a tenth of a metre. */
const ABOUT_STEP = { us: 0.0762, metric: 0.1 } as const;
/** Nearer to the middle line than this is on it, metres. */
const ON_LINE = 0.05;
/** A landmark whose place is known worse than this is none, metres (standard deviation). */
const SHARP = 0.3;
/** Turned by less than this is straight. */
const STRAIGHT = RADIANS_PER_DEGREE / 2;

const LANDMARKS: readonly { readonly service: Service; readonly name: string }[] = [
  { service: "power", name: "pedestal" },
  { service: "water", name: "tap" },
  { service: "sewer", name: "sewer riser" },
  { service: "cable", name: "television post" },
];

type Units = Fit["units"];

/** The end of the rig that is nearer to the pad's rear edge. */
export const nearerEnd = (facing: "out" | "in"): string => (facing === "out" ? "rear bumper" : "front bumper");

function about(metres: number, units: Units): string {
  const step = ABOUT_STEP[units];
  return formatLength(Math.max(1, Math.round(metres / step)) * step, units);
}

/** "between 1 ft 4 in and 6 ft from the pad's rear edge"; both ends are rounded inwards. */
function rangeWords(from: number, to: number, units: Units): string {
  const end = formatLength(to, units, { round: "down" });
  if (from < 0)
    return `from ${formatLength(-from, units, { round: "down" })} behind the pad's rear edge to ${end} before it`;
  return `between ${formatLength(from, units, { round: "up" })} and ${end} from the pad's rear edge`;
}

function alongWords(fit: Fit): string {
  const { stance, window, units } = fit;
  if (stance === null) return "";
  const end = `The ${nearerEnd(stance.facing)}`;
  const best = formatLength(stance.along, units);
  if (window === null)
    return `${end} ${best} from the pad's rear edge. How far off still works is not known: try every line before you settle.`;
  const { from, to } = window.along;
  const least = ABOUT_STEP[units];
  if (to - from < least) return `${end} exactly ${best} from the pad's rear edge: there is no room to be off.`;
  return `${end} anywhere ${rangeWords(from, to, units)}. Best: ${best}.`;
}

function acrossWords(fit: Fit): string {
  const { stance, window, units } = fit;
  if (stance === null) return "";
  const side = stance.left > 0 ? "left" : "right";
  const place =
    Math.abs(stance.left) < ON_LINE
      ? "The rig's middle on the pad's middle line"
      : `The rig's middle ${formatLength(Math.abs(stance.left), units)} to the ${side} of the pad's middle line`;
  if (window === null) return `${place}.`;
  const toLeft = formatLength(window.left.to, units, { round: "down" });
  const toRight = formatLength(-window.left.from, units, { round: "down" });
  return `${place}; at most ${toLeft} more to the left or ${toRight} more to the right.`;
}

/** True when the rig comes in towards the rear edge: backing in, or nose first. */
function comesToRear(fit: Fit): boolean {
  return fit.stance?.facing === "in" || fit.cautions.some((caution) => caution.id === "reversing-spotter");
}

function landmarkOf(hookups: Scene["hookups"]) {
  for (const { service, name } of LANDMARKS) {
    const found = hookups.find((one) => one.service === service && one.region === null && one.sigma <= SHARP);
    if (found !== undefined && Number.isFinite(found.at.along)) return { at: found.at, name };
  }
  return null;
}

/** "By the pedestal on the pad's left: the rear bumper about 2 ft past it." Null when no landmark is known sharply. */
export function landmarkWords(fit: Fit): string | null {
  const { stance, scene, units } = fit;
  const landmark = landmarkOf(scene.hookups);
  if (stance === null || landmark === null) return null;
  const ahead = landmark.at.along - stance.along;
  const side = landmark.at.left < 0 ? "right" : "left";
  const end = nearerEnd(stance.facing);
  const lead = `By the ${landmark.name} on the pad's ${side}: the ${end}`;
  if (Math.abs(ahead) < ABOUT_STEP[units]) return `${lead} level with it.`;
  const past = comesToRear(fit) ? ahead > 0 : ahead < 0;
  return `${lead} about ${about(Math.abs(ahead), units)} ${past ? "past" : "short of"} it.`;
}

/** The sentences that say where to stop; none without a stance. */
export function whereToStop(fit: Fit): string[] {
  const { stance } = fit;
  if (stance === null) return [];
  const nose = stance.facing === "out" ? "Nose towards the exit." : "Nose towards the pad's rear edge.";
  const turned =
    Math.abs(stance.yaw) < STRAIGHT
      ? ""
      : ` Turned ${formatDegrees(Math.abs(stance.yaw))} with the nose to the ${stance.yaw > 0 ? "left" : "right"}.`;
  const landmark = landmarkWords(fit);
  return [
    `${nose}${turned}`,
    alongWords(fit),
    ...(landmark === null ? [] : [landmark]),
    acrossWords(fit),
    "Left and right are those of someone at the pad's rear edge who looks to its exit.",
  ];
}
