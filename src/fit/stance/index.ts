export type { SolveRequest } from "./compile.ts";
export { evaluateStance } from "./evaluate.ts";
export { bodyOutline, boxOutline, padToRig, rigToPad } from "./frame.ts";
export type * from "./problem.ts";
export { bestMargin, type CompiledStance, compileStance, type Infeasible, moveTargets, solveStance } from "./solve.ts";
