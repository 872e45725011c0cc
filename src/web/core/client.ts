/**
 * The page's side of the workers. One worker answers what the reader waits for (opening, single fits, tried places,
 * the check of a rig); others rank, so that a long ranking never holds up an answer.
 */
import type {
  Asked,
  Exchange,
  FitAnswer,
  FitAsked,
  FromWorker,
  Kind,
  OpenedCampground,
  RigCheck,
  SiteRow,
  TriedAnswer,
  TryAsked,
  WindAsked,
  WindTold,
} from "./protocol.ts";
import type { DeskTold, PlanAsked, PlanProgress, TripAsked, TripTold } from "./trip-protocol.ts";

/** Workers for the ranking: one less than the device has processors, so that the page stays smooth. */
const MOST_RANKERS = 3;

interface Waiting {
  readonly resolve: (answer: unknown) => void;
  readonly reject: (fault: Error) => void;
  readonly part?: (part: unknown) => void;
}

export interface Running<Answer> {
  readonly answer: Promise<Answer>;
  readonly stop: () => void;
}

class Channel {
  private readonly worker = new Worker(new URL("./worker.ts", import.meta.url), { type: "module" });
  private readonly waiting = new Map<number, Waiting>();
  private last = 0;

  constructor() {
    this.worker.addEventListener("message", (event: MessageEvent<FromWorker>) => this.hear(event.data));
    this.worker.addEventListener("error", (event) => {
      for (const one of this.waiting.values()) one.reject(new Error(event.message || "The core could not be loaded."));
      this.waiting.clear();
    });
  }

  ask<K extends Kind>(
    kind: K,
    ask: Exchange[K]["ask"],
    part?: (part: Exchange[K]["part"]) => void,
  ): Running<Exchange[K]["answer"]> {
    this.last += 1;
    const id = this.last;
    const answer = new Promise<Exchange[K]["answer"]>((resolve, reject) => {
      this.waiting.set(id, {
        resolve: resolve as (answer: unknown) => void,
        reject,
        ...(part === undefined ? {} : { part: part as (part: unknown) => void }),
      });
    });
    this.worker.postMessage({ id, kind, ask });
    return { answer, stop: () => this.worker.postMessage({ id, kind: "stop" }) };
  }

  private hear(message: FromWorker): void {
    const one = this.waiting.get(message.id);
    if (one === undefined) return;
    if ("part" in message) {
      one.part?.(message.part);
      return;
    }
    this.waiting.delete(message.id);
    if ("fault" in message) one.reject(new Error(message.fault));
    else one.resolve(message.answer);
  }
}

export class Core {
  private readonly answerer = new Channel();
  private readonly rankers: readonly Channel[];
  /** For trips and desks alone, which take long: begun with the first of them. */
  private planner: Channel | null = null;

  constructor() {
    const count = Math.max(1, Math.min(MOST_RANKERS, (navigator.hardwareConcurrency || 2) - 1));
    this.rankers = Array.from({ length: count }, () => new Channel());
  }

  /** Reads a campground, given as GeoJSON text; rejects with words for the reader when it is none. */
  open(text: string): Promise<OpenedCampground> {
    for (const ranker of this.rankers) {
      ranker.ask("load", { text }).answer.catch(() => {
        // The answerer reads the same text and tells what is wrong with it.
      });
    }
    return this.answerer.ask("open", { text }).answer;
  }

  /** Errors of a rig by field, or its completion for the opened campground. */
  checkRig(rig: unknown, units: "us" | "metric"): Promise<RigCheck> {
    return this.answerer.ask("checkRig", { rig, units }).answer;
  }

  /** The full answer; `quick` hears the one without fixes, window and probability first. */
  fit(asked: FitAsked, quick?: (answer: FitAnswer) => void): Running<FitAnswer> {
    return this.answerer.ask("fit", asked, quick);
  }

  try(asked: TryAsked): Promise<TriedAnswer | null> {
    return this.answerer.ask("try", asked).answer;
  }

  wind(asked: WindAsked): Promise<WindTold | null> {
    return this.answerer.ask("wind", asked).answer;
  }

  /** Which unit for which booking; `step` hears how far it is. The answer is null once it was stopped. */
  desk(asked: PlanAsked, step: (progress: PlanProgress) => void): Running<DeskTold | null> {
    this.planner ??= new Channel();
    return this.planner.ask("desk", asked, step);
  }

  /** As `desk`, for one rig through its stops. */
  trip(asked: TripAsked, step: (progress: PlanProgress) => void): Running<TripTold | null> {
    this.planner ??= new Channel();
    return this.planner.ask("trip", asked, step);
  }

  /** Ranks the sites in the order given; `rows` hears them as they are ready. */
  rank(asked: Asked, sites: readonly string[], rows: (rows: readonly SiteRow[]) => void): Running<null> {
    const count = this.rankers.length;
    const running = this.rankers.map((ranker, turn) => {
      const share = sites.filter((_, index) => index % count === turn);
      return ranker.ask("rank", { ...asked, sites: share }, rows);
    });
    return {
      answer: Promise.all(running.map((one) => one.answer)).then(() => null),
      stop: () => {
        for (const one of running) one.stop();
      },
    };
  }
}
