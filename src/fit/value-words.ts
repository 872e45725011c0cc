/** Names for a person of the values that a JSON Pointer stands for: what to take the tape to. */

/** What stands before the last member, by the member that holds it. */
const OWNERS: readonly (readonly [RegExp, (number: string) => string])[] = [
  [/\/connections\/(\d+)/, (number) => `the rig's connection ${number}`],
  [/\/hookups\/(\d+)/, (number) => `the site's hookup ${number}`],
  [/\/slideouts\/(\d+)/, (number) => `slide ${number}`],
  [/\/awnings\/(\d+)|\/awning\b()/, () => "the awning"],
  [/\/doors\/(\d+)/, (number) => `door ${number}`],
  [/\/hotOutlets\/(\d+)/, (number) => `hot outlet ${number}`],
  [/\/obstacles\/(\d+)/, (number) => `the site's obstacle ${number}`],
  [/\/features\/(\d+)/, (number) => `feature ${number} of the campground's record`],
  [/\/pad\b()/, () => "the pad"],
  [/\/stop\b()/, () => "the wheel stop"],
  [/\/limits\b()/, () => "the site's limit"],
  [/\/access\b()/, () => "the way in"],
  [/\/towing\b()/, () => "what is towed"],
];

const VALUES: Readonly<Record<string, string>> = {
  along: "the place of {} along the pad, from its rear edge",
  left: "the place of {} sideways from the pad's middle line",
  height: "the height of {} above the ground",
  fromRear: "the distance of {} from the rear bumper",
  length: "the length of {}",
  workingLength: "the length of {}",
  line: "the line of {}",
  cord: "the length of the power cord",
  sewerHose: "the length of the drain hose",
  waterHose: "the length of the water hose",
  width: "the width of {}",
  depth: "the depth of {}",
  projection: "the projection of {}",
  bottom: "the lower edge of {}",
  top: "the upper edge of {}",
  grade: "the slope of {} along it",
  crossfall: "the slope of {} across it",
  overhangRear: "how far a rear end may hang over {}",
  clearBehind: "the clear strip behind {}",
  wheelbase: "the wheelbase of {}",
  rearOverhang: "the rear overhang of {}",
  groundClearance: "the ground clearance of {}",
  roadWidth: "the width of the road on {}",
  clearHeight: "the clear height on {}",
  to: "the upper edge of {}",
  from: "the lower edge of {}",
};

/** A hookup or connection by the service that it gives, where its number alone would not tell. */
export interface NamedPlace {
  /** JSON Pointer as estimates carry it. */
  readonly path: string;
  readonly service: string;
}

/**
 * "the height of the rig's power connection above the ground" for a pointer; of a value that has no such words its
 * pointer in brackets. `places` name connections and hookups by their service.
 */
export function valueWords(path: string, places: readonly NamedPlace[] = []): string {
  const last = path.slice(path.lastIndexOf("/") + 1);
  const words = VALUES[last];
  const owner = ownerOf(path, places);
  return words === undefined ? `what ${owner} says (${path})` : words.replace("{}", owner);
}

function ownerOf(path: string, places: readonly NamedPlace[]): string {
  const named = places.find((place) => path.includes(`${place.path}/`));
  if (named !== undefined) {
    // A rig's short form names a connection by its line alone: only a site has hookups.
    return path.includes("/hookups/") ? `the site's ${named.service} hookup` : `the rig's ${named.service} connection`;
  }
  for (const [pattern, words] of OWNERS) {
    const found = pattern.exec(path);
    if (found !== null) return words(String(Number(found[1] || 0) + 1));
  }
  return path.startsWith("/site") ? "the site" : "the rig";
}
