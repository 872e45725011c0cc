/** What a command may use of the process that runs it. */

export interface Terminal {
  /** Writes one line to the standard output; colour marks are taken out unless it is a terminal that wants them. */
  readonly out: (line: string) => void;
  /** Writes one line to the error stream. */
  readonly error: (line: string) => void;
  /** Shows a passing line on the error stream when it is a terminal; an empty one takes it away. */
  readonly passing: (line: string) => void;
  /** Columns of the output, at most 80. */
  readonly width: number;
  /** True when the output is a terminal that takes colour. */
  readonly colour: boolean;
  /** All of the standard input as text. */
  readonly stdin: () => Promise<string>;
  /** Milliseconds since some start. */
  readonly clock: () => number;
}

const WIDTH = 80;
const LEAST_WIDTH = 60;
const CLEAR_LINE = "\r\u001b[K";

/** The terminal of this process. */
export function processTerminal({ stdout, stderr, stdin, env }: NodeJS.Process): Terminal {
  const wantsColour = (env["NO_COLOR"] ?? "") === "" && env["TERM"] !== "dumb";
  return {
    out: (line) => stdout.write(`${line}\n`),
    error: (line) => stderr.write(`${line}\n`),
    passing: (line) => {
      if (stderr.isTTY) stderr.write(`${CLEAR_LINE}${line}`);
    },
    width: stdout.isTTY ? Math.max(LEAST_WIDTH, Math.min(stdout.columns, WIDTH)) : WIDTH,
    colour: stdout.isTTY === true && wantsColour,
    stdin: async () => {
      const pieces: Buffer[] = [];
      for await (const piece of stdin) pieces.push(piece as Buffer);
      return Buffer.concat(pieces).toString("utf8");
    },
    clock: () => performance.now(),
  };
}
