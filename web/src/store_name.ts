/** The browser's own store for the files of one version of the page: filled by a
 * worker of the first page and by the service worker, read by the latter. */
export const storePrefix = 'sheaf-page-';
export function storeName(version: string): string { return storePrefix + version; }
