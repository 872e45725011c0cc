/**
 * A rig in a link: its JSON, deflated where the browser can, as base64url behind the hash, so that it never leaves the
 * device unless its owner sends the link. What comes in by a link is only text until `parseRig` has read it.
 */
import type { WireRig } from "../state/store.ts";

/** Longest link part that is written or read, characters; messengers cut longer links. */
export const MOST_CHARACTERS = 8000;
/** Largest record that is unpacked or opened, bytes: a full rig takes some ten thousand. */
export const MOST_BYTES = 200_000;
/** First letter of what follows: deflated, or plain where the browser cannot deflate. */
const DEFLATED = "z";
const PLAIN = "j";
/** Bytes handed to String.fromCharCode at once. */
const CHUNK = 4096;

export class UnreadableLink extends Error {}

function toText(bytes: Uint8Array): string {
  let binary = "";
  for (let start = 0; start < bytes.length; start += CHUNK)
    binary += String.fromCharCode(...bytes.subarray(start, start + CHUNK));
  return btoa(binary).replaceAll("+", "-").replaceAll("/", "_").replace(/=+$/, "");
}

function toBytes(text: string): Uint8Array<ArrayBuffer> {
  if (!/^[A-Za-z0-9_-]*$/.test(text))
    throw new UnreadableLink("The link is damaged: it holds characters that no such link has.");
  return Uint8Array.from(atob(text.replaceAll("-", "+").replaceAll("_", "/")), (letter) => letter.charCodeAt(0));
}

/** The whole of a stream, refused beyond the most that a rig can be. */
async function gather(stream: ReadableStream<Uint8Array>): Promise<Uint8Array> {
  const reader = stream.getReader();
  const parts: Uint8Array[] = [];
  let size = 0;
  for (;;) {
    const { done, value } = await reader.read();
    if (done) break;
    size += value.length;
    if (size > MOST_BYTES) {
      await reader.cancel();
      throw new UnreadableLink("The link holds more than a rig can be.");
    }
    parts.push(value);
  }
  const all = new Uint8Array(size);
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}

const through = (bytes: Uint8Array<ArrayBuffer>, change: CompressionStream | DecompressionStream) =>
  gather(new Blob([bytes]).stream().pipeThrough(change));

/** The rig as the value of a link; null when it is too long for one. */
export async function encodeRig(rig: WireRig): Promise<string | null> {
  const bytes = new TextEncoder().encode(JSON.stringify(rig));
  const canDeflate = typeof CompressionStream !== "undefined";
  const packed = canDeflate ? await through(bytes, new CompressionStream("deflate-raw")) : bytes;
  const text = (canDeflate ? DEFLATED : PLAIN) + toText(packed);
  return text.length > MOST_CHARACTERS ? null : text;
}

/** A record from a text; only an object can be a rig. */
export function readRecord(text: string): WireRig {
  let read: unknown;
  try {
    read = JSON.parse(text);
  } catch {
    throw new UnreadableLink("This is not JSON, so it is no rig.");
  }
  if (typeof read !== "object" || read === null || Array.isArray(read))
    throw new UnreadableLink("This is JSON, but not a rig record.");
  return read as WireRig;
}

/** The record of a link. Throws `UnreadableLink` with words for the reader; says nothing of whether it is a rig. */
export async function decodeRig(value: string): Promise<WireRig> {
  if (value.length > MOST_CHARACTERS) throw new UnreadableLink("The link is longer than a rig's link can be.");
  const [form, packed] = [value.slice(0, 1), value.slice(1)];
  if (form !== DEFLATED && form !== PLAIN)
    throw new UnreadableLink("The link is damaged: it does not begin as a rig's link does.");
  try {
    const bytes = toBytes(packed);
    const unpacked = form === PLAIN ? bytes : await through(bytes, new DecompressionStream("deflate-raw"));
    return readRecord(new TextDecoder("utf-8", { fatal: true }).decode(unpacked));
  } catch (fault) {
    if (fault instanceof UnreadableLink) throw fault;
    throw new UnreadableLink("The link is damaged or was cut off: it cannot be unpacked.");
  }
}

const KEY = "rig";

/** The value of a rig's link in the part of an address behind the hash; null when there is none. */
export function sharedIn(hash: string): string | null {
  const [, query = ""] = hash.split("?");
  const value = new URLSearchParams(query).get(KEY);
  return value === null || value === "" ? null : value;
}

export const shareHash = (value: string): string => `#/rig?${KEY}=${value}`;
