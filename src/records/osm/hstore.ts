/** Tags in the text form of GDAL's column other_tags: `"tourism"=>"camp_site","ref"=>"7"`. */

/** One quoted text with backslash escapes. */
const QUOTED = /"((?:[^"\\]|\\.)*)"/y;
const ARROW = /\s*=>\s*/y;
const NOTHING = /NULL/iy;
const COMMA = /\s*,\s*/y;

/** The pairs in order; null when the text is not of that form. A value NULL is left out. */
export function readHstore(text: string): [string, string][] | null {
  const pairs: [string, string][] = [];
  const trimmed = text.trim();
  let at = 0;
  const take = (pattern: RegExp): RegExpExecArray | null => {
    pattern.lastIndex = at;
    const match = pattern.exec(trimmed);
    if (match !== null) at = pattern.lastIndex;
    return match;
  };
  while (at < trimmed.length) {
    const key = take(QUOTED);
    if (key === null || take(ARROW) === null) return null;
    const value = take(QUOTED);
    if (value !== null) pairs.push([plain(key[1]), plain(value[1])]);
    else if (take(NOTHING) === null) return null;
    if (at < trimmed.length && take(COMMA) === null) return null;
  }
  return pairs;
}

function plain(text: string | undefined): string {
  return (text ?? "").replace(/\\(.)/gs, "$1");
}
