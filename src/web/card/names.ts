/** Names of receptacles and kit as the tables give them. */
import kit from "../../../data/kit.json" with { type: "json" };
import receptacles from "../../../data/receptacles.json" with { type: "json" };

export function receptacleName(id: string): string {
  return receptacles.devices.find((device) => device.id === id)?.name ?? id;
}

export function kitTitle(item: string): string {
  const titles: Readonly<Record<string, { readonly title: string }>> = kit.items;
  return Object.hasOwn(titles, item) ? (titles[item]?.title ?? item) : item;
}
