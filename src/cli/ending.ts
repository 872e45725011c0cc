/** How a command ends: its exit code, and what it says on the error stream when it could not answer. */

/** Exit codes. They are part of the interface: scripts rely on them. */
export const EXIT = {
  /** The question was answered, whatever the verdict. */
  answered: 0,
  /** The fault is the program's own. */
  internal: 1,
  /** The command line cannot be understood. */
  usage: 2,
  /** A file, a record, a site or the value of an option was refused. */
  input: 3,
  /** `fit --strict`: the answer is neither "fits" nor "fits with kit". */
  noFit: 4,
} as const;

export type ExitCode = (typeof EXIT)[keyof typeof EXIT];

/** Thrown to end a command with a code and lines for the error stream. */
export class Ending extends Error {
  constructor(
    readonly code: ExitCode,
    readonly lines: readonly string[],
  ) {
    super(lines.join("\n"));
  }
}

export function usageError(...lines: readonly string[]): Ending {
  return new Ending(EXIT.usage, lines);
}

export function inputError(...lines: readonly string[]): Ending {
  return new Ending(EXIT.input, lines);
}
