/** The options of a fit from flags and a file. */
import { completeOptions, type FitOptions, fitOptionsSchema } from "../fit/options.ts";
import { toInputErrors } from "../units/input-error.ts";
import { usageError } from "./ending.ts";
import type { FlagSpec, Given } from "./flags.ts";
import { jsonOf, readText, refusalOf, titleOf } from "./records.ts";
import type { Terminal } from "./terminal.ts";

export const OPTION_FLAGS: Readonly<Record<string, FlagSpec>> = {
  units: { value: "us|metric", help: "Units of the report. Default metric." },
  need: {
    value: "service=need",
    repeats: true,
    help: "required, wanted or ignored for power, water, sewer, cable or fill.",
  },
  option: {
    value: "key=value",
    repeats: true,
    help: "Any option of a fit, for instance comfort=0.3, kitPolicy=aboard, parking.along=0.5.",
  },
  options: { value: "file", help: "JSON file with options of a fit." },
};

type Members = Record<string, unknown>;

/** Lays the flags over the file and checks the whole. Every option that is refused is listed. */
export async function readFitOptions(given: Given, terminal: Terminal): Promise<FitOptions> {
  const file = given.value("options");
  const members = file === null ? {} : membersOf(jsonOf(await readText(file, terminal), file), file);
  const faults: string[] = [];
  const put = (word: string, flag: string, path: (key: string) => string[]) => {
    const [key, ...rest] = word.split("=");
    const value = rest.join("=");
    if (key === undefined || key === "" || value === "")
      faults.push(`--${flag} wants key=value, and "${word}" is none.`);
    else if (!setMember(members, path(key), readValue(value)))
      faults.push(`--${flag} ${word}: nothing lies under ${key}.`);
  };
  for (const word of given.values("option")) put(word, "option", (key) => key.split("."));
  for (const word of given.values("need")) put(word, "need", (key) => ["needs", key]);
  if (faults.length > 0) throw usageError(...faults);
  const units = given.value("units");
  if (units !== null) members["units"] = units;
  const parsed = fitOptionsSchema.safeParse(members);
  if (parsed.success) return completeOptions(parsed.data);
  throw refusalOf("These options are refused.", toInputErrors(fitOptionsSchema, parsed.error, members));
}

function membersOf(value: unknown, file: string): Members {
  if (typeof value === "object" && value !== null && !Array.isArray(value)) return value as Members;
  throw refusalOf(`${titleOf(file)} holds no options.`, [
    { path: "", message: "This must be an object.", expected: "" },
  ]);
}

/** A word of the command line as JSON where it is some, else as text. */
function readValue(word: string): unknown {
  try {
    return JSON.parse(word);
  } catch {
    return word;
  }
}

/** Sets a member at a path and makes the objects on the way; false when something else stands there. */
function setMember(members: Members, path: readonly string[], value: unknown): boolean {
  const [key, ...rest] = path;
  if (key === undefined || key === "" || key === "__proto__") return false;
  if (rest.length === 0) {
    members[key] = value;
    return true;
  }
  const inner = Object.hasOwn(members, key) ? members[key] : {};
  if (typeof inner !== "object" || inner === null || Array.isArray(inner)) return false;
  members[key] = inner;
  return setMember(inner as Members, rest, value);
}
