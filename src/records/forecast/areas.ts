/** Where the United States National Weather Service is asked first. */
import table from "../../../data/weather-service.json" with { type: "json" };
import type { LonLat } from "../../geo/tangent-plane.ts";

/** True in boxes that hold the service's land areas; it tells itself what it does not cover. */
export function inWeatherServiceArea({ longitude, latitude }: LonLat): boolean {
  return table.areas.boxes.some(({ box: [west = 0, south = 0, east = 0, north = 0] }) => {
    return longitude >= west && longitude <= east && latitude >= south && latitude <= north;
  });
}
