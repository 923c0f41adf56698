// node open_chromium.mjs PROGRAM PDF...: shows each file in the viewer of
// Chromium, without a window. A line for each file that the viewer does not
// show, or about which the browser's console says something.
import { spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";

const [program, ...files] = process.argv.slice(2);
const home = mkdtempSync(join(tmpdir(), "chromium-"));
const browser = spawn(
  program,
  ["--headless=new", "--no-sandbox", "--disable-gpu",
   "--remote-debugging-pipe", `--user-data-dir=${home}`, "about:blank"],
  { stdio: ["ignore", "ignore", "ignore", "pipe", "pipe"] },
);

// The browser's protocol on two pipes: messages end in a zero byte.
const waiting = new Map();
let said = [];
let last = 0;
let rest = "";
browser.stdio[4].setEncoding("utf8").on("data", (text) => {
  const messages = (rest + text).split("\0");
  rest = messages.pop();
  for (const message of messages.map((one) => JSON.parse(one))) {
    if (message.id) {
      waiting.get(message.id)?.(message.result ?? {});
      waiting.delete(message.id);
    } else if (message.method === "Log.entryAdded") {
      said.push(message.params.entry.text);
    } else if (message.method === "Runtime.consoleAPICalled") {
      said.push(message.params.args.map((one) => one.value).join(" "));
    } else if (message.method === "Runtime.exceptionThrown") {
      said.push(message.params.exceptionDetails.text);
    }
  }
});
function ask(method, params = {}, sessionId) {
  const id = ++last;
  browser.stdio[3].write(
    JSON.stringify({ id, method, params, sessionId }) + "\0");
  return new Promise((done) => waiting.set(id, done));
}
const pause = (time) => new Promise((done) => setTimeout(done, time));

// The viewer's ground is one dark colour: a picture of it takes few bytes, a
// page of a sheet many more.
const emptyViewer = 15000;

let faults = 0;
for (const file of files) {
  said = [];
  const { targetId } = await ask("Target.createTarget", { url: "about:blank" });
  const { sessionId } = await ask("Target.attachToTarget",
    { targetId, flatten: true });
  await ask("Log.enable", {}, sessionId);
  await ask("Runtime.enable", {}, sessionId);
  const { errorText } = await ask("Page.navigate",
    { url: `file://${resolve(file)}` }, sessionId);
  if (errorText) said.push(errorText);
  let size = 0;
  for (let tries = 0; tries < 20 && size < emptyViewer; ++tries) {
    await pause(300);
    const { data } = await ask("Page.captureScreenshot", {}, sessionId);
    size = data?.length ?? 0;
  }
  if (size < emptyViewer) said.push("nothing is shown");
  if (said.length > 0) {
    ++faults;
    console.log(`Chromium on ${file}: ${said.join("; ")}`);
  }
  await ask("Target.closeTarget", { targetId });
}
browser.kill();
await new Promise((done) => browser.on("exit", done));
rmSync(home, { recursive: true, force: true });
console.log(`Chromium: ${files.length} files, ${faults} with messages`);
process.exitCode = faults > 0 ? 1 : 0;
