/** The map: the campground's own shapes, no tiles, every site with the mark of its verdict. Loaded after the list. */
import {
  type CircleMarker,
  circleMarker,
  control,
  divIcon,
  type LatLngBounds,
  type LatLngExpression,
  type Layer,
  type Map as LeafletMap,
  layerGroup,
  type Marker,
  map as makeMap,
  marker,
  type Path,
  polygon,
  polyline,
} from "leaflet";
import "../styles/leaflet.css";
import type { WireGeometry, WirePosition } from "../../site/feature.ts";
import type { LonLat, MapThing, OpenedCampground } from "../core/protocol.ts";
import { MARKS, type MarkState } from "../shared/verdict-mark.tsx";
import type { Units } from "../state/store.ts";

const EARTH_CIRCUMFERENCE = 40_075_016.686;
const TILE = 256;
const LEAST_ROAD_PIXELS = 2;
/** Below this many pixels for a metre the marks are small and without a letter; above the second they carry names. */
const LETTERS_FROM = 0.85;
const NAMES_FROM = 3.2;
/** Sides of the marks, pixels. */
const SIDES = { small: 14, middle: 24, large: 30 } as const;
const STATE_CLASSES = Object.values(MARKS).map((look) => look.className);
/** Heights in the stack of marks: the lit one over all others, those without a verdict beneath. */
const IN_FRONT = 1000;
const BEHIND = -500;
const MARGIN = 24;

const latLng = (position: WirePosition | LonLat): LatLngExpression => [position[1] ?? 0, position[0] ?? 0];

interface Shown {
  readonly state: MarkState;
  readonly lit: boolean;
  readonly muted: boolean;
}

interface SiteLayers {
  readonly name: string;
  readonly pad: Path | null;
  readonly mark: Marker;
  shown: string;
}

export interface MapListener {
  readonly onPick: (id: string) => void;
}

export class CampMap {
  private readonly map: LeafletMap;
  private readonly sites = new Map<string, SiteLayers>();
  private readonly roads: { readonly layer: Path; readonly width: number }[] = [];
  private ground = layerGroup();
  private size: keyof typeof SIDES = "middle";
  private scale: ReturnType<typeof control.scale> | null = null;
  private whole: LatLngBounds | null = null;
  private fitted = false;

  constructor(
    element: HTMLElement,
    private readonly listener: MapListener,
  ) {
    const still = matchMedia("(prefers-reduced-motion: reduce)").matches;
    this.map = makeMap(element, {
      attributionControl: false,
      zoomSnap: 0.25,
      zoomDelta: 0.75,
      minZoom: 12,
      maxZoom: 22,
      zoomAnimation: !still,
      fadeAnimation: !still,
      markerZoomAnimation: !still,
      inertia: !still,
    });
    this.ground.addTo(this.map);
    this.map.on("zoomend", () => this.fitToZoom());
  }

  /** Draws another campground and shows all of it. */
  show(opened: OpenedCampground): void {
    this.ground.clearLayers();
    this.sites.clear();
    this.roads.length = 0;
    for (const thing of [...opened.things].sort((a, b) => depthOf(a) - depthOf(b))) {
      for (const layer of this.thingLayers(thing)) layer.addTo(this.ground);
    }
    const places: LatLngExpression[] = [];
    for (const site of opened.sites) {
      if (site.centre === null) continue;
      const pad =
        site.outline === null
          ? null
          : polygon(site.outline.map(latLng), { className: "pad", interactive: true, weight: 1 });
      const mark = marker(latLng(site.centre), { keyboard: false, icon: divIcon({ className: "no-mark" }) });
      mark.on("click", () => this.listener.onPick(site.id));
      pad?.on("click", () => this.listener.onPick(site.id));
      pad?.addTo(this.ground);
      mark.addTo(this.ground);
      this.sites.set(site.id, { name: site.name, pad, mark, shown: "" });
      places.push(...(site.outline ?? [site.centre]).map(latLng));
    }
    this.whole = places.length > 0 ? polyline(places).getBounds() : null;
    this.fitWhole();
  }

  /** Shows the whole campground, as soon as the map has a size: on a narrow screen it starts behind the list. */
  private fitWhole(): void {
    const { x, y } = this.map.getSize();
    this.fitted = this.whole !== null && x > 0 && y > 0;
    if (this.fitted) this.map.fitBounds(this.whole!, { padding: [MARGIN, MARGIN], animate: false, maxZoom: 20 });
    else this.map.setView([0, 0], 12, { animate: false });
    this.fitToZoom();
  }

  units(units: Units): void {
    this.scale?.remove();
    this.scale = control.scale({ metric: units === "metric", imperial: units === "us", maxWidth: 120 });
    this.scale.addTo(this.map);
  }

  mark(id: string, shown: Shown): void {
    const site = this.sites.get(id);
    if (site === undefined) return;
    const key = `${shown.state} ${this.size}`;
    if (site.shown !== key) {
      site.shown = key;
      const side = SIDES[this.size];
      const name = this.size === "large" ? site.name : null;
      const html = markElement(shown.state, name, this.size !== "small");
      site.mark.setIcon(divIcon({ className: "map-mark", html, iconSize: [side, side] }));
    }
    // Only classes change under the pointer: an element that is made anew would lose a press on it.
    for (const element of [site.mark.getElement(), site.pad?.getElement()]) {
      element?.classList.toggle("lit", shown.lit);
      element?.classList.toggle("muted", shown.muted);
    }
    site.mark.setZIndexOffset(shown.lit ? IN_FRONT : shown.state === "waiting" ? BEHIND : 0);
    const pad = site.pad?.getElement();
    pad?.classList.remove(...STATE_CLASSES);
    pad?.classList.add(MARKS[shown.state].className);
  }

  /** Brings a site into view without changing the scale. */
  reveal(id: string): void {
    const site = this.sites.get(id);
    if (site !== undefined) this.map.panInside(site.mark.getLatLng(), { padding: [MARGIN * 2, MARGIN * 2] });
  }

  resized(): void {
    this.map.invalidateSize({ animate: false });
    if (!this.fitted && this.whole !== null) this.fitWhole();
  }

  close(): void {
    this.map.remove();
  }

  private pixelsPerMetre(): number {
    const latitude = (this.map.getCenter().lat * Math.PI) / 180;
    return (TILE * 2 ** this.map.getZoom()) / (EARTH_CIRCUMFERENCE * Math.cos(latitude));
  }

  private fitToZoom(): void {
    if (this.sites.size === 0) return;
    const scale = this.pixelsPerMetre();
    this.size = scale < LETTERS_FROM ? "small" : scale < NAMES_FROM ? "middle" : "large";
    for (const { layer, width } of this.roads) layer.setStyle({ weight: Math.max(LEAST_ROAD_PIXELS, width * scale) });
    this.onZoom?.();
  }

  /** Called after the scale changed, so that the marks are drawn at their new size. */
  onZoom: (() => void) | null = null;

  private thingLayers(thing: MapThing): Layer[] {
    const className = `thing thing-${thing.kind} ${thing.what === null ? "" : `is-${thing.what}`}`;
    const options = { className, interactive: false };
    return pathsOf(thing.geometry, options).map((layer) => {
      if (isLine(thing.geometry) && !isPoint(layer)) this.roads.push({ layer, width: thing.width ?? 1 });
      return layer;
    });
  }
}

/** Water lies lowest, then woods, open ground, roads, and small things on top. */
function depthOf({ kind, what }: MapThing): number {
  const order = ["ground", "shelter", "road", "obstacle"];
  const index = order.indexOf(kind);
  return index < 0 ? order.length : index + (what === "water" ? -1 / 2 : 0);
}

const isLine = (geometry: WireGeometry): boolean =>
  geometry.type === "LineString" || geometry.type === "MultiLineString";
const isPoint = (layer: Path): layer is CircleMarker => "getRadius" in layer;

const POINT_RADIUS = 4;

function pathsOf(geometry: WireGeometry, options: { className: string; interactive: boolean }): Path[] {
  const rings = (polygons: readonly (readonly WirePosition[])[]) => polygons.map((ring) => ring.map(latLng));
  switch (geometry.type) {
    case "Point":
      return [circleMarker(latLng(geometry.coordinates), { ...options, radius: POINT_RADIUS })];
    case "MultiPoint":
      return geometry.coordinates.map((one) => circleMarker(latLng(one), { ...options, radius: POINT_RADIUS }));
    case "LineString":
      return [polyline(geometry.coordinates.map(latLng), options)];
    case "MultiLineString":
      return geometry.coordinates.map((one) => polyline(one.map(latLng), options));
    case "Polygon":
      return [polygon(rings(geometry.coordinates), options)];
    case "MultiPolygon":
      return geometry.coordinates.map((one) => polygon(rings(one), options));
    case "GeometryCollection":
      return geometry.geometries.flatMap((one) => pathsOf(one, options));
  }
}

const SVG = "http://www.w3.org/2000/svg";

/** The same mark as `VerdictMark`, as an element, with the site's name beneath when there is room. */
function markElement(state: MarkState, name: string | null, letter: boolean): HTMLElement {
  const look = MARKS[state];
  const box = document.createElement("span");
  box.setAttribute("aria-hidden", "true");
  const svg = document.createElementNS(SVG, "svg");
  svg.setAttribute("viewBox", "0 0 32 32");
  svg.setAttribute("class", `mark ${look.className}`);
  const path = document.createElementNS(SVG, "path");
  path.setAttribute("d", look.outline);
  svg.append(path);
  if (letter) {
    const text = document.createElementNS(SVG, "text");
    text.setAttribute("x", "16");
    text.setAttribute("y", String(look.baseline));
    text.setAttribute("text-anchor", "middle");
    text.textContent = look.letter;
    svg.append(text);
  }
  box.append(svg);
  if (name !== null) {
    const label = document.createElement("span");
    label.className = "map-name";
    label.textContent = name;
    box.append(label);
  }
  return box;
}
