/** Reading what a command answers, without trusting its shape. */

export type Fields = Readonly<Record<string, unknown>>;

export function fields(value: unknown): Fields {
  return typeof value === 'object' && value !== null && !Array.isArray(value) ? value as Fields : {};
}
export function list(value: unknown): readonly unknown[] {
  return Array.isArray(value) ? value as unknown[] : [];
}
export function words(value: unknown): string {
  return typeof value === 'string' ? value : '';
}
export function figure(value: unknown): number {
  return typeof value === 'number' && Number.isFinite(value) ? value : 0;
}
/** Null where the text is none of that kind. */
export function readAnswer(out: string): unknown {
  try {
    return JSON.parse(out) as unknown;
  } catch {
    return null;
  }
}
