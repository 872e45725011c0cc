/** A plan to look at, without anything to work. */
import { useLayoutEffect, useRef } from "preact/hooks";

export function PlanPicture({ svg, name }: { readonly svg: string; readonly name: string }) {
  const holder = useRef<HTMLElement>(null);
  useLayoutEffect(() => {
    const parsed = new DOMParser().parseFromString(svg, "image/svg+xml").documentElement;
    if (parsed instanceof SVGSVGElement) holder.current?.replaceChildren(document.importNode(parsed, true));
  }, [svg]);
  return <figure class="plan-picture" ref={holder} aria-label={`Plan of ${name}`} />;
}
