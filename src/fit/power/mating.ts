/**
 * Whether a rig's plug and a site's receptacle may be joined, from the facts of the two devices and the table of
 * listed adapters. No kit is looked at: what is refused here is refused whatever the rig carries.
 */
import { ADAPTERS, type CatalogueAdapter } from "./adapters.ts";
import { crossEntry, deviceOf, enters, type PowerDevice } from "./devices.ts";

export type MatingKind = "direct" | "adapter" | "adapter with caution" | "refused" | "unknown";

export type MatingReason =
  | "same-configuration"
  | "smaller-plug-enters"
  | "listed-adapter"
  | "listed-adapter-larger-breaker"
  | "voltage"
  | "no-ground"
  | "no-neutral"
  | "breaker-above-receptacle"
  | "adapter-not-permitted"
  | "cord-below-breaker"
  | "no-listed-adapter"
  | "plug-not-known"
  | "receptacle-not-known";

export interface AdapterMating {
  readonly adapter: CatalogueAdapter;
  /** Amperes and legs after the adapter. */
  readonly amps: number;
  readonly legs: number;
  /** True when the breaker before it is larger than the rig's own supply and the adapter has no breaker of its own. */
  readonly largerBreaker: boolean;
}

export interface Mating {
  readonly kind: MatingKind;
  readonly reason: MatingReason;
  readonly why: string;
  /** Adapters of the catalogue that join them, the usual one first. */
  readonly adapters: readonly AdapterMating[];
  /** Amperes per leg and legs with no adapter or the usual one; null when refused or unknown. */
  readonly amps: number | null;
  readonly legs: number | null;
}

function verdict(kind: "refused" | "unknown", reason: MatingReason, why: string): Mating {
  return { kind, reason, why, adapters: [], amps: null, legs: null };
}

/**
 * Joins a plug to a receptacle behind a breaker of `breaker` amperes (the receptacle's rating when null).
 * Rule of WAC 296-800-28010 and NEC 406.8: no device takes a plug of other volts or amperes, but for the entries of
 * data/receptacles.json.
 */
export function mate(plugId: string | null, receptacleId: string, breaker: number | null = null): Mating {
  const plug = plugId === null ? null : deviceOf(plugId);
  const receptacle = deviceOf(receptacleId);
  if (!plug) {
    const what = plugId === null ? "The rig's plug is not recorded." : `The plug "${plugId}" is not in the vocabulary.`;
    return verdict("unknown", "plug-not-known", `${what} Read the marking on the plug's face.`);
  }
  if (!receptacle) {
    return verdict(
      "unknown",
      "receptacle-not-known",
      `The receptacle "${receptacleId}" is not in the vocabulary. Read the marking on its face.`,
    );
  }
  return (
    refusalByFacts(plug, receptacle, breaker) ??
    direct(plug, receptacle, breaker) ??
    byAdapter(plug, receptacle, breaker)
  );
}

/** What no adapter mends: other volts, no ground, no neutral, a breaker too large for its own receptacle. */
function refusalByFacts(plug: PowerDevice, receptacle: PowerDevice, breaker: number | null): Mating | null {
  if (plug.system !== receptacle.system) {
    return verdict(
      "refused",
      "voltage",
      `The rig's plug is for ${plug.volts} V, ${plug.name}; the receptacle gives ${receptacle.volts} V, ` +
        `${receptacle.name}. The volts and the frequency differ, and no adapter changes them.`,
    );
  }
  for (const [device, what] of [
    [receptacle, "receptacle"],
    [plug, "plug"],
  ] as const) {
    if (!device.ground) {
      const across =
        device.hots > plug.hots ? `, and its two hots have ${plug.volts * device.hots} V between them` : "";
      return verdict("refused", "no-ground", `The ${what}, ${device.name}, has no equipment ground${across}.`);
    }
    if (!device.neutral) {
      return verdict(
        "refused",
        "no-neutral",
        `The ${what}, ${device.name}, has no neutral and ${device.volts} V across its hots: it cannot feed 120 V circuits.`,
      );
    }
  }
  if (breaker !== null && breaker > receptacle.amps) {
    return verdict(
      "refused",
      "breaker-above-receptacle",
      `The record gives a ${breaker} A breaker for a ${receptacle.amps} A receptacle. A breaker above the receptacle's ` +
        "rating does not protect it: a fault of the pedestal or of the record. Ask the host.",
    );
  }
  return null;
}

function direct(plug: PowerDevice, receptacle: PowerDevice, breaker: number | null): Mating | null {
  if (!enters(plug.id, receptacle.id)) return null;
  const entry = crossEntry(plug.id, receptacle.id);
  const amps = Math.min(plug.amps, breaker ?? receptacle.amps);
  return {
    kind: "direct",
    reason: entry ? "smaller-plug-enters" : "same-configuration",
    why: entry
      ? `The rig's plug, ${plug.name}, enters the receptacle, ${receptacle.name}: ${entry.why}.`
      : `The rig's plug and the receptacle are the same: ${receptacle.name}.`,
    adapters: [],
    amps,
    legs: Math.min(plug.hots, receptacle.hots),
  };
}

function byAdapter(plug: PowerDevice, receptacle: PowerDevice, breaker: number | null): Mating {
  const bar = receptacle.adapterBar;
  if (bar) {
    return verdict(
      "refused",
      "adapter-not-permitted",
      `The rig's plug, ${plug.name}, does not enter the receptacle, ${receptacle.name}, and ${bar.why} (${bar.source}).`,
    );
  }
  const serving = ADAPTERS.flatMap((adapter) => serve(adapter, plug, receptacle, breaker) ?? []);
  const usual = serving[0];
  const supply = breaker ?? receptacle.amps;
  if (!usual) {
    return plug.amps < supply
      ? verdict(
          "refused",
          "cord-below-breaker",
          `A cord with the plug ${plug.name} is rated ${plug.amps} A and would stand behind a ${supply} A breaker, ` +
            "and no listed one-piece adapter limits it: the cord can overheat before the breaker trips.",
        )
      : verdict(
          "refused",
          "no-listed-adapter",
          `No listed one-piece adapter joins the plug ${plug.name} to the receptacle ${receptacle.name}.`,
        );
  }
  return {
    kind: usual.largerBreaker || usual.adapter.withCaution ? "adapter with caution" : "adapter",
    reason: usual.largerBreaker ? "listed-adapter-larger-breaker" : "listed-adapter",
    why: adapterSentence(plug, receptacle, usual, supply),
    adapters: serving,
    amps: usual.amps,
    legs: usual.legs,
  };
}

/** The mating through one adapter, or null when it does not join these two or leaves the cord unprotected. */
function serve(
  adapter: CatalogueAdapter,
  plug: PowerDevice,
  receptacle: PowerDevice,
  breaker: number | null,
): AdapterMating | null {
  const inlet = deviceOf(adapter.plug);
  const outlet = deviceOf(adapter.receptacle);
  if (!inlet || !outlet || !enters(inlet.id, receptacle.id) || !enters(plug.id, outlet.id)) return null;
  const entering = Math.min(breaker ?? receptacle.amps, inlet.amps);
  const protectedAt = Math.min(entering, adapter.ownBreaker ?? entering);
  const largerBreaker = Math.min(adapter.rating, plug.amps) < protectedAt;
  // Behind a larger breaker only a listed adapter of the rig's own full rating, made for the rig's own plug, may stand.
  if (largerBreaker && !(adapter.largerBreaker && adapter.rating >= plug.amps && outlet.id === plug.id)) return null;
  return {
    adapter,
    amps: Math.min(protectedAt, adapter.rating, plug.amps),
    legs: Math.min(plug.hots, outlet.hots, inlet.hots, receptacle.hots),
    largerBreaker,
  };
}

function adapterSentence(plug: PowerDevice, receptacle: PowerDevice, usual: AdapterMating, supply: number): string {
  const shared =
    plug.hots > usual.legs
      ? ` Both legs of the rig's panel share one hot, so appliances that need both do not run.`
      : "";
  const larger = usual.largerBreaker
    ? ` The ${supply} A breaker is larger than the rig's ${plug.amps} A: the rig's main breaker protects its panel, not the cord.`
    : "";
  const legs = usual.legs > 1 ? " a leg" : "";
  return (
    `The rig's plug, ${plug.name}, does not enter the receptacle, ${receptacle.name}; a ${usual.adapter.description} ` +
    `joins them and gives ${usual.amps} A${legs}.${shared}${larger}`
  );
}
