/** Typographic variants of one and the same character, brought to the plain one before a text is read. */

const VULGAR_FRACTIONS: Readonly<Record<string, string>> = {
  "½": "1/2",
  "⅓": "1/3",
  "⅔": "2/3",
  "¼": "1/4",
  "¾": "3/4",
  "⅛": "1/8",
  "⅜": "3/8",
  "⅝": "5/8",
  "⅞": "7/8",
};

/**
 * Spaces of every width become one plain space; primes and quotation marks become ' and "; every dash a hyphen;
 * a fraction in one character becomes digits with a space before it (11½ is 11 1/2, never 111/2).
 */
export function tidyText(text: string): string {
  return text
    .replace(/[½⅓⅔¼¾⅛⅜⅝⅞]/g, (fraction) => ` ${VULGAR_FRACTIONS[fraction] ?? ""}`)
    .replace(/⁄/g, "/")
    .replace(/[\s\u00a0\u1680\u2000-\u200d\u202f\u205f\u2060\u3000\ufeff]+/g, " ")
    .replace(/[″”“‟ʺ〞]|''|′′|’’/g, '"')
    .replace(/[′’‘‛ʹ´`]/g, "'")
    .replace(/[‐‑‒–—−]/g, "-")
    .replace(/([a-z.'"])\s*,\s*(?=\d)/gi, "$1 ")
    .replace(/º/g, "°")
    .trim();
}
