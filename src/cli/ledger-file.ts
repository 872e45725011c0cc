/** Which paths of --data are ledgers. */

export const isLedger = (path: string): boolean => /\.(sqlite|sqlite3|db)$/.test(path);
