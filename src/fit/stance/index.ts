export type { SolveRequest } from "./compile.ts";
export { evaluateStance } from "./evaluate.ts";
export { bodyOutline, boxOutline, noseDirection, padToRig, rigToPad } from "./frame.ts";
export type { Growth } from "./limits.ts";
export type * from "./problem.ts";
export { DEFAULT_NODE_LIMIT } from "./search.ts";
export { bestMargin, type CompiledStance, compileStance, type Infeasible, moveTargets, solveStance } from "./solve.ts";
