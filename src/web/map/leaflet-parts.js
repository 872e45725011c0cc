/**
 * The parts of Leaflet that the map uses, by their own modules: the package's single file brings tiles, pop-ups and
 * image layers that are never shown. The build puts this in the place of "leaflet" (vite.config.ts); the types are
 * those of the whole package.
 */
import "leaflet/src/layer/vector/Renderer.getRenderer.js";
import "leaflet/src/control/Control.Attribution.js";
import { scale } from "leaflet/src/control/Control.Scale.js";
import "leaflet/src/control/Control.Zoom.js";

export { layerGroup } from "leaflet/src/layer/LayerGroup.js";
export { divIcon } from "leaflet/src/layer/marker/DivIcon.js";
export { marker } from "leaflet/src/layer/marker/Marker.js";
export { circleMarker } from "leaflet/src/layer/vector/CircleMarker.js";
export { polygon } from "leaflet/src/layer/vector/Polygon.js";
export { polyline } from "leaflet/src/layer/vector/Polyline.js";
export { map } from "leaflet/src/map/index.js";

export const control = { scale };
