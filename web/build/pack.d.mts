export function inOrder(names: Iterable<string>): string[];
export function filesIn(folder: string, below?: string): string[];
export function pack(files: [path: string, content: Buffer][], how?: { tables?: boolean }): Buffer;
export function packFolder(folder: string): Buffer;
export function squeeze(bytes: Buffer): Buffer;
