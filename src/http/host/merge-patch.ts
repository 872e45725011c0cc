/** JSON merge patch (RFC 7396). The values come from the strict reader, which lets no prototype key through. */
import type { JsonValue } from "../../records/json.ts";

export const MERGE_PATCH_TYPE = "application/merge-patch+json";

type JsonObject = { readonly [key: string]: unknown };

const isObject = (value: unknown): value is JsonObject =>
  typeof value === "object" && value !== null && !Array.isArray(value);

/** What `patch` makes of `target`; a member that is null in the patch goes. */
export function mergePatch(target: unknown, patch: JsonValue): unknown {
  if (!isObject(patch)) return patch;
  const merged: Record<string, unknown> = isObject(target) ? { ...target } : {};
  for (const [key, value] of Object.entries(patch)) {
    if (value === null) delete merged[key];
    else merged[key] = mergePatch(merged[key], value as JsonValue);
  }
  return merged;
}
