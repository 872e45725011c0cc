/** A plan to look at, without anything to work. */
import { useLayoutEffect, useRef } from "preact/hooks";

interface PictureProps {
  readonly svg: string;
  /** What it is a picture of, for those who do not see it. */
  readonly label: string;
}

export function PlanPicture({ svg, label }: PictureProps) {
  const holder = useRef<HTMLElement>(null);
  useLayoutEffect(() => {
    const parsed = new DOMParser().parseFromString(svg, "image/svg+xml").documentElement;
    if (parsed instanceof SVGSVGElement) holder.current?.replaceChildren(document.importNode(parsed, true));
  }, [svg]);
  return <figure class="plan-picture" ref={holder} aria-label={label} />;
}
