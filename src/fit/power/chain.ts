/**
 * The line from the receptacle to the rig, link by link: adapter, protector, extension, cord. Never two adapters,
 * never two extensions, and no link rated below what the breaker lets through.
 */

import type { KitItem } from "../../rig/completed.ts";
import type { Estimate } from "../../units/estimate.ts";
import { formatGauge, type Gauge } from "../../units/gauge.ts";
import { lineKitKind, listedAdapter, soldExtension } from "./adapters.ts";
import { cordAmpacity, type LeadCheck, leadLength, mostAmpacity, thinnestFor } from "./ampacity.ts";
import { areaOfGauge, ohmsPerMetre } from "./conductors.ts";
import type { PowerDevice } from "./devices.ts";
import type { DropSegment } from "./drop.ts";
import type { AdapterMating, Mating } from "./mating.ts";
import type { ChainLink, LinkPlace, PowerInput, PowerReason } from "./problem.ts";
import { lengthWords, oneDecimal } from "./words.ts";

/** An adapter that joins the pair, from the kit or from the catalogue. */
export interface AdapterChoice {
  readonly mating: AdapterMating;
  readonly amps: number;
  readonly where: Exclude<LinkPlace, "rig">;
  readonly addsLength: number;
  readonly path: string | null;
}

export interface ExtensionChoice {
  readonly amps: number;
  readonly length: number;
  /** Metres that it adds: its length and what its fittings add. */
  readonly adds: number;
  readonly gauge: Gauge;
  readonly gaugeAssumed: boolean;
  readonly where: Exclude<LinkPlace, "rig">;
  readonly path: string | null;
}

export interface Cord {
  readonly amps: number;
  readonly ampsAssumed: boolean;
  /** Amperes by column A, when two legs and neutral all count; null when not known. */
  readonly ampsThreeCarrying: number | null;
  readonly gauge: Gauge | null;
  readonly gaugeAssumed: boolean;
  /** True when its conductor is recorded and thinner than the table of its rule. */
  readonly thinnerThanTable: boolean;
  readonly length: Estimate;
}

export interface ChainRefusal {
  readonly reason: PowerReason;
  readonly why: string;
}

const PLACE_ORDER: readonly LinkPlace[] = ["rig", "aboard", "depot", "to bring"];

/** Order of preference by place: what is aboard before what lies in the depot before what must be bought. */
export function placeRank(where: LinkPlace): number {
  return PLACE_ORDER.indexOf(where);
}

/**
 * Adapters for a mating, the best first: by place, then by amperes. A kit adapter counts only when one with the same
 * ends is listed for this mating and its own rating, when given, bears what the breaker lets through.
 */
export function adapterChoices(mating: Mating, kit: readonly KitItem[]): readonly AdapterChoice[] {
  const fromKit = kit.flatMap((item): AdapterChoice[] => {
    if (lineKitKind(item) !== "adapter" || item.plug === null || item.receptacle === null) return [];
    const listed = listedAdapter(item.plug, item.receptacle);
    const joined = mating.adapters.find((each) => each.adapter === listed);
    if (!joined || (item.rating !== null && item.rating < joined.amps)) return [];
    return [{ mating: joined, amps: joined.amps, where: item.where, addsLength: item.addsLength, path: item.path }];
  });
  const toBring = mating.adapters.map(
    (joined): AdapterChoice => ({ mating: joined, amps: joined.amps, where: "to bring", addsLength: 0, path: null }),
  );
  const sorted = [...fromKit].sort(
    (one, other) => placeRank(one.where) - placeRank(other.where) || other.amps - one.amps,
  );
  return [...sorted, ...toBring];
}

/** The least amperes that rating and conductor of an item permit; null when neither is known. */
function knownAmps(item: Pick<KitItem, "rating" | "gauge">, plug: PowerDevice): number | null {
  const byGauge = item.gauge === null ? null : mostAmpacity(item.gauge, plug.lead);
  if (item.rating === null) return byGauge;
  return byGauge === null ? item.rating : Math.min(item.rating, byGauge);
}

/** The first protector aboard with the rig's own ends that bears `required` amperes; null when there is none. */
export function protectorAboard(kit: readonly KitItem[], plug: PowerDevice, required: number): KitItem | null {
  const fits = (item: KitItem): boolean =>
    lineKitKind(item) === "protector" &&
    item.where === "aboard" &&
    item.plug === plug.id &&
    item.receptacle === plug.id &&
    (item.rating ?? plug.amps) >= required;
  return kit.find(fits) ?? null;
}

/**
 * Extensions that may stand before the cord: with the rig's own ends, of known length, rated by label and conductor
 * for `required` amperes. A rule that forbids joining leads leaves none.
 */
export function extensionChoices(input: PowerInput, plug: PowerDevice, required: number): readonly ExtensionChoice[] {
  if (plug.lead === "as-nzs-3001") return [];
  const fromKit = input.kit.flatMap((item): ExtensionChoice[] => {
    if (lineKitKind(item) !== "extension" || item.plug !== plug.id || item.receptacle !== plug.id) return [];
    if (input.kitPolicy === "aboard" && item.where !== "aboard") return [];
    const amps = knownAmps(item, plug);
    if (item.length === null || amps === null || amps < required) return [];
    const gauge = item.gauge ?? thinnestFor(amps, plug.lead);
    if (gauge === null) return [];
    return [
      {
        amps,
        length: item.length,
        adds: item.addsLength,
        gauge,
        gaugeAssumed: item.gauge === null,
        where: item.where,
        path: item.path,
      },
    ];
  });
  if (input.kitPolicy === "aboard" || !(input.extraLength !== undefined && input.extraLength > 0)) return fromKit;
  const sold = soldExtension(plug.id, input.extraLength);
  if (!sold || sold.extension.rating < required) return fromKit;
  const { rating, gauge } = sold.extension;
  const toBring: ExtensionChoice = {
    amps: rating,
    length: sold.length,
    adds: sold.length,
    gauge,
    gaugeAssumed: false,
    where: "to bring",
    path: null,
  };
  return [...fromKit, toBring];
}

/** The rig's own cord: what its label and conductor carry, or its plug's rating when nobody recorded either. */
export function cordOf(input: PowerInput, plug: PowerDevice): Cord | null {
  const line = input.cord;
  if (!line) return null;
  const known = knownAmps(line, plug);
  const gauge = line.gauge ?? thinnestFor(known ?? plug.amps, plug.lead);
  return {
    amps: known ?? plug.amps,
    ampsAssumed: known === null,
    ampsThreeCarrying: line.gauge === null ? null : cordAmpacity(line.gauge, plug.lead, "threeCarrying"),
    gauge,
    gaugeAssumed: line.gauge === null,
    thinnerThanTable: line.gauge !== null && cordAmpacity(line.gauge, plug.lead) === null,
    length: line.length,
  };
}

/** Why the rig's own cord may not stand in this line; null when it may. */
export function cordRefusal(input: PowerInput, plug: PowerDevice, cord: Cord, required: number): ChainRefusal | null {
  if (!cord.ampsAssumed && cord.amps < required) {
    const conductor = cord.gauge && !cord.gaugeAssumed ? ` (${formatGauge(cord.gauge)})` : "";
    return {
      reason: "cord-below-supply",
      why:
        `The rig's cord${conductor} carries ${oneDecimal(cord.amps)} A and the supply lets ${required} A through: the ` +
        "breaker would not protect it. Check the marking on the cord's jacket.",
    };
  }
  const check = leadCheck(plug, cord, cord.length.low);
  if (check?.ok !== false) return null;
  const longest = check.longest === null ? "no length" : lengthWords(check.longest, input.units);
  return {
    reason: "lead-too-long",
    why:
      `AS/NZS 3001:2008 table 5.1 allows ${longest} for a ${plug.amps} A lead of this conductor in one unbroken piece; ` +
      `the rig's lead is ${lengthWords(cord.length.value, input.units)}.`,
  };
}

function leadCheck(plug: PowerDevice, cord: Cord, length: number): LeadCheck | null {
  if (plug.lead !== "as-nzs-3001") return null;
  return leadLength({ amps: plug.amps, squareMillimetres: knownArea(cord), length, pieces: 1 });
}

/** True when a rule limits the lead's length and nobody can tell whether the lead keeps it. */
export function leadUndecided(plug: PowerDevice, cord: Cord): boolean {
  const check = leadCheck(plug, cord, cord.length.high);
  return check !== null && check.ok !== true;
}

function knownArea(cord: Cord): number | null {
  if (cord.gauge === null || cord.gaugeAssumed) return null;
  return "awg" in cord.gauge ? areaOfGauge(cord.gauge.awg) : cord.gauge.squareMillimetres;
}

export interface Chain {
  readonly links: readonly ChainLink[];
  readonly segments: readonly DropSegment[];
  /** Metres added to the cord. */
  readonly addedLength: number;
}

/** Puts the chosen links in order. What an adapter or protector adds is reckoned with the cord's conductor. */
export function assemble(parts: {
  readonly plug: PowerDevice;
  readonly adapter: AdapterChoice | null;
  readonly protector: KitItem | null;
  readonly extension: ExtensionChoice | null;
  readonly cord: Cord | null;
  readonly units: PowerInput["units"];
}): Chain {
  const { plug, adapter, protector, extension, cord } = parts;
  const cordOhms = cord?.gauge ? ohmsPerMetre(cord.gauge) : null;
  const links: ChainLink[] = [];
  const extra = { ohmsPerMetre: cordOhms };
  if (adapter) {
    const { description, plug: from, receptacle: to } = adapter.mating.adapter;
    links.push({
      item: "adapter",
      description,
      from,
      to,
      amps: adapter.amps,
      length: adapter.addsLength,
      ...extra,
      where: adapter.where,
      path: adapter.path,
    });
  }
  if (protector) {
    const amps = protector.rating ?? plug.amps;
    links.push({
      item: "protector",
      description: `surge protector, ${plug.name}, ${amps} A`,
      from: plug.id,
      to: plug.id,
      amps,
      length: protector.addsLength,
      ...extra,
      where: protector.where,
      path: protector.path,
    });
  }
  if (extension) {
    links.push({
      item: "extension",
      description: extensionWords(extension, plug, parts.units),
      from: plug.id,
      to: plug.id,
      amps: extension.amps,
      length: extension.adds,
      ohmsPerMetre: ohmsPerMetre(extension.gauge),
      where: extension.where,
      path: extension.path,
    });
  }
  if (cord) {
    const assumed = cord.gaugeAssumed && cord.gauge ? ", conductor assumed" : "";
    links.push({
      item: "cord",
      description: `the rig's cord, ${plug.name}, ${lengthWords(cord.length.value, parts.units)}${assumed}`,
      from: plug.id,
      to: null,
      amps: cord.amps,
      length: cord.length.value,
      ...extra,
      where: "rig",
      path: null,
    });
  }
  const byCord = (adapter?.addsLength ?? 0) + (protector?.addsLength ?? 0);
  const segments: DropSegment[] = [];
  if (cord) segments.push({ length: cord.length.high + byCord, gauge: cord.gauge, gaugeAssumed: cord.gaugeAssumed });
  if (extension)
    segments.push({ length: extension.adds, gauge: extension.gauge, gaugeAssumed: extension.gaugeAssumed });
  return { links, segments, addedLength: byCord + (extension?.adds ?? 0) };
}

/** "30 A (NEMA TT-30) extension, 10 AWG, 50.0 ft". */
export function extensionWords(extension: ExtensionChoice, plug: PowerDevice, units: PowerInput["units"]): string {
  return `extension, ${plug.name}, ${formatGauge(extension.gauge)}, ${lengthWords(extension.length, units)}`;
}
