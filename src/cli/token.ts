/** padwright token: the tokens with which hosts call the API. */
import { randomUUID } from "node:crypto";
import { existsSync } from "node:fs";
import { freshToken, sha256 } from "../http/host/local-tokens.ts";
import type { Ledger } from "../ledger/ledger.ts";
import { createToken, listTokens, revokeToken, SCOPES, type Scope, type TokenEntry } from "../ledger/tokens.ts";
import { openLedger } from "../node/ledger.ts";
import { EXIT, type ExitCode, inputError, usageError } from "./ending.ts";
import type { CommandSpec, Given } from "./flags.ts";
import { isLedger } from "./ledger-file.ts";
import type { Terminal } from "./terminal.ts";

const DAY = 86_400_000;
const LONGEST_LIFE = 3660;
const ID_LENGTH = 8;

export const TOKEN: CommandSpec = {
  name: "token",
  summary: "Make, list and revoke the tokens of hosts.",
  usage: "token create|list|revoke --data file.sqlite [flags]",
  about: [
    "create makes a token and shows it this once; the ledger keeps its SHA-256 alone. list shows what each may do, never the token. revoke ends one by its id, at once.",
    "Scopes: read (stays, plan, changes), stays (write stays, places, holds, closures), records (write campground records). Each stands for itself.",
  ],
  flags: {
    data: { value: "file", required: true, help: "File of the ledger." },
    campground: { value: "id", repeats: true, help: "create: campground that it is for; * is every one." },
    scopes: { value: "words", help: "create: scopes with commas between them. Default: read,stays." },
    name: { value: "text", help: "create: what it is for, such as the desk it is used at." },
    days: { value: "number", help: "create: days until it ends. Default: it does not end." },
    id: { value: "id", help: "revoke: id of the token, from list." },
  },
  operands: ["action"],
  examples: [
    "padwright token create --data park.sqlite --campground alder-flat --scopes read,stays --name office",
    "padwright token list --data park.sqlite",
    "padwright token revoke --data park.sqlite --id 1b9d6bcd",
  ],
};

type Action = (given: Given, terminal: Terminal, ledger: Ledger) => Promise<void>;
const ACTIONS: Readonly<Record<string, Action>> = { create, list, revoke };

export async function tokenCommand(given: Given, terminal: Terminal): Promise<ExitCode> {
  const [word = ""] = given.operands;
  const action = Object.hasOwn(ACTIONS, word) ? ACTIONS[word] : undefined;
  if (action === undefined) throw usageError(`"${word}" is none of create, list, revoke.`);
  const path = given.value("data") ?? "";
  if (!isLedger(path)) throw usageError(`--data wants the file of a ledger (.sqlite or .db), and "${path}" is none.`);
  // A slip in the path must not make an empty ledger whose tokens open nothing.
  if (!existsSync(path)) throw inputError(`There is no ledger ${path}. padwright serve --data ${path} makes one.`);
  const { ledger, close } = opened(path);
  try {
    await action(given, terminal, ledger);
    return EXIT.answered;
  } finally {
    close();
  }
}

function opened(path: string) {
  try {
    return openLedger(path);
  } catch (fault) {
    throw inputError(fault instanceof Error ? fault.message : String(fault));
  }
}

async function create(given: Given, terminal: Terminal, ledger: Ledger): Promise<void> {
  const campgrounds = given.values("campground");
  if (campgrounds.length === 0) throw usageError("--campground id is missing.");
  const scopes = scopesOf(given.value("scopes") ?? "read,stays");
  const token = freshToken();
  const id = randomUUID().slice(0, ID_LENGTH);
  const grants = Object.fromEntries(campgrounds.map((campground) => [campground, scopes]));
  const hash = await sha256(token);
  const entry = { id, name: given.value("name") ?? "", grants, expiresAt: endOf(given.value("days"), ledger.now()) };
  ledger.sql.transaction(() => createToken(ledger, hash, entry));
  terminal.out(token);
  terminal.error(`This is the only time that it is shown. Its id is ${id}.`);
}

function scopesOf(text: string): Scope[] {
  const words = text.split(",").map((word) => word.trim());
  return words.map((word) => {
    const scope = SCOPES.find((one) => one === word);
    if (scope === undefined) throw usageError(`"${word}" is no scope. The scopes are ${SCOPES.join(", ")}.`);
    return scope;
  });
}

function endOf(days: string | null, now: number): string | null {
  if (days === null) return null;
  const count = Number(days);
  if (!/^\d+$/.test(days) || count < 1 || count > LONGEST_LIFE) {
    throw usageError(`--days wants a whole number from 1 to ${LONGEST_LIFE}, and "${days}" is none.`);
  }
  return new Date(now + count * DAY).toISOString();
}

async function list(_given: Given, terminal: Terminal, ledger: Ledger): Promise<void> {
  const now = new Date(ledger.now()).toISOString();
  for (const token of listTokens(ledger)) terminal.out(lineOf(token, now));
}

function lineOf({ id, name, grants, expiresAt, revokedAt }: TokenEntry, now: string): string {
  const may = Object.entries(grants).map(([campground, scopes]) => `${campground}: ${scopes.join(" ")}`);
  const ended = expiresAt !== null && expiresAt <= now ? "ended" : "ends";
  const state = revokedAt !== null ? `revoked ${revokedAt}` : expiresAt !== null ? `${ended} ${expiresAt}` : "no end";
  return [id, name === "" ? "-" : name, may.join("; "), state].join("\t");
}

async function revoke(given: Given, terminal: Terminal, ledger: Ledger): Promise<void> {
  const id = given.value("id");
  if (id === null) throw usageError("--id of the token is missing.");
  if (!ledger.sql.transaction(() => revokeToken(ledger, id))) throw inputError(`There is no token ${id}.`);
  terminal.error(`The token ${id} is revoked.`);
}
