/** A member, or none when there is no value. */
export function set<K extends string, V>(key: K, value: V | undefined): { [key in K]?: V } {
  return value === undefined ? {} : ({ [key]: value } as { [key in K]: V });
}
