/** A client of the service: `createPadwrightClient({ baseUrl })`. */
export {
  type BatchRequest,
  type BatchRow,
  type CallOptions,
  type ClientOptions,
  type CollectionId,
  createPadwrightClient,
  type Feature,
  type Fit,
  type FitRequest,
  type PadwrightClient,
  type SearchAnswer,
  type SearchRequest,
} from "./client.ts";
export { PadwrightProblem, PadwrightUnreachable, type ProblemCode, type ProblemDetails } from "./problem.ts";
export type { RetryOptions } from "./retry.ts";
