/** Small dense symmetric systems: the normal equations of a tape survey have a few dozen unknowns at most. */

export type Matrix = number[][];

export function zeros(rows: number, columns: number): Matrix {
  return Array.from({ length: rows }, () => new Array<number>(columns).fill(0));
}

/** Pivots smaller than this share of their own diagonal entry make a matrix singular. */
const SINGULAR_SHARE = 1e-9;
/** And so do pivots this small: the weight of a tape known to ten kilometres is a million times larger. */
const LEAST_PIVOT = 1e-14;

/**
 * The inverse of a symmetric positive definite matrix by Cholesky's decomposition; when it is singular, the number of
 * the first row that depends on those before it.
 */
export function inverse(matrix: Matrix): Matrix | number {
  const lower = cholesky(matrix);
  if (typeof lower === "number") return lower;
  const size = matrix.length;
  const result = zeros(size, size);
  for (let column = 0; column < size; column += 1) {
    const unit = new Array<number>(size).fill(0);
    unit[column] = 1;
    const solved = backward(lower, forward(lower, unit));
    for (let row = 0; row < size; row += 1) put(result, row, column, solved[row] as number);
  }
  return result;
}

/** The vector that the matrix turns into `right`; null when the matrix is singular. */
export function solve(matrix: Matrix, right: readonly number[]): number[] | null {
  const lower = cholesky(matrix);
  return typeof lower === "number" ? null : backward(lower, forward(lower, right));
}

function cholesky(matrix: Matrix): Matrix | number {
  const size = matrix.length;
  const lower = zeros(size, size);
  for (let row = 0; row < size; row += 1) {
    for (let column = 0; column <= row; column += 1) {
      let sum = entry(matrix, row, column);
      for (let k = 0; k < column; k += 1) sum -= entry(lower, row, k) * entry(lower, column, k);
      if (row !== column) put(lower, row, column, sum / entry(lower, column, column));
      else if (!(sum > Math.max(LEAST_PIVOT, SINGULAR_SHARE * entry(matrix, row, row)))) return row;
      else put(lower, row, row, Math.sqrt(sum));
    }
  }
  return lower;
}

export function times(matrix: Matrix, vector: readonly number[]): number[] {
  return matrix.map((row) => row.reduce((sum, value, index) => sum + value * (vector[index] as number), 0));
}

function forward(lower: Matrix, right: readonly number[]): number[] {
  const result: number[] = [];
  for (let row = 0; row < lower.length; row += 1) {
    let sum = right[row] as number;
    for (let k = 0; k < row; k += 1) sum -= entry(lower, row, k) * (result[k] as number);
    result.push(sum / entry(lower, row, row));
  }
  return result;
}

function backward(lower: Matrix, right: readonly number[]): number[] {
  const result = new Array<number>(lower.length).fill(0);
  for (let row = lower.length - 1; row >= 0; row -= 1) {
    let sum = right[row] as number;
    for (let k = row + 1; k < lower.length; k += 1) sum -= entry(lower, k, row) * (result[k] as number);
    result[row] = sum / entry(lower, row, row);
  }
  return result;
}

function entry(matrix: Matrix, row: number, column: number): number {
  return (matrix[row] as number[])[column] as number;
}

function put(matrix: Matrix, row: number, column: number, value: number): void {
  (matrix[row] as number[])[column] = value;
}
