/** The words of a command line, checked against the flags that a command has. */
import { parseArgs } from "node:util";
import { nearest } from "../units/nearest.ts";
import { usageError } from "./ending.ts";

export interface FlagSpec {
  /** What stands for its value in the help; a flag without one is on or off. */
  readonly value?: string;
  /** May be given more than once. */
  readonly repeats?: true;
  readonly required?: true;
  readonly help: string;
}

export interface CommandSpec {
  readonly name: string;
  /** One line for the list of commands. */
  readonly summary: string;
  /** The line after "Usage: padwright". */
  readonly usage: string;
  readonly about: readonly string[];
  readonly flags: Readonly<Record<string, FlagSpec>>;
  /** Names of the words that are no flags, in order; all of them are wanted. */
  readonly operands: readonly string[];
  readonly examples: readonly string[];
}

export interface Given {
  readonly help: boolean;
  /** The value of a flag that is given once; null without it. */
  readonly value: (flag: string) => string | null;
  readonly values: (flag: string) => readonly string[];
  readonly has: (flag: string) => boolean;
  readonly operands: readonly string[];
}

export const HELP_FLAG: FlagSpec = { help: "Say what this command does." };

/** Reads the words after the command's name. Throws one usage error that lists every fault. */
export function readFlags(args: readonly string[], spec: CommandSpec): Given {
  const flags: CommandSpec["flags"] = { ...spec.flags, help: HELP_FLAG };
  const options = Object.fromEntries(
    Object.entries(flags).map(([name, flag]) => [
      name,
      {
        type: flag.value === undefined ? ("boolean" as const) : ("string" as const),
        multiple: true,
        ...(name === "help" ? { short: "h" } : {}),
      },
    ]),
  );
  const { tokens } = parseArgs({ args: [...args], options, strict: false, allowPositionals: true, tokens: true });
  const found = new Map<string, string[]>();
  const operands: string[] = [];
  const faults: string[] = [];
  for (const token of tokens) {
    if (token.kind === "positional") operands.push(token.value);
    if (token.kind !== "option") continue;
    const fault = faultOf(token, flags);
    if (fault !== null) faults.push(fault);
    else found.set(token.name, [...(found.get(token.name) ?? []), token.value ?? ""]);
  }
  const help = found.has("help");
  if (!help) faults.push(...countFaults(found, operands, { ...spec, flags }));
  if (faults.length > 0) throw usageError(...faults, `padwright ${spec.name} --help shows what it takes.`);
  const values = (flag: string) => found.get(flag) ?? [];
  return { help, values, value: (flag) => values(flag)[0] ?? null, has: (flag) => found.has(flag), operands };
}

interface OptionToken {
  readonly name: string;
  readonly rawName: string;
  readonly value?: string | undefined;
  readonly inlineValue?: boolean | undefined;
}

function faultOf(token: OptionToken, flags: CommandSpec["flags"]): string | null {
  const flag = Object.hasOwn(flags, token.name) ? flags[token.name] : undefined;
  if (flag === undefined) {
    const near = nearest(token.name, Object.keys(flags));
    return `There is no flag ${token.rawName} here.${near === null ? "" : ` Did you mean --${near}?`}`;
  }
  if (flag.value === undefined) return token.value === undefined ? null : `${token.rawName} takes no value.`;
  if (token.value === undefined || token.value === "") return `${token.rawName} wants a value: ${flag.value}.`;
  if (token.value.startsWith("--") && token.inlineValue !== true) {
    return `${token.rawName} wants a value (${flag.value}), and ${token.value} follows.`;
  }
  return null;
}

function countFaults(
  found: ReadonlyMap<string, readonly string[]>,
  operands: readonly string[],
  spec: CommandSpec,
): string[] {
  const faults: string[] = [];
  for (const [name, flag] of Object.entries(spec.flags)) {
    const times = found.get(name)?.length ?? 0;
    if (flag.required && times === 0) faults.push(`--${name} ${flag.value ?? ""} is missing.`);
    if (times > 1 && !flag.repeats && flag.value !== undefined) faults.push(`--${name} is given ${times} times.`);
  }
  const surplus = operands.slice(spec.operands.length);
  if (surplus.length > 0) faults.push(`Nobody knows what "${surplus.join(" ")}" stands for.`);
  for (const name of spec.operands.slice(operands.length)) faults.push(`The ${name} is missing.`);
  return faults;
}
