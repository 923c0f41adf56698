// node words.mjs PDF DUMP [NAME=TEXT...]: how many words of a packet its
// readers find whole. DUMP is what `sheaf dump pages` says of the packet. pdf.js
// and PDFium are asked here; other readers pass the text that they made as a
// file. Prints a line for each reader; ends with code 1 if a word is missing.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { pathToFileURL } from "node:url";

// The packages lie where the call is made, not beside this file.
const require = createRequire(process.cwd() + "/");
const load = (name) => import(pathToFileURL(require.resolve(name)).href);

function count(text, words = new Map()) {
  for (const word of text.split(/\s+/)) {
    if (word) words.set(word, (words.get(word) ?? 0) + 1);
  }
  return words;
}

// What stands together of one element on one line belongs together; a text
// stated for an element takes the place of its marks.
function wordsOfDump(dump) {
  const stated = new Map();
  const words = new Map();
  let together = "";
  let place = "";
  for (const line of dump.split("\n")) {
    const span = line.match(/(#\d+) span.* alt="([^"]*)"/);
    if (span) {
      stated.set(span[1], span[2]);
      continue;
    }
    const mark = line.match(
      /^  text (#\d+|-[a-z]*) [-.\d]+,([-.\d]+) .*pt "([^"]*)"/,
    );
    if (mark && stated.has(mark[1])) {
      count(stated.get(mark[1]), words);
      stated.set(mark[1], "");
      continue;
    }
    const here = mark ? `${mark[1]} ${mark[2]}` : "";
    if (here !== place || !mark || mark[1][0] === "-") {
      count(together, words);
      together = "";
    }
    place = here;
    if (mark) together += mark[3];
  }
  return count(together, words);
}

async function readWithPdfJs(path) {
  const { getDocument, VerbosityLevel } = await load(
    "pdfjs-dist/legacy/build/pdf.mjs",
  );
  const pdf = await getDocument({
    data: new Uint8Array(readFileSync(path)),
    verbosity: VerbosityLevel.ERRORS,
    useSystemFonts: false,
  }).promise;
  let text = "";
  for (let number = 1; number <= pdf.numPages; ++number) {
    const content = await (await pdf.getPage(number)).getTextContent();
    for (const item of content.items) {
      text += item.str + (item.hasEOL ? "\n" : "");
    }
    text += "\n";
  }
  return text;
}

async function readWithPdfium(path) {
  const { PDFiumLibrary } = await load("@hyzyla/pdfium");
  const library = await PDFiumLibrary.init();
  const pdf = await library.loadDocument(readFileSync(path));
  let text = "";
  for (const page of pdf.pages()) text += page.getText() + "\n";
  pdf.destroy();
  library.destroy();
  return text;
}

const [pdf, dump, ...others] = process.argv.slice(2);
const wanted = wordsOfDump(readFileSync(dump, "utf8"));
const texts = others.map((other) => {
  const at = other.indexOf("=");
  return [other.slice(0, at), readFileSync(other.slice(at + 1), "utf8")];
});
texts.push(["pdf.js", await readWithPdfJs(pdf)]);
texts.push(["PDFium", await readWithPdfium(pdf)]);

const all = [...wanted.values()].reduce((sum, times) => sum + times, 0);
let status = all > 0 ? 0 : 1;
for (const [name, text] of texts) {
  const seen = count(text);
  let found = 0;
  const missing = [];
  for (const [word, times] of wanted) {
    const whole = Math.min(times, seen.get(word) ?? 0);
    found += whole;
    if (whole < times) missing.push(word);
  }
  if (missing.length > 0) status = 1;
  const rest = missing.length > 0 ? `; not ${missing.slice(0, 8).join(" ")}` : "";
  console.log(`${name}: ${found} of ${all} words${rest}`);
}
process.exit(status);
