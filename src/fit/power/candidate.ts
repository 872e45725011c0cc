/** One receptacle of the site, solved: every way in which the rig may be joined to it, or why it may not. */

import { cautionsOf, positiveCautions } from "./cautions.ts";
import {
  type AdapterChoice,
  adapterChoices,
  assemble,
  cordOf,
  cordRefusal,
  type ExtensionChoice,
  extensionChoices,
  extensionWords,
  protectorAboard,
} from "./chain.ts";

import { deviceOf, nearFit, type PowerDevice } from "./devices.ts";
import { lineDrop } from "./drop.ts";
import type { LoadAnswer, LoadSupply } from "./load.ts";
import { mate } from "./mating.ts";
import { offerOf } from "./offer.ts";
import type {
  NeededItem,
  OfferedReceptacle,
  PowerCandidate,
  PowerInput,
  PowerReason,
  PowerUnknown,
} from "./problem.ts";
import { assumptions, cautionIds, connectionPath, type Ground, type Joint, unknownsOf } from "./remarks.ts";
import { type Supply, supplyOf, supplySentence } from "./supply.ts";

/** Solves one receptacle: one candidate when it cannot be used, else one per extension that may be laid, none first. */
export function candidatesOf(
  input: PowerInput,
  offered: OfferedReceptacle,
  loadOf: (supply: LoadSupply) => LoadAnswer,
): readonly PowerCandidate[] {
  const offer = offerOf(offered, input.siteId, input.electricalSystem);
  const mating = mate(input.plug, offered.receptacle.type, offer.breaker);
  const ground: Ground = { input, offered, offer, mating, loadOf };
  const plug = input.plug === null ? null : deviceOf(input.plug);
  const receptacle = deviceOf(offered.receptacle.type);
  if (mating.kind === "refused") return [barred(ground, "refused", mating.reason, mating.why)];
  if (offer.bar) return [barred(ground, offer.bar.kind, offer.bar.reason, offer.bar.why)];
  if (mating.kind === "unknown" || !plug || !receptacle || mating.amps === null) {
    return [barred(ground, "unknown", mating.reason, mating.why)];
  }
  return joined(ground, plug, receptacle, mating.amps);
}

function joined(
  ground: Ground,
  plug: PowerDevice,
  receptacle: PowerDevice,
  directAmps: number,
): readonly PowerCandidate[] {
  const { input, mating } = ground;
  const larger = largerBreakerBar(ground, plug, receptacle);
  if (larger) return [barred(ground, "refused", larger.reason, larger.why)];
  const choices = mating.kind === "direct" ? [] : adapterChoices(mating, input.kit);
  const permitted = choices.filter((choice) => input.kitPolicy === "any" || choice.where === "aboard");
  const adapter = permitted[0] ?? null;
  const needsAdapter = mating.kind !== "direct";
  const shown = adapter ?? choices[0] ?? null;
  const required = shown?.amps ?? directAmps;
  const cord = cordOf(input, plug);
  const refusal = cord ? cordRefusal(input, plug, cord, required) : null;
  if (refusal) return [barred(ground, "refused", refusal.reason, `${mating.why} ${refusal.why}`)];
  const usable = !needsAdapter || adapter !== null;
  const extensions: (ExtensionChoice | null)[] = usable ? [null, ...extensionChoices(input, plug, required)] : [null];
  return extensions.map((extension) =>
    solved(ground, { plug, receptacle, adapter: shown, required, cord, extension, usable }),
  );
}

/** A rule of the place or of the caller against a rig smaller than the breaker. */
function largerBreakerBar(
  ground: Ground,
  plug: PowerDevice,
  receptacle: PowerDevice,
): { readonly reason: PowerReason; readonly why: string } | null {
  const { input, mating, offer } = ground;
  if (mating.reason !== "listed-adapter-larger-breaker") return null;
  const breaker = offer.breaker ?? receptacle.amps;
  const sizes = `a ${plug.amps} A rig on a ${breaker} A breaker`;
  if (input.rules.largerBreaker === false) {
    return { reason: "larger-breaker-rule", why: `The campground does not allow ${sizes}, even by a listed adapter.` };
  }
  if (input.policy.largerBreaker === "refuse") {
    return { reason: "larger-breaker-policy", why: `The request refuses ${sizes}, even by a listed adapter.` };
  }
  return null;
}

function solved(ground: Ground, joint: Joint): PowerCandidate {
  const { input, offered, offer, mating } = ground;
  const { plug, receptacle, adapter, cord, extension } = joint;
  const protector = protectorAboard(input.kit, plug, joint.required);
  const chain = assemble({ plug, adapter, protector, extension, cord, units: input.units });
  const entering = adapter ? (deviceOf(adapter.mating.adapter.plug) ?? plug) : plug;
  const supply = supplyOf({
    plug,
    receptacle,
    entering,
    breaker: offer.breaker ?? receptacle.amps,
    legs: adapter?.mating.legs ?? mating.legs ?? Math.min(plug.hots, receptacle.hots),
    matedAmps: joint.required,
    links: chain.links,
    electricalSystem: input.electricalSystem,
    recordedVolts: offered.receptacle.volts,
  });
  const drop = cord
    ? lineDrop({ segments: chain.segments, amps: supply.continuousAmps, legs: supply.legs, family: receptacle.system })
    : null;
  const items = neededItems(input, plug, adapter, extension);
  const careful = adapter !== null && (adapter.mating.largerBreaker || adapter.mating.adapter.withCaution);
  const kind = adapter === null ? mating.kind : careful || extension ? "adapter with caution" : "adapter";
  return {
    ...shell(ground),
    mating: kind,
    usable: joint.usable,
    reasonCode: joint.usable ? mating.reason : "kit-not-aboard",
    why: sentence(ground, joint, supply, items),
    chain: chain.links,
    addedLength: chain.addedLength,
    totalLength: cord ? cord.length.value + chain.addedLength : null,
    items,
    amps: supply.amps,
    legs: supply.legs,
    voltsToNeutral: supply.voltsToNeutral,
    voltsLegToLeg: supply.voltsLegToLeg,
    voltAmperes: supply.voltAmperes,
    continuousAmps: supply.continuousAmps,
    continuousVoltAmperes: supply.continuousVoltAmperes,
    bothLegLoads: supply.legs > 1,
    weakestLink: supply.weakestLink,
    ownRating: supply.amps >= plug.amps && supply.legs >= plug.hots,
    drop,
    load: ground.loadOf(supply),
    cautions: positiveCautions(cautionIds(ground, joint, supply)),
    assumed: assumptions(ground, joint),
    unknowns: unknownsOf(ground, joint, supply, drop),
  };
}

/** What a candidate says however it turns out; everything computed is null. */
function shell(ground: Ground): PowerCandidate {
  const { offered, offer, mating } = ground;
  return {
    hookup: offered.hookup,
    receptacle: offered.receptacle.id,
    receptacleType: offered.receptacle.type,
    mating: mating.kind,
    usable: false,
    reasonCode: mating.reason,
    why: mating.why,
    chain: [],
    addedLength: 0,
    totalLength: null,
    items: [],
    amps: null,
    legs: null,
    voltsToNeutral: null,
    voltsLegToLeg: null,
    voltAmperes: null,
    continuousAmps: null,
    continuousVoltAmperes: null,
    bothLegLoads: null,
    weakestLink: null,
    ownRating: false,
    drop: null,
    load: null,
    cautions: [],
    contested: offer.contested,
    stateKnown: offer.stateKnown,
    assumed: [],
    unknowns: [],
  };
}

function barred(ground: Ground, kind: "refused" | "unknown", reason: PowerReason, why: string): PowerCandidate {
  const unknowns: PowerUnknown[] = [];
  const path = ground.offered.receptacle.path;
  if (reason === "plug-not-known") {
    unknowns.push({
      path: connectionPath(ground.input, "plug"),
      measure: "Read the marking on the face of the rig's plug.",
    });
  }
  if (reason === "receptacle-not-known") {
    unknowns.push({ path: `${path}/type`, measure: "Read the marking on the face of the receptacle." });
  }
  if (reason === "voltage-contradiction") {
    unknowns.push({ path, measure: "Ask the host what the receptacle gives, and measure its volts." });
  }
  const cautions = nearFit(ground.input.plug ?? "", ground.offered.receptacle.type) ? cautionsOf(["near-fit"]) : [];
  return { ...shell(ground), mating: kind, reasonCode: reason, why, cautions, unknowns };
}

function neededItems(
  input: PowerInput,
  plug: PowerDevice,
  adapter: AdapterChoice | null,
  extension: ExtensionChoice | null,
): readonly NeededItem[] {
  const items: NeededItem[] = [];
  if (adapter) {
    const { description } = adapter.mating.adapter;
    const withoutIt = "The rig's plug does not enter this receptacle.";
    items.push({ item: "adapter", description, where: adapter.where, withoutIt, path: adapter.path });
  }
  if (extension) {
    const description = extensionWords(extension, plug, input.units);
    const withoutIt = "The line has only the cord's own length.";
    items.push({ item: "extension", description, where: extension.where, withoutIt, path: extension.path });
  }
  return items;
}

function sentence(ground: Ground, joint: Joint, supply: Supply, items: readonly NeededItem[]): string {
  const { mating, offer } = ground;
  const parts = [joint.adapter && joint.adapter.mating !== mating.adapters[0] ? kitSentence(joint) : mating.why];
  parts.push(supplySentence(supply));
  for (const item of items) {
    const place = item.where === "aboard" ? "is aboard" : item.where === "depot" ? "lies in the depot" : "is to bring";
    parts.push(`The ${item.description} ${place}.`);
  }
  if (!joint.usable) parts.push("It is not aboard, and only what is aboard counts here.");
  if (offer.contested) parts.push("Another site may use this receptacle: it may be taken.");
  if (!offer.stateKnown) parts.push("Nobody recorded whether it works.");
  return parts.join(" ");
}

/** The sentence of an adapter other than the usual one. */
function kitSentence(joint: Joint): string {
  const description = joint.adapter?.mating.adapter.description ?? "";
  return (
    `The rig's plug, ${joint.plug.name}, does not enter the receptacle, ${joint.receptacle.name}; a ${description} ` +
    "joins them."
  );
}
