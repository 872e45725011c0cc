/** The content security policy of the reference page: its own style, and nothing else. */
import { PAGE_STYLE } from "./document-page.ts";

export async function pagePolicy(): Promise<Readonly<Record<string, string>>> {
  const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", new TextEncoder().encode(PAGE_STYLE)));
  const hash = `sha256-${btoa(String.fromCharCode(...digest))}`;
  return {
    "Content-Security-Policy": `default-src 'none'; style-src '${hash}'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'`,
  };
}
