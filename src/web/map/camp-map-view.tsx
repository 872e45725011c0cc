/** The map in the page: loads the drawing code when it is first needed and keeps it in step with the list. */
import { useEffect, useRef, useState } from "preact/hooks";
import type { OpenedCampground } from "../core/protocol.ts";
import { VerdictMark, verdictWords } from "../shared/verdict-mark.tsx";
import type { Listing } from "../sites/listing.ts";
import { useStore } from "../state/store.ts";
import type { CampMap } from "./camp-map.ts";
import { MapKey } from "./map-key.tsx";

interface CampMapProps {
  readonly opened: OpenedCampground;
  readonly listed: readonly Listing[];
  readonly lit: string | null;
  readonly onLight: (id: string | null) => void;
  readonly onOpen: (id: string) => void;
}

/** Makes the map once the drawing code is there; null until then. */
function useCampMap(opened: OpenedCampground, onPick: (id: string) => void) {
  const element = useRef<HTMLDivElement>(null);
  const [map, setMap] = useState<CampMap | null>(null);
  const [failed, setFailed] = useState(false);
  const pick = useRef(onPick);
  pick.current = onPick;
  useEffect(() => {
    let made: CampMap | null = null;
    let gone = false;
    const load = () =>
      import("./camp-map.ts").then(
        ({ CampMap }) => {
          if (gone || element.current === null) return;
          made = new CampMap(element.current, { onPick: (id) => pick.current(id) });
          setMap(made);
        },
        () => setFailed(true),
      );
    // Behind the list of a narrow screen the map has no size: it is not loaded before somebody asks for it.
    const watch = new ResizeObserver(([entry]) => {
      if ((entry?.contentRect.width ?? 0) === 0) return;
      watch.disconnect();
      load();
    });
    if (element.current !== null) watch.observe(element.current);
    return () => {
      gone = true;
      watch.disconnect();
      made?.close();
    };
  }, []);
  useEffect(() => map?.show(opened), [map, opened]);
  useEffect(() => {
    if (map === null || element.current === null) return;
    const watch = new ResizeObserver(() => map.resized());
    watch.observe(element.current);
    return () => watch.disconnect();
  }, [map]);
  return { element, map, failed };
}

export function CampMapView({ opened, listed, lit, onLight, onOpen }: CampMapProps) {
  const units = useStore((state) => state.kept.units);
  const [picked, setPicked] = useState<string | null>(null);
  const { element, map, failed } = useCampMap(opened, (id) => {
    setPicked(id);
    onLight(id);
  });
  useEffect(() => map?.units(units), [map, units]);
  useEffect(() => {
    if (map === null) return;
    const draw = () => {
      const shown = new Map(listed.map((one) => [one.card.id, one]));
      for (const { id } of opened.sites) {
        const one = shown.get(id);
        map.mark(id, { state: one?.row?.verdict ?? "waiting", lit: lit === id, muted: one === undefined });
      }
    };
    map.onZoom = draw;
    draw();
    return () => {
      map.onZoom = null;
    };
  }, [map, listed, lit, opened]);
  useEffect(() => {
    if (lit !== null) map?.reveal(lit);
  }, [map, lit]);
  const chosen = listed.find((one) => one.card.id === picked) ?? null;
  return (
    <section class="camp-map" aria-label={`Map of ${opened.name}. The list says the same in words.`}>
      <MapKey />
      <div
        class="map-canvas"
        ref={element}
        role="application"
        aria-label="Map: arrow keys move it, plus and minus change the scale"
      />
      {failed && <p class="quiet">The map could not be loaded; the list has every site.</p>}
      {chosen !== null && <Picked {...chosen} onOpen={onOpen} onClose={() => setPicked(null)} />}
    </section>
  );
}

interface PickedProps extends Listing {
  readonly onOpen: (id: string) => void;
  readonly onClose: () => void;
}

function Picked({ card, row, onOpen, onClose }: PickedProps) {
  const verdict = row?.verdict ?? "waiting";
  return (
    <div class="picked" data-part="picked">
      <VerdictMark verdict={verdict} />
      <div>
        <strong>{card.name}</strong> {verdictWords(verdict)}
        {row !== null && <p>{row.reason}</p>}
      </div>
      <div class="picked-tools">
        <button type="button" class="button strong" onClick={() => onOpen(card.id)}>
          Look at it
        </button>
        <button type="button" class="button" onClick={onClose}>
          Close
        </button>
      </div>
    </div>
  );
}
