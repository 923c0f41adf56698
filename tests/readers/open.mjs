// node open.mjs pdfium|pdfjs PDF: draws or reads every page of a file with the
// reader of that name. It prints what the reader says, and nothing else.
import { readFileSync } from "node:fs";

const [reader, path] = process.argv.slice(2);
const bytes = new Uint8Array(readFileSync(path));

async function withPdfium() {
  const { PDFiumLibrary } = await import("@hyzyla/pdfium");
  const library = await PDFiumLibrary.init();
  const document = await library.loadDocument(bytes);
  const all = [...document.pages()];
  // Drawing closes a page, so its text comes first.
  for (const page of all) {
    page.getText();
    await page.render({ scale: 0.5, render: "bitmap" });
  }
  document.destroy();
  library.destroy();
  return all.length;
}

async function withPdfjs() {
  const { getDocument, VerbosityLevel } = await import(
    "pdfjs-dist/legacy/build/pdf.mjs"
  );
  const pdf = await getDocument({
    data: bytes,
    verbosity: VerbosityLevel.WARNINGS,
    stopAtErrors: true,
    useSystemFonts: false,
  }).promise;
  for (let number = 1; number <= pdf.numPages; ++number) {
    const page = await pdf.getPage(number);
    await page.getOperatorList();
    await page.getTextContent({ includeMarkedContent: true });
    await page.getStructTree();
  }
  return pdf.numPages;
}

const pages = await (reader === "pdfium" ? withPdfium() : withPdfjs());
if (pages < 1) {
  console.log("no page");
  process.exitCode = 1;
}
