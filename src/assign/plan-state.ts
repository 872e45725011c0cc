/**
 * A plan while it is being changed: who is where, what it is worth, and what one change would add. All changes go
 * through `place` and `remove`, so that the value and the tables of nights never part.
 */
import type { Compiled } from "./compile.ts";
import type { Plan } from "./problem.ts";

export class PlanState {
  readonly compiled: Compiled;
  /** Option of each stay, -1 without a site. */
  readonly chosen: Int32Array;
  /** Stay on each site and night: `site * nights + night`; -1 empty, -2 closed. */
  readonly holder: Int32Array;
  /** Nights that are taken or closed, as sets of bits per site. */
  readonly busy: Int32Array;
  /** Stay on each contended resource and night; -1 free. */
  readonly resourceHolder: Int32Array;
  /** Points, less the penalties of everyone without a site. */
  value: number;
  /** Stays that are not where the accepted plan has them. */
  moves: number;

  constructor(compiled: Compiled) {
    const { stays, sites, nights, resources, closed, words } = compiled;
    this.compiled = compiled;
    this.chosen = new Int32Array(stays).fill(-1);
    this.holder = new Int32Array(sites * nights).fill(EMPTY);
    this.busy = closed.slice();
    this.resourceHolder = new Int32Array(resources * nights).fill(EMPTY);
    this.value = 0;
    this.moves = 0;
    for (let site = 0; site < sites; site++) {
      for (let night = 0; night < nights; night++) {
        if ((closed[site * words + (night >> 5)]! & (1 << (night & 31))) !== 0)
          this.holder[site * nights + night] = SHUT;
      }
    }
    for (let stay = 0; stay < stays; stay++) {
      this.value -= compiled.penalty[stay]!;
      if (compiled.accepted[stay]! >= 0) this.moves++;
    }
    for (let stay = 0; stay < stays; stay++) {
      if (compiled.fixed[stay]! >= 0) this.place(compiled.fixed[stay]!);
    }
  }

  isOpen(option: number): boolean {
    const { optionSite, optionStay, mask, words, optionResources } = this.compiled;
    const stay = optionStay[option]!;
    const at = optionSite[option]! * words;
    for (let word = 0; word < words; word++) {
      if ((this.busy[at + word]! & mask[stay * words + word]!) !== 0) return false;
    }
    const held = optionResources[option]!;
    return held.length === 0 || this.#resourcesFree(held, stay);
  }

  #resourcesFree(held: readonly number[], stay: number): boolean {
    const { nights, arrival, departure } = this.compiled;
    for (const resource of held) {
      for (let night = arrival[stay]!; night < departure[stay]!; night++) {
        if (this.resourceHolder[resource * nights + night] !== EMPTY) return false;
      }
    }
    return true;
  }

  /** Points that an open option would add, the penalty that it saves included. */
  gain(option: number): number {
    const { optionStay, optionReward, penalty, mates } = this.compiled;
    const stay = optionStay[option]!;
    const points = optionReward[option]! + penalty[stay]! - this.#shortGaps(option);
    return mates === null ? points : points - this.#apart(option);
  }

  /** Points of short holes that filling these nights would add (or save, when negative). */
  #shortGaps(option: number): number {
    const { optionStay, optionSite, arrival, departure, nights, problem } = this.compiled;
    const { minimumStay, shortGap } = problem.weights;
    if (minimumStay <= 1) return 0;
    const stay = optionStay[option]!;
    const row = optionSite[option]! * nights;
    const from = arrival[stay]!;
    const until = departure[stay]!;
    const left = this.#holeTo(row, from - 1, -1, minimumStay);
    const right = this.#holeTo(row, until, 1, minimumStay);
    let holes = 0;
    if (left > 0) holes++;
    if (right > 0) holes++;
    if (left >= 0 && right >= 0 && left + right + until - from < minimumStay) holes--;
    return holes * shortGap;
  }

  /** Empty nights between a night and the next stay in one direction; -1 when none lies within the minimum stay. */
  #holeTo(row: number, start: number, step: number, minimumStay: number): number {
    const { nights } = this.compiled;
    let night = start;
    for (let hole = 0; hole < minimumStay; hole++, night += step) {
      if (night < 0 || night >= nights) return -1;
      const holder = this.holder[row + night]!;
      if (holder >= 0) return hole;
      if (holder === SHUT) return -1;
    }
    return -1;
  }

  #apart(option: number): number {
    const { optionStay, optionSite, mates, problem } = this.compiled;
    const { apart, nearDistance } = problem.weights;
    let points = 0;
    for (const mate of mates![optionStay[option]!]!) {
      const other = this.chosen[mate]!;
      if (other < 0) continue;
      const one = problem.sites[optionSite[option]!]!.place;
      const two = problem.sites[optionSite[other]!]!.place;
      if (one === null || two === null) continue;
      points += apart * Math.min(Math.hypot(one.east - two.east, one.north - two.north) / nearDistance, 1);
    }
    return points;
  }

  place(option: number): void {
    const { optionStay, optionSite, accepted } = this.compiled;
    const stay = optionStay[option]!;
    this.value += this.gain(option);
    this.#mark(option, stay);
    this.chosen[stay] = option;
    if (accepted[stay] === optionSite[option]) this.moves--;
  }

  remove(stay: number): void {
    const { optionSite, accepted } = this.compiled;
    const option = this.chosen[stay]!;
    this.#mark(option, EMPTY);
    this.chosen[stay] = -1;
    this.value -= this.gain(option);
    if (accepted[stay] === optionSite[option]) this.moves++;
  }

  #mark(option: number, holder: number): void {
    const { optionStay, optionSite, optionResources, arrival, departure, mask, nights, words } = this.compiled;
    const stay = optionStay[option]!;
    const site = optionSite[option]!;
    for (let word = 0; word < words; word++) {
      const bits = mask[stay * words + word]!;
      if (bits === 0) continue;
      const at = site * words + word;
      this.busy[at] = holder === EMPTY ? this.busy[at]! & ~bits : this.busy[at]! | bits;
    }
    this.holder.fill(holder, site * nights + arrival[stay]!, site * nights + departure[stay]!);
    for (const resource of optionResources[option]!) {
      this.resourceHolder.fill(holder, resource * nights + arrival[stay]!, resource * nights + departure[stay]!);
    }
  }

  /** The open option that adds most, or -1. Options come best reward first, so that the search may stop early. */
  bestOpen(stay: number): number {
    const { optionStart, optionReward, penalty, problem } = this.compiled;
    const most = penalty[stay]! + problem.weights.shortGap;
    let best = -1;
    let bestGain = Number.NEGATIVE_INFINITY;
    for (let option = optionStart[stay]!; option < optionStart[stay + 1]!; option++) {
      if (optionReward[option]! + most <= bestGain) break;
      if (!this.isOpen(option)) continue;
      const gain = this.gain(option);
      if (gain > bestGain) {
        best = option;
        bestGain = gain;
      }
    }
    return best;
  }

  /** Puts every stay where `chosen` says. */
  restore(chosen: Int32Array): void {
    const { fixed, stays } = this.compiled;
    for (let stay = 0; stay < stays; stay++) {
      if (fixed[stay]! < 0 && this.chosen[stay]! >= 0 && this.chosen[stay] !== chosen[stay]) this.remove(stay);
    }
    for (let stay = 0; stay < stays; stay++) {
      if (fixed[stay]! < 0 && chosen[stay]! >= 0 && this.chosen[stay]! < 0) this.place(chosen[stay]!);
    }
  }

  plan(): Plan {
    return planOf(this.compiled, this.chosen);
  }
}

const EMPTY = -1;
const SHUT = -2;

export function planOf({ optionSite, optionWay }: Compiled, chosen: Int32Array): Plan {
  return Array.from(chosen, (option) => (option < 0 ? null : { site: optionSite[option]!, way: optionWay[option]! }));
}
