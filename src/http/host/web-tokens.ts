/**
 * JSON Web Tokens of an identity provider (RFC 7519), checked by the keys that it publishes (RFC 7517). Only signatures
 * with a public key are taken, so that nobody can sign with what is published.
 */
import {
  createRemoteJWKSet,
  customFetch,
  errors,
  type FetchImplementation,
  type JWTPayload,
  type JWTVerifyGetKey,
  jwtVerify,
} from "jose";
import * as z from "zod";
import { SCOPES } from "../../ledger/tokens.ts";
import type { Principal, WebTokens } from "./host.ts";

export interface WebTokenSettings {
  /** Address of the key set; https, or http on the loopback address. */
  readonly keys: string;
  readonly issuer: string;
  readonly audience: string;
  /** Milliseconds since 1970 UTC. */
  readonly now: () => number;
  /** Default: the runtime's fetch. */
  readonly fetch?: FetchImplementation;
}

const ALGORITHMS = ["RS256", "RS384", "RS512", "PS256", "PS384", "PS512", "ES256", "ES384", "ES512", "EdDSA"];
/** Seconds by which two clocks may differ. */
const LEEWAY = 60;
/** Milliseconds between two fetches of the key set, whether it came or not and whatever keys are asked for. */
const COOL_DOWN = 30_000;
const FETCH_WITHIN = 5000;
const KEYS_KEPT = 600_000;

/** The claim that says what the bearer may do: scopes by campground id, `*` for every campground. */
const CLAIM = "padwright";
const grantsSchema = z.record(z.string(), z.array(z.enum(SCOPES)));

export function webTokens(settings: WebTokenSettings): WebTokens {
  const keys = createRemoteJWKSet(new URL(settings.keys), {
    timeoutDuration: FETCH_WITHIN,
    cooldownDuration: COOL_DOWN,
    cacheMaxAge: KEYS_KEPT,
    [customFetch]: patientFetch(settings),
  });
  const keyOf: JWTVerifyGetKey = (header, parts) => {
    // A token that names no key would be tried with whatever key happens to be alone.
    if (typeof header.kid !== "string") throw new errors.JWKSNoMatchingKey();
    return keys(header, parts);
  };
  return async (token) => {
    try {
      const { payload } = await jwtVerify(token, keyOf, {
        algorithms: ALGORITHMS,
        issuer: settings.issuer,
        audience: settings.audience,
        clockTolerance: LEEWAY,
        requiredClaims: ["exp", "sub"],
        currentDate: new Date(settings.now()),
      });
      return principalOf(payload);
    } catch (fault) {
      if (isTokenFault(fault)) return null;
      throw fault instanceof errors.JOSEError ? new KeysOutOfReach() : fault;
    }
  };
}

/** What the library says of the key set, not of the token. */
const KEY_SET_FAULTS: readonly string[] = [
  "ERR_JOSE_GENERIC",
  "ERR_JWKS_TIMEOUT",
  "ERR_JWKS_INVALID",
  "ERR_JWK_INVALID",
];

const isTokenFault = (fault: unknown): boolean =>
  fault instanceof errors.JOSEError && !KEY_SET_FAULTS.includes(fault.code);

function principalOf(payload: JWTPayload): Principal | null {
  const grants = grantsSchema.safeParse(payload[CLAIM] ?? {});
  if (!grants.success || payload.sub === undefined || payload.sub === "") return null;
  return { subject: `${payload.iss ?? ""} ${payload.sub}`, grants: grants.data };
}

/**
 * The key library waits only after a fetch that worked; this one waits after every fetch, so that neither a flood of
 * unknown keys nor a provider that is down makes more than one request in a cool-down.
 */
function patientFetch({ now, fetch: given }: WebTokenSettings): FetchImplementation {
  const ask: FetchImplementation = given ?? ((url, options) => fetch(url, options));
  let asked: number | null = null;
  return async (url, options) => {
    const at = now();
    // A clock that was put back must not lock the keys out for as long as it was put back.
    if (asked !== null && at >= asked && at < asked + COOL_DOWN) throw new KeysOutOfReach();
    asked = at;
    try {
      return await ask(url, options);
    } catch {
      throw new KeysOutOfReach();
    }
  };
}

/** The key set cannot be had now. */
export class KeysOutOfReach extends Error {}
