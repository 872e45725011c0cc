/** Dragging a bar with a mouse or a pen. A finger scrolls the board: it picks up by a press. */
import { useEffect, useRef } from "preact/hooks";
import type { HostStay } from "../book.ts";
import { holdOver, leaveIt, letGo, pickUp } from "./carry.ts";

/** Pixels that a press may wander before it is a drag. */
const SLACK = 5;
/** Near the edge of the window the page scrolls along, pixels. */
const EDGE = 60;
const SCROLL_STEP = 12;

export const SITE_ROW = "data-site-row";

const rowAt = (x: number, y: number): string | null =>
  document.elementFromPoint(x, y)?.closest(`[${SITE_ROW}]`)?.getAttribute(SITE_ROW) ?? null;

interface Drag {
  readonly stay: HostStay;
  readonly x: number;
  readonly y: number;
  moving: boolean;
}

export interface Dragging {
  readonly onPointerDown: (event: PointerEvent, stay: HostStay) => void;
  /** True for the press that ends a drag: it picks nothing up. A press by a key never ends one. */
  readonly wasDrag: (press: MouseEvent) => boolean;
}

/** @param moveGhost Hears where the pointer is while something is dragged. */
export function useDrag(moveGhost: (x: number, y: number) => void): Dragging {
  const drag = useRef<Drag | null>(null);
  const ended = useRef(false);
  useEffect(() => {
    const move = (event: PointerEvent) => {
      const one = drag.current;
      if (one === null) return;
      if (!one.moving) {
        if (Math.hypot(event.clientX - one.x, event.clientY - one.y) < SLACK) return;
        one.moving = true;
        pickUp(one.stay, "pointer");
      }
      event.preventDefault();
      moveGhost(event.clientX, event.clientY);
      holdOver(rowAt(event.clientX, event.clientY));
      if (event.clientY > innerHeight - EDGE) scrollBy(0, SCROLL_STEP);
      else if (event.clientY < EDGE) scrollBy(0, -SCROLL_STEP);
    };
    const up = () => {
      const one = drag.current;
      drag.current = null;
      ended.current = one?.moving === true;
      if (one?.moving === true) letGo();
    };
    const cancel = () => {
      if (drag.current?.moving === true) leaveIt();
      drag.current = null;
    };
    addEventListener("pointermove", move);
    addEventListener("pointerup", up);
    addEventListener("pointercancel", cancel);
    return () => {
      removeEventListener("pointermove", move);
      removeEventListener("pointerup", up);
      removeEventListener("pointercancel", cancel);
    };
  }, []);
  return {
    onPointerDown: (event, stay) => {
      ended.current = false;
      if (event.button !== 0 || event.pointerType === "touch") return;
      drag.current = { stay, x: event.clientX, y: event.clientY, moving: false };
    },
    wasDrag: ({ detail: presses }) => presses > 0 && ended.current,
  };
}
