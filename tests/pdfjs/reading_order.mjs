// node reading_order.mjs PDF [TREE]: prints the tags of a PDF with their text
// in the order in which pdf.js, the reader of a web browser, tells them. With
// TREE, a file of the same form, says where they differ and ends with code 1.
import { readFileSync } from "node:fs";
import { getDocument, VerbosityLevel } from "pdfjs-dist/legacy/build/pdf.mjs";

// The text of each piece of marked content of a page, by its identifier.
async function textsOf(page) {
  const texts = new Map();
  const open = [];
  const content = await page.getTextContent({ includeMarkedContent: true });
  for (const item of content.items) {
    if (item.type === "endMarkedContent") {
      open.pop();
    } else if (item.type) {
      open.push(item.id ?? open.at(-1));
      if (item.id) texts.set(item.id, "");
    } else if (open.at(-1) !== undefined) {
      const id = open.at(-1);
      texts.set(id, texts.get(id) + item.str);
    }
  }
  return texts;
}

function tell(node, depth, texts, lines) {
  if (node.type === "content") {
    const text = texts.get(node.id) ?? "";
    // pdf.js leaves out spaces at the ends of a piece.
    if (text.trim() !== "") lines.push(`${"  ".repeat(depth)}"${text.trim()}"`);
    return;
  }
  lines.push("  ".repeat(depth) + node.role);
  for (const kid of node.children) tell(kid, depth + 1, texts, lines);
}

async function treeOf(path) {
  const data = new Uint8Array(readFileSync(path));
  const pdf = await getDocument({
    data,
    verbosity: VerbosityLevel.ERRORS,
    useSystemFonts: false,
  }).promise;
  const lines = ["Document"];
  for (let number = 1; number <= pdf.numPages; ++number) {
    const page = await pdf.getPage(number);
    const texts = await textsOf(page);
    const tree = await page.getStructTree();
    // Each page tells the way down from the root anew.
    for (const top of tree?.children ?? []) {
      if (top.role !== "Document") throw new Error(`a tree of ${top.role}`);
      for (const kid of top.children) tell(kid, 1, texts, lines);
    }
  }
  return lines;
}

const [path, expectedPath] = process.argv.slice(2);
const lines = await treeOf(path);
if (!expectedPath) {
  console.log(lines.join("\n"));
} else {
  const expected = readFileSync(expectedPath, "utf8")
    .trimEnd()
    .split("\n")
    .map((line) => line.replace(/" +/, '"').replace(/ +"$/, '"'));
  const count = Math.max(lines.length, expected.length);
  for (let i = 0; i < count; ++i) {
    if (lines[i] === expected[i]) continue;
    console.error(`${path}: line ${i + 1} of the tree differs`);
    console.error(`  expected: ${expected[i] ?? "(nothing)"}`);
    console.error(`  pdf.js:   ${lines[i] ?? "(nothing)"}`);
    process.exit(1);
  }
  console.log(`${path}: ${lines.length} lines of the tree agree`);
}
