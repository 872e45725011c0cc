/**
 * Parts of the core that only a full answer calls. The built page loads them with the first full answer instead of
 * with the worker (build/deferred.ts writes this file's body then). Run as it stands there is nothing to wait for: the
 * core has imported them by itself.
 */
export async function withFullCore(): Promise<void> {}
