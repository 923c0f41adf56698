export interface Kind { width: number; row: number; steps: boolean }
export const blockSize: number;
export const kinds: (Kind | null)[];
export function laidOut(block: Buffer, kind: Kind | null): Buffer;
export function inPlanes(bytes: Buffer): { bytes: Buffer; kinds: number[] };
