/** The wind rose on the card: left out where it would make the words too small (one-sheet.ts). */
import { useLayoutEffect, useRef } from "preact/hooks";

export function CardRose({ svg, name }: { readonly svg: string; readonly name: string }) {
  const holder = useRef<HTMLDivElement>(null);
  useLayoutEffect(() => {
    const parsed = new DOMParser().parseFromString(svg, "image/svg+xml").documentElement;
    if (parsed instanceof SVGSVGElement) holder.current?.replaceChildren(document.importNode(parsed, true));
  }, [svg]);
  return (
    <figure class="card-rose" aria-label={`Wind rose of ${name}`}>
      <div ref={holder} />
      <figcaption>
        Numbers: per cent of a gust in open country that is left at the awning, by where the wind comes from. A and
        double arc: the awning's side.
      </figcaption>
    </figure>
  );
}
