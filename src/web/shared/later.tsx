/** A view that is loaded when it is first shown. */
import type { ComponentType } from "preact";
import { useEffect, useState } from "preact/hooks";

export function later<Props extends object>(load: () => Promise<ComponentType<Props>>): ComponentType<Props> {
  let loaded: ComponentType<Props> | null = null;
  return function Later(props: Props) {
    const [state, setState] = useState<"loading" | "ready" | "failed">(loaded === null ? "loading" : "ready");
    useEffect(() => {
      if (loaded !== null) return;
      load().then(
        (view) => {
          loaded = view;
          setState("ready");
        },
        () => setState("failed"),
      );
    }, []);
    if (state === "ready" && loaded !== null) {
      const View = loaded;
      return <View {...props} />;
    }
    return (
      <p class="quiet" role="status">
        {state === "failed" ? "This part of the page could not be loaded. Try again with a signal." : "Loading."}
      </p>
    );
  };
}
