/**
 * Writes YAML 1.2 for people to read: block mappings and sequences; every scalar as JSON writes it, which YAML takes
 * as it is. Plain keys stay bare.
 */

const BARE_KEY = /^[A-Za-z_/$][A-Za-z0-9_/{}.$-]*$/;
/** Words that YAML readers of older versions take for something else. */
const RESERVED = /^(?:true|false|null|yes|no|on|off|y|n)$/i;
const BARE_TEXT = /^[A-Za-z][A-Za-z0-9 _/().,;'-]*[A-Za-z0-9).]$/;
const INDENT = "  ";

export function writeYaml(value: unknown): string {
  return `${block(value, "").replace(/^\n/, "")}\n`;
}

/** The text after a key or a dash: a scalar on the same line, or a block on the next ones. */
function block(value: unknown, indent: string): string {
  if (Array.isArray(value)) {
    if (value.length === 0) return " []";
    return value.map((item) => `\n${indent}-${inline(item, indent)}`).join("");
  }
  if (typeof value === "object" && value !== null) {
    const entries = Object.entries(value).filter(([, member]) => member !== undefined);
    if (entries.length === 0) return " {}";
    return entries.map(([key, member]) => `\n${indent}${yamlKey(key)}:${block(member, indent + INDENT)}`).join("");
  }
  return ` ${scalar(value)}`;
}

/** An item of a sequence: a mapping starts on the line of the dash. */
function inline(item: unknown, indent: string): string {
  const text = block(item, indent + INDENT);
  const isMapping = typeof item === "object" && item !== null && !Array.isArray(item);
  return isMapping && text.startsWith("\n") ? ` ${text.trimStart()}` : text;
}

function scalar(value: unknown): string {
  if (typeof value !== "string") return JSON.stringify(value);
  return BARE_TEXT.test(value) && !RESERVED.test(value) ? value : JSON.stringify(value);
}

function yamlKey(key: string): string {
  return BARE_KEY.test(key) && !RESERVED.test(key) ? key : JSON.stringify(key);
}
