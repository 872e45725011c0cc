/** What is not known, in words for the one who can measure it: the campground for the site, the reader for the rig. */
import type { Fit, Unknown } from "../../fit/answer.ts";
import type { CompletedRig } from "../../rig/completed.ts";
import type { CompletedSite } from "../../site/completed.ts";

export interface Questions {
  readonly ofSite: readonly string[];
  readonly ofRig: readonly string[];
}

const SITE_THINGS = {
  power: "power pedestal",
  water: "water tap",
  fill: "filling tap",
  sewer: "sewer riser",
  cable: "cable post",
};
const RIG_THINGS = {
  power: "power inlet",
  water: "water inlet",
  fill: "tank fill",
  sewer: "sewer outlet",
  cable: "cable inlet",
};

/** "Measure the height above the ground (/site/…)" without its pointer and its order. */
function whatOf({ measure }: Unknown): string {
  const plain = measure
    .replace(/\s*\((\/[^)]*)\)\s*$/, "")
    .replace(/^Measure\s+/, "")
    .replace(/\.$/, "");
  return plain.startsWith("/") ? "its place" : plain;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

function sentence(unknown: Unknown, thing: string | null): string {
  const what = whatOf(unknown);
  return thing === null || what.includes(thing) ? capital(what) : `${capital(thing)}: ${what}`;
}

/** Each unknown once, those that decide most first, as the answer orders them. */
export function questionsOf(fit: Fit, site: CompletedSite, rig: CompletedRig): Questions {
  const ofSite: string[] = [];
  const ofRig: string[] = [];
  for (const unknown of fit.unknowns) {
    if (unknown.path.startsWith("/rig")) {
      const path = unknown.path.slice("/rig".length);
      const connection = rig.connections.find((one) => path === one.path || path.startsWith(`${one.path}/`));
      ofRig.push(sentence(unknown, connection === undefined ? null : RIG_THINGS[connection.service]));
    } else {
      const hookup = site.hookups.find((one) => unknown.path === one.path || unknown.path.startsWith(`${one.path}/`));
      ofSite.push(sentence(unknown, hookup === undefined ? null : SITE_THINGS[hookup.service]));
    }
  }
  return { ofSite: [...new Set(ofSite)], ofRig: [...new Set(ofRig)] };
}
