/** Sizes of the source: a file is one concept, a function fits on a screen or two. */
import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import ts from "typescript";
import { describe, expect, it } from "vitest";

const SOURCE = fileURLToPath(new URL("../../src/", import.meta.url));
const MOST_LINES_OF_A_FILE = 400;
const MOST_LINES_OF_A_FUNCTION = 80;
/** Fewer files than this means that the tree was not read. */
const LEAST_FILES = 100;

interface SourceFile {
  readonly name: string;
  readonly text: string;
}

const files: readonly SourceFile[] = readdirSync(SOURCE, { recursive: true, encoding: "utf8" })
  .filter((name) => /\.tsx?$/.test(name))
  .sort()
  .map((name) => ({ name: `src/${name.replaceAll("\\", "/")}`, text: readFileSync(SOURCE + name, "utf8") }));

const linesOf = (text: string): number => text.trimEnd().split("\n").length;

/** Every function with a body: declarations, methods, arrows; by its name where it has one. */
function functionsOf({ name, text }: SourceFile): { readonly title: string; readonly lines: number }[] {
  const tree = ts.createSourceFile(name, text, ts.ScriptTarget.ES2023, true);
  const found: { title: string; lines: number }[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isFunctionLike(node) && "body" in node && node.body !== undefined) {
      const lines = linesOf(node.getText(tree));
      const line = tree.getLineAndCharacterOfPosition(node.getStart(tree)).line + 1;
      found.push({ title: `${name}:${line}`, lines });
    }
    ts.forEachChild(node, visit);
  };
  visit(tree);
  return found;
}

describe("sizes of the source", () => {
  it("reads the tree", () => {
    expect(files.length).toBeGreaterThan(LEAST_FILES);
    expect(files.flatMap(functionsOf).length).toBeGreaterThan(files.length);
  });

  it(`has no file of more than ${MOST_LINES_OF_A_FILE} lines`, () => {
    const long = files.map(({ name, text }) => ({ name, lines: linesOf(text) }));
    expect(long.filter(({ lines }) => lines > MOST_LINES_OF_A_FILE)).toEqual([]);
  });

  it(`has no function of more than ${MOST_LINES_OF_A_FUNCTION} lines`, () => {
    expect(files.flatMap(functionsOf).filter(({ lines }) => lines > MOST_LINES_OF_A_FUNCTION)).toEqual([]);
  });
});
