/** Objects by name: what a catalogue asks of a bucket, a folder, or a static server, and the packing of its records. */

export interface ObjectSource {
  /** The object's bytes; null when there is none of this name. */
  get(name: string): Promise<Uint8Array | null>;
}

export interface ObjectSink extends ObjectSource {
  has(name: string): Promise<boolean>;
  /** Writes the whole object or nothing. */
  put(name: string, bytes: Uint8Array): Promise<void>;
}

const HEXADECIMAL = 16;
const NAME_BYTES = 16;

/** A name made of the content: what has it never changes. */
export async function contentName(bytes: Uint8Array, ending: string): Promise<string> {
  const hash = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes.slice()));
  const text = [...hash.subarray(0, NAME_BYTES)].map((byte) => byte.toString(HEXADECIMAL).padStart(2, "0")).join("");
  return `${text}${ending}`;
}

export function packed(text: string): Promise<Uint8Array> {
  return through(new TextEncoder().encode(text), new CompressionStream("gzip"));
}

/** Bytes that a packed record may unfold to, so that a small object cannot fill the memory. */
const MOST_BYTES = 64 * 1024 * 1024;

/** The text of a packed object; throws when it is damaged or unfolds to more than a record may have. */
export async function unpacked(bytes: Uint8Array): Promise<string> {
  return new TextDecoder().decode(await through(bytes, new DecompressionStream("gzip")));
}

async function through(bytes: Uint8Array, stream: CompressionStream | DecompressionStream): Promise<Uint8Array> {
  const writer = stream.writable.getWriter();
  // What goes wrong while writing is heard of where the other end is read.
  const written = writer.write(bytes.slice()).then(() => writer.close());
  written.catch(() => undefined);
  const reader = stream.readable.getReader();
  const chunks: Uint8Array[] = [];
  let length = 0;
  for (;;) {
    const { done, value } = await reader.read();
    if (done) break;
    length += value.length;
    if (length > MOST_BYTES) {
      await reader.cancel();
      throw new Error(`An object unfolds to more than ${MOST_BYTES} bytes.`);
    }
    chunks.push(value);
  }
  const whole = new Uint8Array(length);
  let at = 0;
  for (const chunk of chunks) {
    whole.set(chunk, at);
    at += chunk.length;
  }
  return whole;
}
