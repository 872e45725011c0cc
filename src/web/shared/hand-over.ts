/** Giving a text out of the page: to a file or to the clipboard. */

/** The address of the blob is let go a little later: some browsers read it only then. Milliseconds. */
const LET_GO = 10_000;

export function saveText(name: string, type: string, text: string): void {
  const address = URL.createObjectURL(new Blob([text], { type }));
  const link = document.createElement("a");
  link.href = address;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), LET_GO);
}

/** False when the browser does not let the page write to the clipboard. */
export async function copyText(text: string): Promise<boolean> {
  try {
    await navigator.clipboard.writeText(text);
    return true;
  } catch {
    return false;
  }
}
