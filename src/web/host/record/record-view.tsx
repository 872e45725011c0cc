export function Records({ site }: { readonly site: string }) {
  return <p>soon {site}</p>;
}
