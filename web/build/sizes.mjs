// What each file of the browser edition weighs, and the limit that it keeps.

import { gzipSync } from 'node:zlib';

// All that a visit needs, with fonts and word list, as a server sends it. The
// guide has pictures of its own and is counted apart.
const limit = 6_000_000;

const mega = (bytes) => (bytes / 1e6).toFixed(2).padStart(7);

/** Prints the sizes; false where there is more than the limit. */
export function checkSizes(files) {
  console.log('     MB   gzip');
  let visit = 0;
  for (const [path, bytes] of Object.entries(files)) {
    const packed = gzipSync(bytes, { level: 9 }).length;
    console.log(`${mega(bytes.length)}${mega(packed)}  ${path}`);
    if (!['sheaf.html', 'sheaf-guide.bin', 'licences.txt'].includes(path)) visit += packed;
  }
  console.log(`       ${mega(visit)}  a visit, without the guide (limit ${mega(limit).trim()})`);
  if (visit > limit) console.error('That is more than the limit.');
  return visit <= limit;
}
