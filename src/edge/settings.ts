/** What the worker is bound to. Every binding may be missing: what it stands for is then not there. */
import type { ForecastSettings } from "../records/forecast/configuration.ts";
import type { Bucket } from "./bucket-objects.ts";

/** One Durable Object as its callers see it. */
export interface ObjectStub {
  fetch(request: Request | string, init?: RequestInit): Promise<Response>;
}

export interface ObjectNamespace {
  idFromName(name: string): unknown;
  get(id: unknown): ObjectStub;
}

export interface EdgeSettings extends ForecastSettings {
  /** One object for each campground whose hosts write, and the one object that lists them; both or neither. */
  readonly CAMPGROUNDS?: ObjectNamespace;
  readonly DIRECTORY?: ObjectNamespace;
  /** Bucket of the catalogue, and the folder in it. */
  readonly CATALOGUE?: Bucket;
  readonly CATALOGUE_FOLDER?: string;
  /** Address of the catalogue on a static server, where no bucket is bound. */
  readonly CATALOGUE_ADDRESS?: string;
  /** Seconds between two looks for a newer catalogue; default 60. */
  readonly CATALOGUE_SECONDS?: string;
  /** Seconds after which another place of the edge sees what a host wrote; default 5. */
  readonly DIRECTORY_SECONDS?: string;
  /** JSON list of {id, hash, name, grants, expiresAt}: tokens of hosts, by the SHA-256 of each. */
  readonly HOST_TOKENS?: string;
  /** The identity provider whose tokens hosts may bring; all three or none. */
  readonly TOKEN_KEYS?: string;
  readonly TOKEN_ISSUER?: string;
  readonly TOKEN_AUDIENCE?: string;
}

const MILLISECONDS = 1000;

/** Milliseconds of a setting in seconds. Throws RangeError for what is no number of seconds. */
export function millisecondsOf(text: string | undefined, otherwise: number): number {
  if (text === undefined || text.trim() === "") return otherwise * MILLISECONDS;
  const seconds = Number(text);
  if (!Number.isFinite(seconds) || seconds < 0) throw new RangeError(`"${text}" is no number of seconds.`);
  return seconds * MILLISECONDS;
}
