/** A walk round a pad with a tape: marks, readings as typed, offsets from the pad's edges. Plain data, kept as it is. */
import type { PadPoint } from "../../geo/pad-frame.ts";
import type { Service } from "../../rig/completed.ts";
import { parseQuantity } from "../../units/parse.ts";

/** What a mark is. Corners and the wheel stop have names of their own in every record. */
export type MarkKind = "corner" | "wheel-stop" | "hookup" | "thing";

export interface WalkMark {
  readonly id: string;
  readonly label: string;
  readonly kind: MarkKind;
  readonly service?: Service;
  /** Of a hookup: height of its receptacle, outlet or rim above the ground, as typed. */
  readonly height?: string;
  /** Of a thing: its radius, as typed; with it the thing is an obstacle. */
  readonly radius?: string;
}

/** A tape between two marks, on the ground, as typed. */
export interface Reading {
  readonly from: string;
  readonly to: string;
  readonly distance: string;
}

export type AcrossFrom = "left-edge" | "right-edge" | "middle-left" | "middle-right";

/** A mark by its distance from the pad's rear edge and sideways: outward from an edge, or from the middle line. */
export interface Offset {
  readonly mark: string;
  readonly along: string;
  readonly across: string;
  readonly acrossFrom: AcrossFrom;
}

export interface Walk {
  readonly marks: readonly WalkMark[];
  readonly readings: readonly Reading[];
  readonly offsets: readonly Offset[];
  /** Where a mark is, of two places that the tapes leave: the one nearer to this. */
  readonly choices: Readonly<Record<string, PadPoint>>;
}

export const CORNER_MARKS: readonly WalkMark[] = [
  { id: "rear-left", label: "rear left corner", kind: "corner" },
  { id: "rear-right", label: "rear right corner", kind: "corner" },
  { id: "exit-left", label: "exit left corner", kind: "corner" },
  { id: "exit-right", label: "exit right corner", kind: "corner" },
];

/** Marks that can be added; those of a service get a number when the site has one already. */
export const ADDABLE: readonly {
  readonly what: string;
  readonly label: string;
  readonly kind: MarkKind;
  readonly service?: Service;
}[] = [
  { what: "pedestal", label: "pedestal", kind: "hookup", service: "power" },
  { what: "tap", label: "water tap", kind: "hookup", service: "water" },
  { what: "riser", label: "sewer riser", kind: "hookup", service: "sewer" },
  { what: "television-post", label: "television post", kind: "hookup", service: "cable" },
  { what: "wheel-stop", label: "wheel stop", kind: "wheel-stop" },
  { what: "tree", label: "tree", kind: "thing" },
  { what: "site-post", label: "site post", kind: "thing" },
  { what: "table", label: "table", kind: "thing" },
  { what: "fire-ring", label: "fire ring", kind: "thing" },
];

const HOOKUP_LABELS: Readonly<Record<Service, string>> = {
  power: "pedestal",
  water: "water tap",
  fill: "fill tap",
  sewer: "sewer riser",
  cable: "television post",
};

/** A new walk on a site whose record names these hookups. */
export function newWalk(hookups: readonly { readonly id: string; readonly service: Service }[]): Walk {
  const count = new Map<Service, number>();
  const marks = hookups.map(({ id, service }): WalkMark => {
    const number = (count.get(service) ?? 0) + 1;
    count.set(service, number);
    return {
      id,
      service,
      kind: "hookup",
      label: number === 1 ? HOOKUP_LABELS[service] : `${HOOKUP_LABELS[service]} ${number}`,
    };
  });
  return { marks: [...CORNER_MARKS, ...marks], readings: [], offsets: [], choices: {} };
}

/** The walk with one more mark, under a free id. */
export function withMark(walk: Walk, what: string): Walk {
  const made = ADDABLE.find((one) => one.what === what);
  if (made === undefined) return walk;
  const { label, kind, service } = made;
  const ids = new Set(walk.marks.map((mark) => mark.id));
  if (kind === "wheel-stop" && ids.has(what)) return walk;
  let number = 1;
  while (ids.has(number === 1 ? what : `${what}-${number}`)) number += 1;
  const named = number === 1 ? { id: what, label } : { id: `${what}-${number}`, label: `${label} ${number}` };
  return { ...walk, marks: [...walk.marks, { ...named, kind, ...(service === undefined ? {} : { service }) }] };
}

/** The walk without a mark and all that was measured to it. */
export function withoutMark(walk: Walk, id: string): Walk {
  const { [id]: _, ...choices } = walk.choices;
  return {
    marks: walk.marks.filter((mark) => mark.id !== id),
    readings: walk.readings.filter(({ from, to }) => from !== id && to !== id),
    offsets: walk.offsets.filter(({ mark }) => mark !== id),
    choices,
  };
}

export const labelOf = (walk: Walk, id: string): string => walk.marks.find((mark) => mark.id === id)?.label ?? id;

/** Metres of a typed length; null when it cannot be read. */
export function metresOf(text: string): number | null {
  const read = parseQuantity("length", text);
  return read.ok && read.value >= 0 ? read.value : null;
}
