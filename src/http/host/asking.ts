/** A question of a host that needs a body and writes nothing: what every such route says of itself and does first. */
import type * as z from "zod";
import { BODY_PROBLEMS, jsonBody } from "../body.ts";
import type { Limits } from "../limits.ts";
import { negotiate } from "../negotiate.ts";
import { refuseParameters } from "../parameters.ts";
import { Problem } from "../problem.ts";
import type { Call, Route } from "../route.ts";
import { check } from "../validate.ts";
import { admit, requireCampground } from "./admit.ts";
import { BASE, CAMPGROUND, jsonContent, READ_PROBLEMS } from "./describe.ts";
import type { HostDependencies } from "./host.ts";
import { hostOf, JSON_TYPE } from "./writing.ts";

interface AskWords<Schema extends z.ZodType, Media extends string>
  extends Pick<Route, "operationId" | "summary" | "description" | "answer"> {
  /** Follows the path of the campground. */
  readonly path: string;
  readonly asks: string;
  /** Component that the body is, and its schema. */
  readonly component: string;
  readonly schema: Schema;
  readonly most: keyof Pick<Limits, "hostBodyBytes" | "importBodyBytes">;
  /** Media types of the answer, the usual one first. */
  readonly mediaTypes: readonly [Media, ...Media[]];
}

/** One question, checked. */
export interface Asking<Asked, Media extends string> {
  readonly call: Call;
  readonly host: HostDependencies;
  readonly campground: string;
  readonly asked: Asked;
  /** Of the answer's media types the one that the caller takes. */
  readonly mediaType: Media;
}

export function askRoute<Schema extends z.ZodType, const Media extends string>(
  words: AskWords<Schema, Media>,
  answer: (asking: Asking<z.output<Schema>, Media>) => Promise<Response>,
): Route {
  const { path, asks, component, schema, most, mediaTypes, ...described } = words;
  return {
    method: "POST",
    path: BASE + path,
    tag: "Hosts",
    scope: "read",
    parameters: [CAMPGROUND],
    requestBody: { description: asks, content: jsonContent(component) },
    conditional: false,
    problems: [...READ_PROBLEMS, ...BODY_PROBLEMS, "invalid-request", "too-many-sites", "too-many-jobs"],
    ...described,
    handle: async (call) => {
      const host = hostOf(call);
      const campground = call.params["id"] ?? "";
      await admit(call, host, campground, "read");
      requireCampground(host, campground);
      const rule = { mediaTypes: [JSON_TYPE], maxBytes: call.limits[most] };
      const body = await jsonBody(call.request, rule, call.limits.jsonDepth);
      const mediaType = negotiate(call.request.headers.get("accept"), mediaTypes);
      refuseParameters(call.url, []);
      const checked = check(schema, body);
      if (!checked.ok) throw new Problem("invalid-request", "The request cannot be used as it stands.", checked.errors);
      return answer({ call, host, campground, asked: checked.value, mediaType });
    },
  };
}
