/** The plan on the card, without the words that the card itself says. */
import { useLayoutEffect, useRef } from "preact/hooks";

/** Room left beneath the last part that stays, in units of the drawing. */
const EDGE = 6;

/** Takes out what stands in words on the card and ends the drawing where the rest ends. */
function shorten(drawing: SVGSVGElement): void {
  for (const part of drawing.querySelectorAll('[data-part="cautions"]')) part.remove();
  const [x = 0, y = 0, width = 0, height = 0] = (drawing.getAttribute("viewBox") ?? "").split(/\s+/).map(Number);
  const parts = [...drawing.children].filter((child) => child instanceof SVGGElement);
  const bottoms = parts.map((part) => {
    const box = (part as SVGGElement).getBBox();
    return box.y + box.height;
  });
  const bottom = Math.min(height, Math.max(0, ...bottoms) + EDGE);
  if (bottom <= EDGE) return;
  drawing.setAttribute("viewBox", `${x} ${y} ${width} ${bottom}`);
  drawing.setAttribute("height", String(bottom));
}

export function CardPlan({ svg, name }: { readonly svg: string; readonly name: string }) {
  const holder = useRef<HTMLElement>(null);
  useLayoutEffect(() => {
    const parsed = new DOMParser().parseFromString(svg, "image/svg+xml").documentElement;
    if (!(parsed instanceof SVGSVGElement)) return;
    const drawing = document.importNode(parsed, true);
    holder.current?.replaceChildren(drawing);
    shorten(drawing);
  }, [svg]);
  return <figure class="card-plan" ref={holder} aria-label={`Plan of ${name}`} />;
}
