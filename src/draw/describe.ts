/** The plan in words, for those who do not see it. Says what the drawing says, in the same numbers. */
import type { Fit } from "../fit/answer.ts";
import { stopName } from "./ground.ts";
import { lengthText, type UnitSystem } from "./lengths.ts";
import { lineSentence } from "./lines.ts";
import { stanceText, windowText } from "./measures.ts";
import { SERVICE_STYLES } from "./style.ts";
import { cleanText } from "./svg.ts";

export function planTitle(fit: Fit): string {
  const rig = cleanText(fit.rig.name ?? "") || "the rig";
  const campground = cleanText(fit.site.campgroundName ?? fit.site.campground ?? "");
  const site = cleanText(fit.site.name) || cleanText(fit.site.id);
  return `Plan of ${rig} on site ${site}${campground === "" ? "" : `, ${campground}`}: ${fit.verdict}`;
}

/** How the rig stands, in a few words. */
export function stanceLine(fit: Fit, units: UnitSystem): string {
  if (!fit.stance) {
    return "The rig is not placed.";
  }
  const way = fit.stance.facing === "out" ? "Nose to the exit" : "Nose to the rear edge";
  return `${way}; ${stanceText(fit.stance, units)}.`;
}

export function planDescription(fit: Fit, units: UnitSystem): string {
  const { pad, stop, rig, hookups, obstacles } = fit.scene;
  const sentences = [
    `Seen from above, to scale. ${cleanText(fit.headline)}`,
    pad
      ? `The pad is ${lengthText(pad.length, units)} long and ${lengthText(pad.width, units)} wide.`
      : "The pad's size and heading are not recorded.",
    stanceLine(fit, units),
  ];
  if (stop) {
    sentences.push(`A ${stopName(stop)} lies ${lengthText(stop.along, units)} from the rear edge.`);
  }
  if (fit.window) {
    sentences.push(`To park: ${windowText(fit.window, fit.stance, units)}.`);
  }
  for (const line of fit.lines.filter((each) => each.verdict !== "not needed")) {
    const side =
      line.side && line.route ? `, from the rig's ${line.side} side, ${line.route.replace("-", " the ")}` : "";
    sentences.push(`${lineSentence(line, units)}${side}.`);
  }
  for (const hookup of hookups) {
    const left = hookup.at.left;
    const side = left < 0 ? "right" : "left";
    if (Number.isFinite(left) && Number.isFinite(hookup.at.along)) {
      sentences.push(
        `${SERVICE_STYLES[hookup.service].name} hookup ${lengthText(hookup.at.along, units)} from the rear edge, ` +
          `${lengthText(Math.abs(left), units)} ${side} of the middle${hookup.region ? ", place only described" : ""}.`,
      );
    }
  }
  for (const awning of rig && fit.stance ? rig.awnings : []) {
    sentences.push(awning.open ? "The awning is open." : "The awning is in.");
  }
  if (obstacles.length > 0) {
    sentences.push(`Also there: ${obstacles.map((obstacle) => cleanText(obstacle.what)).join(", ")}.`);
  }
  return sentences.join(" ");
}
