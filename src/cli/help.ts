/** The help texts, made from what the commands declare. */
import { type CommandSpec, HELP_FLAG } from "./flags.ts";
import { wrap } from "./layout.ts";

const INDENT = "  ";
const QUESTION = "will this rig hook up at that site, what must be in the kit, and how should it be parked.";
const CLOSING =
  "padwright <command> --help shows a command's flags and examples, --version the version. A file named - is the standard input. A question that was answered ends with 0, whatever the verdict; 1 is a fault of the program, 2 a command line that cannot be understood, 3 a file, record, site or option that was refused, 4 with fit --strict that the rig does not fit or nobody can tell.";

export function helpOf(spec: CommandSpec, width: number): string[] {
  const flags = Object.entries({ ...spec.flags, help: HELP_FLAG });
  const titles = flags.map(([name, flag]) => `${INDENT}--${name}${flag.value === undefined ? "" : ` ${flag.value}`}`);
  const column = Math.max(...titles.map((title) => title.length)) + INDENT.length;
  return [
    ...commandRows(`Usage: padwright ${spec.usage}`, width, ""),
    "",
    ...spec.about.flatMap((paragraph) => wrap(paragraph, { width })),
    "",
    "Flags:",
    ...flags.flatMap(([, flag], index) => {
      const again = flag.repeats ? " May be given several times." : "";
      return wrap(`${flag.help}${again}`, { width, first: (titles[index] ?? "").padEnd(column) });
    }),
    "",
    "Examples:",
    ...spec.examples.flatMap((example) => commandRows(`${INDENT}${example}`, width, " \\")),
  ];
}

/** A command line broken before its flags where it is too long; what is written over several rows stays so. */
function commandRows(line: string, width: number, mark: string): string[] {
  return line.split("\n").flatMap((whole) => {
    if (whole.length <= width) return [whole];
    const [head = "", ...flags] = whole.split(/ (?=\[?\(?--)/);
    const rows = [head];
    for (const flag of flags) {
      const last = rows.length - 1;
      if (`${rows[last]} ${flag}${mark}`.length <= width) rows[last] += ` ${flag}`;
      else rows.push(`${INDENT}${INDENT}${INDENT}${flag}`);
    }
    return rows.map((row, index) => (index < rows.length - 1 ? `${row}${mark}` : row));
  });
}

export function overview(specs: readonly CommandSpec[], version: string, width: number): string[] {
  const column = Math.max(...specs.map((spec) => spec.name.length)) + 2 * INDENT.length;
  return [
    ...wrap(`padwright ${version}: ${QUESTION}`, { width }),
    "",
    "Usage: padwright <command> [flags]",
    "",
    ...specs.flatMap((spec) => wrap(spec.summary, { width, first: `${INDENT}${spec.name}`.padEnd(column) })),
    "",
    ...wrap(CLOSING, { width }),
  ];
}
