/** The plan on the card: cut to the rig, its lines and their marks, without the words that the card itself says. */
import { useLayoutEffect, useRef } from "preact/hooks";

interface PlanProps {
  readonly svg: string;
  readonly name: string;
  /** False takes out where to stop as well: a card that approves nothing says nothing of it. */
  readonly approves: boolean;
}

/** Room round what is kept, and over the scale beneath it, in units of the drawing. */
const EDGE = 6;
const SVG = "http://www.w3.org/2000/svg";

const KEPT = [
  "[data-awning]",
  "[data-line]",
  "[data-hookup]",
  "[data-inlet]",
  "[data-hot]",
  "[data-label]",
  '[data-part="nose"]',
  '[data-part="exit"]',
  '[data-part="stance-measure"]',
  '[data-part="window"]',
];
const TO_STOP = '[data-part="window"], [data-label="window"], [data-part="stance-measure"], [data-label="stance"]';

interface Box {
  readonly x: number;
  readonly y: number;
  readonly right: number;
  readonly bottom: number;
}

function around(parts: readonly Element[]): Box | null {
  const boxes = parts.flatMap((part) => {
    const { x, y, width, height } = (part as SVGGElement).getBBox();
    return width === 0 && height === 0 ? [] : [{ x, y, right: x + width, bottom: y + height }];
  });
  if (boxes.length === 0) return null;
  return {
    x: Math.min(...boxes.map((one) => one.x)),
    y: Math.min(...boxes.map((one) => one.y)),
    right: Math.max(...boxes.map((one) => one.right)),
    bottom: Math.max(...boxes.map((one) => one.bottom)),
  };
}

/** Ids of barriers: roads, walkways and other sites run on beyond the sheet, and so do their names. */
function barriersOf(drawing: SVGSVGElement): Set<string> {
  return new Set(
    [...drawing.querySelectorAll('[data-kind="barrier"]')].map((one) => one.getAttribute("data-obstacle") ?? ""),
  );
}

function cut(drawing: SVGSVGElement, approves: boolean): void {
  if (!approves) for (const part of drawing.querySelectorAll(`desc, ${TO_STOP}`)) part.remove();
  for (const part of drawing.querySelectorAll(':scope > text, :scope > [data-part="notes"]')) part.remove();
  const plan = drawing.querySelector('[data-part="plan"]');
  const [left = 0, , width = 0] = (drawing.getAttribute("viewBox") ?? "").split(/\s+/).map(Number);
  if (plan === null) return;
  const barriers = barriersOf(drawing);
  const namesBarrier = (part: Element) => {
    const label = part.getAttribute("data-label");
    return label !== null && barriers.has(label.slice(label.indexOf(":") + 1));
  };
  const kept = [...plan.querySelectorAll(KEPT.join(","))].filter((part) => !namesBarrier(part));
  const box = around(kept);
  if (box === null) return;
  const top = box.y - EDGE;
  const bottom = box.bottom + EDGE;
  for (const part of [...plan.querySelectorAll("[data-label]")].filter(namesBarrier)) {
    const own = around([part]);
    if (own !== null && (own.y < top || own.bottom > bottom)) part.remove();
  }
  const strip = [...drawing.children].filter((child) => child instanceof SVGGElement && child !== plan);
  const stripBox = around(strip);
  const height = stripBox === null ? 0 : stripBox.bottom - stripBox.y + 2 * EDGE;
  const paper = document.createElementNS(SVG, "rect");
  for (const [name, value] of Object.entries({ x: left, y: bottom, width, height: height + EDGE, fill: "#ffffff" }))
    paper.setAttribute(name, String(value));
  plan.after(paper);
  if (stripBox !== null)
    for (const part of strip) part.setAttribute("transform", `translate(0 ${bottom + EDGE - stripBox.y})`);
  drawing.setAttribute("viewBox", `${left} ${top} ${width} ${bottom - top + height}`);
  drawing.setAttribute("height", String(bottom - top + height));
}

export function CardPlan({ svg, name, approves }: PlanProps) {
  const holder = useRef<HTMLElement>(null);
  useLayoutEffect(() => {
    const parsed = new DOMParser().parseFromString(svg, "image/svg+xml").documentElement;
    if (!(parsed instanceof SVGSVGElement)) return;
    const drawing = document.importNode(parsed, true);
    holder.current?.replaceChildren(drawing);
    cut(drawing, approves);
  }, [svg, approves]);
  return <figure class="card-plan" ref={holder} aria-label={`Plan of ${name}`} />;
}
