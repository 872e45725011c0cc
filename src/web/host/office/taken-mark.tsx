/** Somebody or something is in the way: drawn for the eye, the words stand beside it. */
export function TakenMark({ size = 20 }: { readonly size?: number }) {
  return (
    <svg class="taken-mark" width={size} height={size} viewBox="0 0 32 32" aria-hidden="true">
      <path d="M5 5L27 27M27 5L5 27" />
    </svg>
  );
}
