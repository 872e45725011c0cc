/** Driver's and passenger's side of a parked rig in the pad frame. */
export type WireSide = "left" | "right" | "driver" | "passenger";
export type PadSide = "left" | "right";

export interface Parking {
  readonly drivesOn: "right" | "left" | null;
  /** True when rigs stand here nose in only; otherwise the nose points to the exit, as in a backed-in rig. */
  readonly noseIn: boolean;
}

/** The pad's side that is meant; null when the record does not say on which side people drive. */
export function padSide(side: WireSide, parking: Parking): PadSide | null {
  if (side === "left" || side === "right") return side;
  if (parking.drivesOn === null) return null;
  // Who drives on the right sits on the left, and a rig with its nose to the exit has its left on the pad's left.
  const driverLeft = (parking.drivesOn === "right") !== parking.noseIn;
  return driverLeft === (side === "driver") ? "left" : "right";
}

/** The pad's side on which a parked rig has its own left. */
export function rigLeft({ noseIn }: Parking): PadSide {
  return noseIn ? "right" : "left";
}
