/** A store that is drawn from or filled at a steady rate. Litres, or watt-hours; days. */

/** Litres below which a store counts as empty, or as full: far below what any gauge shows. */
const TINY = 1e-9;

export interface Tank {
  /** Null when nobody knows how much it holds. */
  readonly size: number | null;
  /** What is in it; what came in since the start where `known` is false. */
  content: number;
  /** False while nobody knows how much was in it at the start. */
  known: boolean;
}

/** A tank at a share of its size. A waste tank that starts empty is known even when its size is not. */
export function tankAt(size: number | null, share: number | null): Tank {
  if (share === 0) return { size, content: 0, known: true };
  return size === null || share === null
    ? { size, content: 0, known: false }
    : { size, content: size * share, known: true };
}

/** What a gauge would show; null when size or content is not known. */
export function levelOf(tank: Tank): number | null {
  return tank.size === null || !tank.known ? null : tank.content;
}

/** False only when it is known to be empty. */
export function gives(tank: Tank): boolean {
  const level = levelOf(tank);
  return level === null || level > TINY;
}

/** False only when it is known to be full. */
export function hasRoom(tank: Tank): boolean {
  const level = levelOf(tank);
  return level === null || tank.size === null || level < tank.size - TINY;
}

/** Days until the tank meets the bound that a rate drives it to; infinite when it never does, or nobody knows. */
export function daysToBound(tank: Tank, rate: number): number {
  const level = levelOf(tank);
  if (level === null || tank.size === null || rate === 0) return Number.POSITIVE_INFINITY;
  return rate < 0 ? level / -rate : (tank.size - level) / rate;
}

/** Lets a rate work for some days; what lies within a trace of a bound is put onto it. */
export function flow(tank: Tank, rate: number, days: number): void {
  tank.content += rate * days;
  if (levelOf(tank) === null) return;
  if (tank.content < TINY) tank.content = 0;
  if (tank.size !== null && tank.content > tank.size - TINY) tank.content = tank.size;
}
