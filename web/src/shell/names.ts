/** Names of files: how a teacher sees them, and how Sheaf has them. */

/** "/week/oa-boat.yaml" → "oa-boat.yaml". */
export function fileName(path: string): string {
  return path.slice(path.lastIndexOf('/') + 1);
}

/** "/week/oa-boat.yaml" → "oa-boat". */
export function stem(path: string): string {
  return fileName(path).replace(/\.(ya?ml|txt)$/i, '');
}

/** A path at the top that no other file has: "oa-boat.yaml", "oa-boat-2.yaml". */
export function freePath(name: string, taken: readonly string[]): string {
  const base = fileName(name);
  const dot = base.lastIndexOf('.');
  const [front, end] = dot > 0 ? [base.slice(0, dot), base.slice(dot)] : [base, ''];
  let path = `/${base}`;
  for (let i = 2; taken.includes(path); ++i) path = `/${front}-${i}${end}`;
  return path;
}
