/** The page's side of the planner. */
import type { Book } from "../book.ts";
import { recordText } from "../record-text.ts";
import type { Edit, EditTold, FromPlanner, PlanBook, PlannerAsk, StayTold } from "./protocol.ts";

interface Waiting {
  readonly resolve: (answer: unknown) => void;
  readonly reject: (fault: Error) => void;
  readonly progress: ((done: number) => void) | undefined;
}

class PlannerClient {
  private readonly worker = new Worker(new URL("./planner-worker.ts", import.meta.url), { type: "module" });
  private readonly waiting = new Map<number, Waiting>();
  private last = 0;
  private readonly opened: Promise<unknown>;

  constructor(readonly campground: string) {
    this.worker.addEventListener("message", ({ data }: MessageEvent<FromPlanner>) => this.hear(data));
    this.worker.addEventListener("error", (event) => {
      for (const one of this.waiting.values())
        one.reject(new Error(event.message || "The planner could not be loaded."));
      this.waiting.clear();
    });
    this.opened = recordText(campground).then((text) => this.ask({ kind: "open", text: text ?? "" }));
  }

  async edit(book: Book, edit: Edit, progress: (done: number) => void): Promise<EditTold> {
    await this.opened;
    return (await this.ask({ kind: "edit", book: planBook(book), edit }, progress)) as EditTold;
  }

  /** Nobody waits for it: a change that is asked for meanwhile comes after it and finds its fits made. */
  async warm(book: Book, until: string): Promise<void> {
    await this.opened;
    await this.ask({ kind: "warm", book: planBook(book), until });
  }

  async explain(book: Book, stay: string, progress: (done: number) => void): Promise<StayTold> {
    await this.opened;
    return (await this.ask({ kind: "explain", book: planBook(book), stay }, progress)) as StayTold;
  }

  close(): void {
    this.worker.terminate();
  }

  private ask(ask: PlannerAsk, progress?: (done: number) => void): Promise<unknown> {
    this.last += 1;
    const id = this.last;
    return new Promise((resolve, reject) => {
      this.waiting.set(id, { resolve, reject, progress });
      this.worker.postMessage({ id, ask });
    });
  }

  private hear(message: FromPlanner): void {
    const one = this.waiting.get(message.id);
    if ("done" in message) {
      one?.progress?.(message.done);
      return;
    }
    this.waiting.delete(message.id);
    if ("fault" in message) one?.reject(new Error(message.fault));
    else one?.resolve(message.answer);
  }
}

function planBook({ today, stays, holds, closures }: Book): PlanBook {
  return { today, stays: stays.map(({ party: _party, ...stay }) => stay), holds, closures };
}

let shared: PlannerClient | null = null;

/** The planner of a campground; one for the whole visit, so that its fits are made once. */
export function plannerOf(campground: string): PlannerClient {
  if (shared !== null && shared.campground !== campground) {
    shared.close();
    shared = null;
  }
  shared ??= new PlannerClient(campground);
  return shared;
}

/** Forgets what was fitted: the record has changed. */
export function forgetPlanner(): void {
  shared?.close();
  shared = null;
}
