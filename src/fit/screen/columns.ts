/** Columns of 32-bit numbers that grow by doubling: a million rows without a million objects. */
export interface Columns {
  readonly length: number;
  push(row: readonly number[]): void;
  column(place: number): Float32Array;
}

const FIRST = 64;

export function growColumns(names: readonly string[]): Columns {
  let room = FIRST;
  let length = 0;
  let columns = names.map(() => new Float32Array(room));
  return {
    get length() {
      return length;
    },
    push(row) {
      if (length === room) {
        room *= 2;
        columns = columns.map((old) => {
          const grown = new Float32Array(room);
          grown.set(old);
          return grown;
        });
      }
      for (let place = 0; place < columns.length; place++) columns[place]![length] = row[place] ?? Number.NaN;
      length++;
    },
    column: (place) => columns[place]!.slice(0, length),
  };
}
