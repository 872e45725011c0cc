/** Sentences of an answer without the pointers into records that they may carry: on paper nobody can follow one. */

/** What a pointer's last part is called. */
const NAMES: Readonly<Record<string, string>> = {
  position: "the place of the hookup",
  along: "the distance from the pad's rear edge",
  left: "the distance from the pad's middle line",
  height: "the height above the ground",
  fromRear: "the distance from the rig's rear",
  services: "which services there are",
};

function nameOf(pointer: string): string {
  const last = pointer.slice(pointer.lastIndexOf("/") + 1);
  return NAMES[last] ?? last.replace(/([A-Z])/g, " $1").toLowerCase();
}

export function plainWords(text: string): string {
  return text
    .replace(/\s*\(\/[^)]*\)/g, "")
    .replace(/\/(?:site|rig|campground)(?:\/[\w.~-]*[\w~-])+/g, nameOf)
    .replace(/^Measure position$/, `Measure ${NAMES["position"]}`);
}
