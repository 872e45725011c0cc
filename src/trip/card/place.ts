/** Where to stop, for the one who drives: the window, the sideways tolerance and a landmark. */
import type { Fit, Scene } from "../../fit/answer.ts";
import type { Service } from "../../rig/completed.ts";
import { RADIANS_PER_DEGREE } from "../../units/factors.ts";
import type { CardNote } from "./card.ts";
import { amount, type Speaker, text, type Values } from "./messages.ts";
import { capital } from "./names.ts";
import { ownNote } from "./told.ts";

/** Steps to which an "about" is rounded, metres: three inches, or a tenth of a metre. */
const ABOUT_STEP = { us: 0.0762, metric: 0.1 } as const;
/** Nearer to the middle line than this is on it, metres. */
const ON_LINE = 0.05;
/** A landmark whose place is known worse than this is none, metres (standard deviation). */
const SHARP = 0.3;
/** Turned by less than this is straight. */
const STRAIGHT = RADIANS_PER_DEGREE / 2;

const LANDMARKS: readonly Service[] = ["power", "water", "sewer", "cable"];

/** Name of the end of the rig that is nearer to the pad's rear edge. */
const endName = (facing: "out" | "in", speaker: Speaker): string =>
  speaker.say(facing === "out" ? "end.rear" : "end.front");

const sideName = (left: number, speaker: Speaker): string => speaker.say(left < 0 ? "side.right" : "side.left");

/** A length rounded to what one can judge by eye. */
function about(metres: number, units: Fit["units"]) {
  const step = ABOUT_STEP[units];
  return amount("length", Math.max(1, Math.round(metres / step)) * step);
}

/** How far from the pad's rear edge; both ends of the window are rounded inwards. */
function alongWords({ stance, window, units }: Fit, speaker: Speaker): string[] {
  if (stance === null) return [];
  const values: Values = { end: text(capital(endName(stance.facing, speaker))), best: amount("length", stance.along) };
  if (window === null) return [speaker.say("stop.along-unknown", values)];
  const { from, to } = window.along;
  if (to - from < ABOUT_STEP[units]) return [speaker.say("stop.along-exact", values)];
  const end = amount("length", to, "down");
  return from < 0
    ? [speaker.say("stop.along-behind", { ...values, from: amount("length", -from, "down"), to: end })]
    : [speaker.say("stop.along", { ...values, from: amount("length", from, "up"), to: end })];
}

function acrossWords({ stance, window }: Fit, speaker: Speaker): string[] {
  if (stance === null) return [];
  const place =
    Math.abs(stance.left) < ON_LINE
      ? speaker.say("stop.middle")
      : speaker.say("stop.off-middle", {
          distance: amount("length", Math.abs(stance.left)),
          side: text(sideName(stance.left, speaker)),
        });
  if (window === null) return [place];
  const { from, to } = window.left;
  const sideways = { left: amount("length", to, "down"), right: amount("length", -from, "down") };
  return [`${place} ${speaker.say("stop.sideways", sideways)}`];
}

/** True when the rig comes in towards the rear edge: backing in, or nose first. */
const comesToRear = (fit: Fit): boolean =>
  fit.stance?.facing === "in" || fit.cautions.some((caution) => caution.id === "reversing-spotter");

function landmarkOf(hookups: Scene["hookups"]) {
  for (const service of LANDMARKS) {
    const found = hookups.find((one) => one.service === service && one.region === null && one.sigma <= SHARP);
    if (found !== undefined && Number.isFinite(found.at.along)) return { at: found.at, service };
  }
  return null;
}

/** "Pedestal on the pad's left: rear bumper about 2 ft past it." None when no landmark is known sharply. */
function landmarkWords(fit: Fit, speaker: Speaker): string[] {
  const { stance, scene, units } = fit;
  const found = landmarkOf(scene.hookups);
  if (stance === null || found === null) return [];
  const ahead = found.at.along - stance.along;
  const values = {
    landmark: text(speaker.say(`landmark.${found.service}`)),
    side: text(sideName(found.at.left, speaker)),
    end: text(endName(stance.facing, speaker)),
  };
  if (Math.abs(ahead) < ABOUT_STEP[units]) return [speaker.say("stop.beside", values)];
  const past = comesToRear(fit) ? ahead > 0 : ahead < 0;
  return [speaker.say(past ? "stop.past" : "stop.short", { ...values, distance: about(Math.abs(ahead), units) })];
}

function facingWords({ stance }: Fit, speaker: Speaker): string[] {
  if (stance === null) return [];
  const nose = speaker.say(stance.facing === "out" ? "stop.facing-out" : "stop.facing-in");
  if (Math.abs(stance.yaw) < STRAIGHT) return [nose];
  const turned = speaker.say(stance.yaw > 0 ? "stop.turned-left" : "stop.turned-right", {
    angle: amount("degrees", Math.abs(stance.yaw)),
  });
  return [`${nose} ${turned}`];
}

/** The sentences that say where to stop; none without a stance. */
export function whereToStop(fit: Fit, speaker: Speaker): CardNote[] {
  if (fit.stance === null) return [];
  const noted = (id: string, words: readonly string[]) => words.map((one) => ownNote(id, one));
  return [
    ...noted("facing", facingWords(fit, speaker)),
    ...noted("along", alongWords(fit, speaker)),
    ...noted("landmark", landmarkWords(fit, speaker)),
    ...noted("across", acrossWords(fit, speaker)),
    ownNote("whose", speaker.say("stop.whose")),
  ];
}
