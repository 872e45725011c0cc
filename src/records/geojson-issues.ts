/** From zod's issues to refusals: the path as JSON Pointer, what was found, what is expected. */
import type { core } from "zod";
import { type Findings, pointer } from "./geojson-report.ts";

type Issue = core.$ZodIssue;
const PLAIN_MESSAGE = "Invalid input";

/** Tells every issue of a failed parse below `base`. */
export function refuseIssues(issues: readonly Issue[], base: string, findings: Findings): void {
  for (const issue of issues) {
    const { path, told } = innermost(issue);
    findings.refuse(pointer(base, path), codeOf(told), told.message, expectedOf(told));
  }
}

/** Follows a failed union into the branch that came furthest, so that the path names the value and not its parent. */
function innermost(issue: Issue, above: readonly PropertyKey[] = []): { path: readonly PropertyKey[]; told: Issue } {
  const path = [...above, ...issue.path];
  if (issue.code !== "invalid_union" || !issue.message.startsWith(PLAIN_MESSAGE)) return { path, told: issue };
  const branches = issue.errors
    .map((errors) => errors[0])
    .filter((first) => first !== undefined)
    .map((first) => innermost(first, path));
  const furthest = branches.reduce<(typeof branches)[number] | null>(
    (best, next) => (best === null || rank(next) > rank(best) ? next : best),
    null,
  );
  return furthest ?? { path, told: issue };
}

/** Deeper is better; at one depth a value that is there but wrong tells more than one that is missing. */
function rank({ path, told }: { path: readonly PropertyKey[]; told: Issue }): number {
  return 2 * path.length + (told.message.endsWith("received undefined") ? 0 : 1);
}

function codeOf(issue: Issue): string {
  if (issue.code === "custom") {
    const fault: unknown = issue.params?.["fault"];
    return typeof fault === "string" ? fault : "invalid";
  }
  return issue.code.replaceAll("_", "-");
}

function expectedOf(issue: Issue): string {
  switch (issue.code) {
    case "custom": {
      const expected: unknown = issue.params?.["expected"];
      return typeof expected === "string" ? expected : issue.message;
    }
    case "invalid_type":
      return issue.expected;
    case "invalid_value":
      return issue.values.map(String).join(", ");
    case "too_big":
      return `at most ${issue.maximum}`;
    case "too_small":
      return `at least ${issue.minimum}`;
    default:
      return issue.message;
  }
}
