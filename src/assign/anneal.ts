/**
 * The search for a better plan: again and again a few neighbouring sites are emptied round some nights, and who was
 * there, and who has no site, is put in again one by one, each where most is gained. A worse plan is kept with a
 * probability that falls with the temperature. One seed and one number of rounds always give the same plan.
 */
import type { PlanState } from "./plan-state.ts";
import type { Random } from "./random.ts";

/** Sites emptied in one round: at least, and the number of possible counts. */
const LEAST_SITES = 2;
const SITE_COUNTS = 5;
/** Nights by which the emptied span may reach past the stay that it is chosen round, on each side. */
const REACH = 4;
/** Probability that a round is chosen round a stay without a site, when there is one. */
const ROUND_UNPLACED = 0.5;
/** Probability that an open site is overlooked, so that the filling does not always go one way. */
const OVERLOOKED = 0.02;
const OVERLOOKED_WHEN_LED = 0.05;
/** Probability that a round is led by the losses, when there are any; the others look at the gain alone. */
const LED = 0.8;
/** Widest shuffle of the order of filling, in units of the logarithm of ease. */
const SHUFFLE = 2.4;
/** Probability that the order of filling is left to chance altogether. */
const BY_CHANCE = 0.15;
/** How strongly the emptied sites crowd towards the front of a stay's list, without losses and with them. */
const CROWDING = 2;
const CROWDING_WHEN_LED = 5;
/** How much more the nights of a stay count than the number of its sites when it is told how hard it is to place. */
const NIGHTS_WEIGH = 1.5;

export interface Cooling {
  /** Points: a loss of this size is kept with probability 1/e. */
  readonly from: number;
  readonly to: number;
}

export class Annealing {
  readonly #state: PlanState;
  readonly #random: Random;
  readonly #cooling: Cooling;
  readonly #rounds: number;
  /** The best plan so far, as options by stay. */
  readonly best: Int32Array;
  bestValue: number;
  done = 0;
  readonly #order: Int32Array;
  readonly #mostMoves: number;
  readonly #isLed: boolean;
  readonly #unplaced: number[] = [];
  readonly #unplacedAt: Int32Array;
  readonly #ease: Float64Array;
  readonly #removed: number[] = [];
  readonly #removedOptions: number[] = [];
  readonly #key: Float64Array;

  /** `losses` (see losses.ts), when given, lead the search. */
  constructor(state: PlanState, random: Random, cooling: Cooling, rounds: number, losses: Float64Array | null = null) {
    const { stays, optionStart, arrival, departure } = state.compiled;
    this.#state = state;
    this.#random = random;
    this.#cooling = cooling;
    this.#rounds = rounds;
    this.#isLed = losses !== null;
    this.#order = Int32Array.from(state.compiled.optionSite, (_, option) => option);
    // Moves that could not be helped at the start do not count against the cap.
    this.#mostMoves = Math.max(state.compiled.problem.maxMoves ?? Number.POSITIVE_INFINITY, state.moves);
    this.best = state.chosen.slice();
    this.bestValue = state.value;
    this.#unplacedAt = new Int32Array(stays).fill(-1);
    this.#key = new Float64Array(stays);
    this.#ease = Float64Array.from({ length: stays }, (_, stay) =>
      Math.log((optionStart[stay + 1]! - optionStart[stay]! + 1) / (departure[stay]! - arrival[stay]!) ** NIGHTS_WEIGH),
    );
    for (let stay = 0; stay < stays; stay++) {
      const options = this.#order.subarray(optionStart[stay]!, optionStart[stay + 1]!);
      if (losses !== null) options.sort((one, other) => losses[one]! - losses[other]! || one - other);
      if (state.chosen[stay]! < 0 && options.length > 0) this.#noteUnplaced(stay);
    }
  }

  get isDone(): boolean {
    return this.done >= this.#rounds;
  }

  /** Runs some rounds. */
  advance(rounds: number): void {
    const { from, to } = this.#cooling;
    const until = Math.min(this.done + rounds, this.#rounds);
    for (; this.done < until; this.done++) {
      this.#round(from * (to / from) ** (this.done / this.#rounds));
    }
  }

  #round(temperature: number): void {
    const state = this.#state;
    const before = state.value;
    const movesBefore = state.moves;
    this.#removed.length = 0;
    this.#removedOptions.length = 0;
    this.#empty();
    const waiting = this.#removed.concat(this.#unplaced);
    this.#fill(waiting);
    const limit = before + temperature * Math.log(this.#random.next());
    const tooManyMoves = state.moves > this.#mostMoves && state.moves > movesBefore;
    if (state.value < limit || tooManyMoves) {
      this.#undo(waiting);
      state.value = before;
      return;
    }
    this.#settle(waiting);
    if (state.value > this.bestValue + IMPROVEMENT && state.moves <= this.#mostMoves) {
      this.bestValue = state.value;
      this.best.set(state.chosen);
    }
  }

  /** Empties a few sites that one stay may have, round its nights. */
  #empty(): void {
    const random = this.#random;
    const { compiled } = this.#state;
    const { stays, optionStart, optionSite, arrival, departure, fixed, nights } = compiled;
    const isRoundUnplaced = this.#unplaced.length > 0 && random.next() < ROUND_UNPLACED;
    const centre = isRoundUnplaced ? this.#unplaced[random.whole(this.#unplaced.length)]! : random.whole(stays);
    if (fixed[centre]! >= 0) return;
    const first = optionStart[centre]!;
    const count = optionStart[centre + 1]! - first;
    if (count === 0) return;
    const from = Math.max(0, arrival[centre]! - random.whole(REACH + 1));
    const until = Math.min(nights, departure[centre]! + random.whole(REACH + 1));
    const current = this.#state.chosen[centre]!;
    if (current >= 0) this.#emptySite(optionSite[current]!, from, until);
    const sites = LEAST_SITES + random.whole(SITE_COUNTS);
    const crowding = this.#isLed ? CROWDING_WHEN_LED : CROWDING;
    for (let each = 0; each < sites; each++) {
      // Good sites of the stay are chosen more often.
      const pick = first + Math.floor(count * random.next() ** crowding);
      this.#emptySite(optionSite[this.#order[pick]!]!, from, until);
    }
  }

  #emptySite(site: number, from: number, until: number): void {
    const { holder, compiled, chosen } = this.#state;
    const { nights, departure, fixed } = compiled;
    for (let night = from; night < until; night++) {
      const stay = holder[site * nights + night]!;
      if (stay < 0) continue;
      const next = departure[stay]! - 1;
      if (fixed[stay]! < 0) {
        this.#removed.push(stay);
        this.#removedOptions.push(chosen[stay]!);
        this.#state.remove(stay);
      }
      night = next;
    }
  }

  /** Puts in who waits: mostly the hard ones first, in an order shuffled each time. */
  #fill(waiting: number[]): void {
    const random = this.#random;
    const led = this.#isLed && random.next() < LED;
    const byChance = random.next() < BY_CHANCE;
    const shuffle = SHUFFLE * random.next();
    for (const stay of waiting) {
      this.#key[stay] = byChance ? random.next() : this.#ease[stay]! + shuffle * random.next();
    }
    waiting.sort((one, other) => this.#key[one]! - this.#key[other]!);
    for (const stay of waiting) {
      const option = led ? this.#leastLoss(stay) : this.#bestOpen(stay);
      if (option >= 0) this.#state.place(option);
    }
  }

  /** The first open option in the order of losses. */
  #leastLoss(stay: number): number {
    const state = this.#state;
    const { optionStart } = state.compiled;
    let overlooked = -1;
    for (let at = optionStart[stay]!; at < optionStart[stay + 1]!; at++) {
      const option = this.#order[at]!;
      if (!state.isOpen(option)) continue;
      if (this.#random.next() >= OVERLOOKED_WHEN_LED) return option;
      if (overlooked < 0) overlooked = option;
    }
    return overlooked;
  }

  /** The open option that adds most; options stand best reward first, so that the search may stop early. */
  #bestOpen(stay: number): number {
    const state = this.#state;
    const { optionStart, optionReward, penalty, problem } = state.compiled;
    const most = penalty[stay]! + problem.weights.shortGap;
    let best = -1;
    let bestGain = 0;
    for (let option = optionStart[stay]!; option < optionStart[stay + 1]!; option++) {
      if (optionReward[option]! + most <= bestGain) break;
      if (!state.isOpen(option) || this.#random.next() < OVERLOOKED) continue;
      const gain = state.gain(option);
      if (gain > bestGain) {
        best = option;
        bestGain = gain;
      }
    }
    return best;
  }

  #undo(waiting: readonly number[]): void {
    const state = this.#state;
    for (const stay of waiting) {
      if (state.chosen[stay]! >= 0) state.remove(stay);
    }
    for (const option of this.#removedOptions) state.place(option);
  }

  /** Keeps the list of who has no site. */
  #settle(waiting: readonly number[]): void {
    for (const stay of waiting) {
      const isPlaced = this.#state.chosen[stay]! >= 0;
      if (isPlaced && this.#unplacedAt[stay]! >= 0) this.#forgetUnplaced(stay);
      else if (!isPlaced && this.#unplacedAt[stay]! < 0) this.#noteUnplaced(stay);
    }
  }

  #noteUnplaced(stay: number): void {
    this.#unplacedAt[stay] = this.#unplaced.length;
    this.#unplaced.push(stay);
  }

  #forgetUnplaced(stay: number): void {
    const at = this.#unplacedAt[stay]!;
    const last = this.#unplaced.pop()!;
    if (last !== stay) {
      this.#unplaced[at] = last;
      this.#unplacedAt[last] = at;
    }
    this.#unplacedAt[stay] = -1;
  }
}

/** Points: less is noise of adding up. */
const IMPROVEMENT = 1e-6;
