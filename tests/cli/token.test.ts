import { mkdtemp, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { sha256 } from "../../src/http/host/local-tokens.ts";
import { validToken } from "../../src/ledger/tokens.ts";
import { openLedger } from "../../src/node/ledger.ts";
import { type BuiltCommand, buildCommand } from "./run.ts";

let folder: string;
let path: string;
let command: BuiltCommand;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "padwright-token-"));
  path = join(folder, "park.sqlite");
  command = await buildCommand();
});
afterAll(async () => {
  await command.remove();
  await rm(folder, { recursive: true });
});

describe("padwright token", () => {
  it("makes a token that is shown once and kept as a digest, lists it, and revokes it", async () => {
    const missing = await command.run(["token", "list", "--data", path]);
    expect([missing.code, missing.error]).toEqual([3, expect.stringContaining("There is no ledger")]);
    openLedger(path).close();
    const create = ["token", "create", "--data", path, "--campground", "alder-flat", "--name", "gate", "--days", "30"];
    const made = await command.run(create);
    expect(made.code).toBe(0);
    const token = made.out.trim();
    expect(token).toMatch(/^padwright_[\w-]{43}$/);
    const { ledger, close } = openLedger(path);
    const entry = validToken(ledger, await sha256(token));
    expect(entry).toMatchObject({ name: "gate", grants: { "alder-flat": ["read", "stays"] } });
    expect(made.error).toContain(entry?.id ?? "none");
    const listed = await command.run(["token", "list", "--data", path]);
    expect(listed.out).toContain(`${entry?.id}\tgate\talder-flat: read stays\tends `);
    expect(listed.out).not.toContain(token);
    expect((await command.run(["token", "revoke", "--data", path, "--id", entry?.id ?? ""])).code).toBe(0);
    expect(validToken(ledger, await sha256(token))).toBeNull();
    expect((await command.run(["token", "list", "--data", path])).out).toContain("revoked ");
    close();
    // Read only now: closing any handle of the file would take the locks of an open ledger in this process with it.
    expect((await readFile(path)).includes(token)).toBe(false);
  });

  it("refuses what it cannot use", async () => {
    const run = async (...args: string[]) => (await command.run(["token", ...args])).code;
    expect(await run("make", "--data", path)).toBe(2);
    expect(await run("create", "--data", path)).toBe(2);
    expect(await run("create", "--data", path, "--campground", "a", "--scopes", "read,all")).toBe(2);
    expect(await run("create", "--data", path, "--campground", "a", "--days", "0")).toBe(2);
    expect(await run("list", "--data", folder)).toBe(2);
    expect(await run("revoke", "--data", path, "--id", "nobody")).toBe(3);
  });
});
