/** One polite live region for the whole page: margins that change, rankings that end, things that were copied. */
import { useEffect, useState } from "preact/hooks";

let tell: (text: string) => void = () => {};
let timer: ReturnType<typeof setTimeout> | undefined;

/** Several changes in quick succession are read once, the last of them. Milliseconds. */
const REST = 350;

export function announce(text: string): void {
  clearTimeout(timer);
  timer = setTimeout(() => tell(text), REST);
}

export function Announcer() {
  const [text, setText] = useState("");
  useEffect(() => {
    tell = setText;
    return () => {
      tell = () => {};
    };
  }, []);
  return (
    <div class="unseen" role="status" aria-live="polite" data-part="announcer">
      {text}
    </div>
  );
}
