/** Roads, gate and services of the invented campground, and what shelters it from the wind. */
import { area, bearing, block, type Feature, line, MAIN_ROAD_BEARING, type Properties, spot } from "./camp.ts";
import { PLACED } from "./parts.ts";

function feature(kind: string, id: string, geometry: Properties, more: Properties): Feature {
  return { type: "Feature", id, geometry, properties: { kind, ...more } };
}

function roads(): Feature[] {
  const road = (id: string, name: string, width: number, geometry: Properties, more: Properties = {}) =>
    feature("road", id, geometry, { name, width, ...PLACED, ...more });
  return [
    road("road-main", "Main road", 6.4, line([-40, 0], [240, 0])),
    road("road-plover", "Plover lane", 5.5, line([12, 0], [12, 29.5], [152, 29.5], [152, 0]), { oneWay: true }),
    road("road-curlew", "Curlew lane", 5.2, line([12, 29.5], [12, 60], [152, 60], [152, 108], [12, 108], [12, 60]), {
      oneWay: true,
      clearHeight: 4.3,
    }),
    road("road-wren", "Wren lane", 5, line([12, 0], [12, -40], [130, -40])),
    road("road-siskin", "Siskin track", 4, line([12, -40], [12, -85], [140, -85]), { clearHeight: 3.9 }),
    road("road-grebe", "Grebe track", 4, line([140, -85], [215, -85]), { clearHeight: 3.5 }),
    road("road-shore", "Shore lane", 5, line([240, -112], [240, 108])),
    road("road-field", "Old Field track", 4, line([200, 0], [208, 140]), { accuracy: 0.3 }),
  ];
}

function services(): Feature[] {
  const out = bearing(MAIN_ROAD_BEARING + 180);
  return [
    feature("gate", "gate", spot(-22, 0), {
      name: "Gate",
      direction: MAIN_ROAD_BEARING,
      width: 4.9,
      hours: "07:00-22:00",
      ...PLACED,
    }),
    feature("dump", "dump", spot(-8, -6), {
      name: "Dump station",
      direction: out,
      inletSide: "left",
      width: 4,
      fee: "free for guests",
      season: "April to October",
    }),
    feature("fill", "fill", spot(-14, -6.5), { name: "Drinking water", direction: out, inletSide: "left", drinkable: "yes" }),
    feature("propane", "propane", spot(-12, 14), { name: "Propane", hours: "09:00-16:00", fee: "by the gallon" }),
  ];
}

function shelters(): Feature[] {
  return [
    feature("shelter", "belt-west", block(14, 150, 132, 139), {
      name: "Spruce belt",
      what: "trees",
      height: 11,
      porosity: 0.35,
      leaf: "evergreen",
    }),
    feature("shelter", "belt-field", line([176, 18], [184, 132]), {
      name: "Poplar row",
      what: "trees",
      height: 17,
      width: 5,
      porosity: 0.55,
      leaf: "deciduous",
    }),
    feature("shelter", "hedge", line([26, -19], [108, -19]), {
      name: "Hedge behind Wren Row",
      what: "hedge",
      height: 2.1,
      width: 1.2,
      porosity: 0.3,
      leaf: "evergreen",
      ...PLACED,
    }),
    feature("shelter", "hedge-shore", line([232, -101], [232, -34]), {
      name: "Willow hedge along Shore Lane",
      what: "hedge",
      height: 2.6,
      width: 1.5,
      porosity: 0.45,
      leaf: "deciduous",
      ...PLACED,
    }),
    feature("shelter", "hall", block(-32, -18, 12, 30), { name: "Hall", what: "building", height: 6.2, ...PLACED }),
    feature("shelter", "wood-trees", block(14, 136, -118, -60), {
      name: "Siskin Wood",
      what: "trees",
      height: 14,
      porosity: 0.5,
      leaf: "deciduous",
    }),
  ];
}

function grounds(): Feature[] {
  return [
    feature("ground", "lake", area([262, -170], [520, -150], [560, 20], [420, 60], [266, 10], [260, -60]), {
      name: "Sedge Water",
      what: "water",
    }),
    feature("ground", "prairie", block(-600, -45, -420, 460), { name: "Open prairie", what: "open" }),
    feature("ground", "wood", block(14, 136, -118, -60), { name: "Siskin Wood", what: "wood" }),
    feature("ground", "yard", block(-40, -5, 8, 34), { name: "Yard", what: "built" }),
  ];
}

function obstacles(): Feature[] {
  return [
    feature("obstacle", "walk", line([14, 81.8], [150, 81.8]), { what: "walkway", width: 1.5, ...PLACED }),
    feature("obstacle", "oak", spot(118, 22), { what: "tree", radius: 0.6, from: 0, to: 15, ...PLACED }),
    feature("obstacle", "wash-house", block(134, 146, 70, 79), { what: "building", from: 0, to: 4.1, ...PLACED }),
    feature("obstacle", "bell-post", spot(237.2, -20), { what: "post", radius: 0.1, from: 0, to: 2.6, ...PLACED }),
  ];
}

export function surroundings(): Feature[] {
  return [...roads(), ...services(), ...shelters(), ...grounds(), ...obstacles()];
}
