/** From the answer inside (radians, heights without end) to the answer on the wire (degrees, null). */
import type { Check, Fit, Scene } from "../fit/answer.ts";
import type { Stance } from "../fit/stance/problem.ts";
import { degreesOf } from "./degrees.ts";
import { manoeuvreToWire } from "./manoeuvre-wire.ts";
import type { FitAnswer } from "./schemas/answer.ts";
import { windToWire } from "./wind-wire.ts";

const degreesOrNull = (radians: number | null): number | null => (radians === null ? null : degreesOf(radians));

export function fitToWire(fit: Fit): FitAnswer {
  return {
    ...fit,
    stance: fit.stance === null ? null : stanceToWire(fit.stance),
    checks: fit.checks.map(checkToWire),
    scene: sceneToWire(fit.scene),
    manoeuvre: fit.manoeuvre === null ? null : manoeuvreToWire(fit.manoeuvre),
    ...windToWire(fit),
  };
}

function stanceToWire(stance: Stance): NonNullable<FitAnswer["stance"]> {
  return { facing: stance.facing, along: stance.along, left: stance.left, yaw: degreesOf(stance.yaw) };
}

function checkToWire(check: Check): FitAnswer["checks"][number] {
  const { unit, ...rest } = check;
  if (unit !== "rad") return { ...rest, unit };
  return {
    ...rest,
    value: degreesOrNull(check.value),
    limit: degreesOrNull(check.limit),
    margin: degreesOrNull(check.margin),
    unit: "deg",
  };
}

function sceneToWire(scene: Scene): FitAnswer["scene"] {
  return {
    ...scene,
    pad: scene.pad === null ? null : { ...scene.pad, heading: degreesOrNull(scene.pad.heading) },
    rig: scene.rig === null ? null : { ...scene.rig, stance: stanceToWire(scene.rig.stance) },
    obstacles: scene.obstacles.map((obstacle) => ({
      ...obstacle,
      to: obstacle.to !== null && Number.isFinite(obstacle.to) ? obstacle.to : null,
    })),
  };
}
