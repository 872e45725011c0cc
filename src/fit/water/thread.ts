/** Whether a hose's coupling screws onto the site's outlet. */
import data from "../../../data/hose.json" with { type: "json" };

export interface ThreadMating {
  readonly mating: "direct" | "adapter" | "unknown";
  /** Item word of the kit that makes them mate; null when none is needed or nobody knows. */
  readonly adapter: "thread-adapter" | null;
  readonly why: string;
  readonly source: string;
}

function threadOf(word: string): (typeof data.threads)[number] | undefined {
  const plain = word.trim().toLowerCase();
  return data.threads.find((thread) => thread.aliases.includes(plain));
}

/**
 * Mating of the site's thread with the rig's (garden hose thread unless said otherwise). 1/2, 5/8 and 3/4 in hoses
 * share the one coupling.
 */
export function threadMating(siteThread: string | null, rigThread = "ght"): ThreadMating {
  const rig = threadOf(rigThread);
  const site = siteThread === null ? undefined : threadOf(siteThread);
  if (site === undefined || rig === undefined) {
    const what =
      siteThread === null
        ? "The thread of the site's outlet is not on record"
        : `The thread "${siteThread}" is not known here`;
    return {
      mating: "unknown",
      adapter: null,
      why: `${what}; look at the outlet or ask the host.`,
      source: "the records",
    };
  }
  if (site.id === rig.id) {
    return { mating: "direct", adapter: null, why: `Both sides have the ${site.name}.`, source: site.source };
  }
  return {
    mating: "adapter",
    adapter: "thread-adapter",
    why: `The outlet has a ${site.name}, the hose a ${rig.name}; they do not mate, so an adapter made for drinking water is needed.`,
    source: `${site.source} (${site.mark})`,
  };
}
