/**
 * The port of an exact solver, and the model that is sent through it: maximise points over stays and sites as a mixed
 * integer program. What comes back is only ever a suggestion: it is placed anew and checked like any other plan.
 */

/** Rows are sums of columns with an upper limit; all columns are between 0 and 1, `whole` or not. Column-wise storage. */
export interface ExactModel {
  readonly columns: number;
  readonly rows: number;
  /** Points of each column; the sum is maximised. */
  readonly points: Float64Array;
  readonly rowUpper: Float64Array;
  /** Entries of column c: `start[c]` up to `start[c + 1]`. */
  readonly start: Int32Array;
  readonly row: Int32Array;
  readonly factor: Float64Array;
  /** 1 where the column must be 0 or 1. */
  readonly whole: Uint8Array;
  /** A solution to start from, or null. */
  readonly first: Float64Array | null;
}

export interface ExactAnswer {
  /** True when nothing better exists, by the solver's word. */
  readonly isOptimal: boolean;
  readonly values: Float64Array;
  /** The solver's bound on the points; null when it gave none. */
  readonly bound: number | null;
}

export interface ExactSolver {
  readonly name: string;
  /** Null when it failed, was stopped, or found nothing within the time. Never rejects. */
  readonly solve: (model: ExactModel, milliseconds: number, stop?: Stop) => Promise<ExactAnswer | null>;
}

/** A wish to stop, as AbortSignal has it. */
export interface Stop {
  readonly aborted: boolean;
  readonly addEventListener?: (type: "abort", listener: () => void) => void;
  readonly removeEventListener?: (type: "abort", listener: () => void) => void;
}
