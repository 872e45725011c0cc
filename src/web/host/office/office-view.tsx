export function Office() {
  return <p>soon</p>;
}
