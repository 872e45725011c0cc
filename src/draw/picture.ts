/** The frame of every picture: one SVG element on white paper, named for who hears it and not only sees it. */
import { PAPER } from "./style.ts";
import { element, escapeText, numberText } from "./svg.ts";
import { FONT_FAMILY } from "./text.ts";

export interface PictureFrame {
  /** Pixels. */
  readonly width: number;
  readonly height: number;
  readonly title: string;
  /** What the picture shows, in words. */
  readonly description?: string;
  /** Language of its words, when it is not that of what it stands in. */
  readonly language?: string;
  /** Default: that of the page. */
  readonly fontFamily?: string;
}

export function picture(frame: PictureFrame, ...parts: readonly string[]): string {
  const { width, height, title, description, language, fontFamily = FONT_FAMILY } = frame;
  return element(
    "svg",
    {
      xmlns: "http://www.w3.org/2000/svg",
      viewBox: `0 0 ${numberText(width)} ${numberText(height)}`,
      width,
      height,
      role: "img",
      "aria-label": title,
      "xml:lang": language,
      "font-family": fontFamily,
    },
    element("title", {}, escapeText(title)),
    ...(description === undefined ? [] : [element("desc", {}, escapeText(description))]),
    element("rect", { x: 0, y: 0, width, height, fill: PAPER }),
    ...parts,
  );
}
