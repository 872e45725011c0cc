/** Reads a drawn plan back: elements with their attributes, found by what they say they are. */
import { XMLParser, XMLValidator } from "fast-xml-parser";

export interface Node {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: readonly Node[];
  readonly text: string;
}

type Raw = Record<string, unknown>;

function toNode(raw: Raw): Node | null {
  const name = Object.keys(raw).find((key) => key !== ":@");
  if (name === undefined || name === "#text") {
    return null;
  }
  const inside = raw[name] as Raw[];
  const text = inside.map((each) => ("#text" in each ? String(each["#text"]) : "")).join("");
  return {
    name,
    attributes: (raw[":@"] ?? {}) as Record<string, string>,
    children: inside.map(toNode).filter((node) => node !== null),
    text,
  };
}

export function readSvg(svg: string): Node {
  const valid = XMLValidator.validate(svg);
  if (valid !== true) {
    throw new Error(`not XML: ${valid.err.msg} (line ${valid.err.line}, column ${valid.err.col})`);
  }
  const parser = new XMLParser({
    preserveOrder: true,
    ignoreAttributes: false,
    attributeNamePrefix: "",
    trimValues: false,
    parseTagValue: false,
    parseAttributeValue: false,
  });
  const roots = (parser.parse(svg) as Raw[]).map(toNode).filter((node) => node !== null);
  const root = roots[0];
  if (roots.length !== 1 || !root) {
    throw new Error("not one root element");
  }
  return root;
}

export function all(node: Node): Node[] {
  return [node, ...node.children.flatMap(all)];
}

export function having(node: Node, attribute: string, value?: string): Node[] {
  return all(node).filter(
    (each) => each.attributes[attribute] !== undefined && (value === undefined || each.attributes[attribute] === value),
  );
}

export function one(node: Node, attribute: string, value?: string): Node {
  const found = having(node, attribute, value);
  const first = found[0];
  if (found.length !== 1 || !first) {
    throw new Error(`${found.length} elements with ${attribute}=${value ?? "anything"}`);
  }
  return first;
}

export interface Spot {
  x: number;
  y: number;
}

export function pointsOf(node: Node): Spot[] {
  return (node.attributes.points ?? "").split(" ").map((pair) => {
    const [x, y] = pair.split(",").map(Number);
    return { x: x ?? Number.NaN, y: y ?? Number.NaN };
  });
}

export function boxOf(node: Node): { x: number; y: number; width: number; height: number } {
  const number = (key: string): number => Number(node.attributes[key]);
  return { x: number("x"), y: number("y"), width: number("width"), height: number("height") };
}

export function labelBoxes(root: Node): { key: string; box: ReturnType<typeof boxOf> }[] {
  return having(root, "data-label").map((label) => ({
    key: label.attributes["data-label"] ?? "",
    box: boxOf(one(label, "data-box")),
  }));
}

/** All text of a node in reading order. */
export function words(node: Node): string {
  return all(node)
    .map((each) => each.text)
    .filter((text) => text !== "")
    .join(" ")
    .replace(/\u00a0/g, " ");
}
