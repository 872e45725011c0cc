/**
 * SVG as strings: elements, attributes and escaping. Only presentation attributes are written, so that a strict
 * content security policy has nothing to refuse: no script, no style, no outside reference, no id.
 */

export type AttributeValue = string | number | undefined;
export type Attributes = Readonly<Record<string, AttributeValue>>;

const DECIMALS = 2;

/** Characters that XML 1.0 forbids, lone surrogates, and the marks that turn the direction of the text round them. */
const FORBIDDEN =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these are the characters to take out.
  /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069\ufffe\uffff]|[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g;

/** Text without characters that XML forbids, with line breaks and tabs as single spaces. */
export function cleanText(text: string): string {
  return text
    .replace(FORBIDDEN, "")
    .replace(/[\t\n\r ]+/g, " ")
    .trim();
}

/** Text made fit for an element's content or a double-quoted attribute. */
export function escapeText(text: string): string {
  return text
    .replace(FORBIDDEN, "")
    .replace(/&/g, "&amp;")
    .replace(/</g, "&lt;")
    .replace(/>/g, "&gt;")
    .replace(/"/g, "&quot;")
    .replace(/'/g, "&apos;");
}

/** A number for an attribute: two decimals at most, never minus zero. Throws RangeError when not finite. */
export function numberText(value: number): string {
  if (!Number.isFinite(value)) {
    throw new RangeError(`a coordinate is not finite: ${value}`);
  }
  const rounded = Number(value.toFixed(DECIMALS));
  return String(rounded === 0 ? 0 : rounded);
}

/** One element; `children` are finished SVG (use `escapeText` for text), undefined attributes are left out. */
export function element(name: string, attributes: Attributes, ...children: readonly string[]): string {
  const written = Object.entries(attributes)
    .filter((entry): entry is [string, string | number] => entry[1] !== undefined)
    .map(([key, value]) => ` ${key}="${typeof value === "number" ? numberText(value) : escapeText(value)}"`)
    .join("");
  const content = children.join("");
  return content === "" ? `<${name}${written}/>` : `<${name}${written}>${content}</${name}>`;
}

export interface Spot {
  readonly x: number;
  readonly y: number;
}

/** The `points` attribute of a polygon or polyline. */
export function pointList(points: readonly Spot[]): string {
  return points.map((point) => `${numberText(point.x)},${numberText(point.y)}`).join(" ");
}

export function line(from: Spot, to: Spot, attributes: Attributes): string {
  return element("line", { x1: from.x, y1: from.y, x2: to.x, y2: to.y, ...attributes });
}

export function polygon(points: readonly Spot[], attributes: Attributes): string {
  return element("polygon", { points: pointList(points), ...attributes });
}

export function polyline(points: readonly Spot[], attributes: Attributes): string {
  return element("polyline", { points: pointList(points), fill: "none", ...attributes });
}
