/**
 * The exact solver port by HiGHS (npm highs, WebAssembly) in a worker thread. A solve blocks its thread and may
 * overshoot its time limit, so that the thread is killed when it does, when it is asked to stop, or when it breaks;
 * the answer is null then, and the caller goes on with the plan that it has.
 */
import { createRequire } from "node:module";
import { Worker } from "node:worker_threads";
import type { ExactAnswer, ExactModel, ExactSolver, Stop } from "../assign/exact.ts";

/** Milliseconds that a solve may overshoot before its thread is killed, and that a new thread needs to get ready. */
const GRACE = 500;
const STARTING = 10_000;

/** Runs in the worker, which has no TypeScript: plain text, kept short. */
const WORKER = `
const { parentPort, workerData } = require("node:worker_threads");
const ready = require(workerData.highs)();
parentPort.on("message", async ({ id, model, seconds }) => {
  try {
    const highs = await ready;
    const { variableType, objectiveSense, modelStatus } = highs.constants;
    const solver = highs.createModel({
      numCols: model.columns, numRows: model.rows, sense: objectiveSense.maximize,
      colCost: model.points,
      colLower: new Float64Array(model.columns), colUpper: new Float64Array(model.columns).fill(1),
      rowLower: new Float64Array(model.rows).fill(-highs.infinity), rowUpper: model.rowUpper,
      matrix: { format: "csc", numRows: model.rows, numCols: model.columns,
        starts: model.start, indices: model.row, values: model.factor },
      integrality: Int32Array.from(model.whole, (one) => (one ? variableType.integer : variableType.continuous)),
    });
    try {
      solver.options.set({ output_flag: false, time_limit: seconds, mip_rel_gap: 0, mip_abs_gap: 1e-6 });
      if (model.first) solver.setSolution({ colValue: model.first });
      solver.run();
      const isOptimal = solver.getModelStatus() === modelStatus.optimal;
      const bound = isOptimal ? solver.getObjectiveValue() : solver.info.get("mip_dual_bound");
      const values = solver.getSolution().colValue;
      parentPort.postMessage({ id, answer: { isOptimal, values, bound: Number.isFinite(bound) ? bound : null } });
    } finally {
      solver.dispose();
    }
  } catch (fault) {
    parentPort.postMessage({ id, answer: null, fault: String(fault) });
  }
});
ready.then(() => parentPort.postMessage({ ready: true }), (fault) => { throw fault; });
`;

type Message =
  | { readonly ready: true }
  | { readonly id: number; readonly answer: ExactAnswer | null; readonly fault?: string };

interface Waiting {
  readonly id: number;
  readonly settle: (answer: ExactAnswer | null) => void;
}

export interface HighsOptions {
  /** Where the solver's module is; for tests that want it to break. */
  readonly module?: string;
  /** Hears why a solve gave nothing. */
  readonly report?: (fault: string) => void;
}

class HighsThread implements ExactSolver {
  readonly name = "HiGHS";
  readonly #options: HighsOptions;
  #worker: Worker | null = null;
  #started: Promise<boolean> | null = null;
  #waiting: Waiting | null = null;
  #next = 0;
  #isBusy = false;

  constructor(options: HighsOptions) {
    this.#options = options;
  }

  async solve(model: ExactModel, milliseconds: number, stop?: Stop): Promise<ExactAnswer | null> {
    const isStopped = (): boolean => stop?.aborted === true;
    if (isStopped() || milliseconds <= 0 || this.#isBusy) return null;
    this.#isBusy = true;
    try {
      if (!(await this.#start()) || isStopped()) return null;
      const answer = await this.#ask(model, milliseconds, stop);
      return answer !== null && isUsable(answer, model) ? answer : null;
    } finally {
      this.#isBusy = false;
    }
  }

  /** Ends the thread; a solve under way gives null. */
  close(): void {
    const worker = this.#worker;
    this.#worker = null;
    this.#started = null;
    const waiting = this.#waiting;
    this.#waiting = null;
    void worker?.terminate();
    waiting?.settle(null);
  }

  #start(): Promise<boolean> {
    this.#started ??= new Promise((resolve) => {
      const highs = this.#options.module ?? moduleOfSolver();
      if (highs === null) {
        this.#options.report?.("the module highs is not installed");
        resolve(false);
        return;
      }
      const worker = new Worker(WORKER, { eval: true, workerData: { highs }, execArgv: [] });
      this.#worker = worker;
      // An idle solver keeps no process alive.
      worker.unref();
      const timer = setTimeout(() => this.#fail(worker, "the solver did not start", resolve), STARTING);
      worker.on("error", (fault) => this.#fail(worker, String(fault), resolve));
      worker.on("exit", () => this.#fail(worker, "the solver ended", resolve));
      worker.on("message", (message: Message) => {
        if ("ready" in message) {
          clearTimeout(timer);
          resolve(true);
        } else this.#receive(message);
      });
    });
    return this.#started;
  }

  #fail(worker: Worker, why: string, resolve: (started: boolean) => void): void {
    if (this.#worker === worker) {
      this.#options.report?.(why);
      this.close();
    }
    resolve(false);
  }

  #receive(message: { readonly id: number; readonly answer: ExactAnswer | null; readonly fault?: string }): void {
    if (message.fault !== undefined) this.#options.report?.(message.fault);
    if (this.#waiting?.id !== message.id) return;
    const { settle } = this.#waiting;
    this.#waiting = null;
    settle(message.answer);
  }

  #ask(model: ExactModel, milliseconds: number, stop?: Stop): Promise<ExactAnswer | null> {
    const id = this.#next++;
    return new Promise((resolve) => {
      const kill = () => this.close();
      const timer = setTimeout(kill, milliseconds + GRACE);
      stop?.addEventListener?.("abort", kill);
      this.#waiting = {
        id,
        settle: (answer) => {
          clearTimeout(timer);
          stop?.removeEventListener?.("abort", kill);
          resolve(answer);
        },
      };
      this.#worker?.postMessage({ id, model, seconds: milliseconds / MILLISECONDS });
    });
  }
}

const MILLISECONDS = 1000;

function moduleOfSolver(): string | null {
  try {
    return createRequire(import.meta.url).resolve("highs");
  } catch {
    return null;
  }
}

/** Numbers that are no numbers, or too few of them, are no answer. */
function isUsable({ values }: ExactAnswer, model: ExactModel): boolean {
  return values.length === model.columns && values.every(Number.isFinite);
}

/** An exact solver in its own thread, started at the first solve; one solve at a time, a second one gets null. */
export function createExactSolver(options: HighsOptions = {}): ExactSolver & { readonly close: () => void } {
  return new HighsThread(options);
}
