/** Rows as a stream of text that is made only as fast as it is read, and ends when nobody reads any more. */
import type { Row } from "./rows.ts";

export const NDJSON_TYPE = "application/x-ndjson";
export const SEQUENCE_TYPE = "application/geo+json-seq";

/** RFC 8142 section 2 (from memory): each text begins with a record separator and ends with a line feed. */
const RECORD_SEPARATOR = "\u001e";

const WRITERS: Readonly<Record<string, (row: Row) => string>> = {
  [NDJSON_TYPE]: ({ row }) => `${JSON.stringify(row)}\n`,
  [SEQUENCE_TYPE]: ({ row, geometry }) => {
    const feature = { type: "Feature", id: String(row.row), geometry, properties: row };
    return `${RECORD_SEPARATOR}${JSON.stringify(feature)}\n`;
  },
};

/** A fault between two rows breaks the stream off: a reader sees that it did not come to its end. */
export function rowStream(rows: AsyncGenerator<Row>, type: string): ReadableStream<Uint8Array> {
  const write = WRITERS[type];
  const encoder = new TextEncoder();
  return new ReadableStream<Uint8Array>(
    {
      async pull(controller) {
        const { done, value } = await rows.next();
        if (done === true || write === undefined) controller.close();
        else controller.enqueue(encoder.encode(write(value)));
      },
      async cancel() {
        await rows.return(undefined);
      },
    },
    // Nothing is computed ahead of the reader.
    { highWaterMark: 0 },
  );
}
