// How fast the live picture is: `npm run bench`. Ratios are of pairs in one run; times are of the machine.

import { spawn } from "node:child_process";
import { pathToFileURL } from "node:url";
import { cleanUp, launch, program, written } from "./stage.js";

/** A set of `rows` rows of bricks, tied `sets` times: `shift` is another knot in one row. */
const text = (strands, rows, sets, shift = 0) => {
  const row = (at) => Array.from({ length: Math.floor((strands - (at % 2)) / 2) }, (_, gap) => ((gap * 7 + at * 3 + (at === 20 ? shift : 0)) % 4 === 0 ? "/" : "\\")).join(" ");
  return `pattern "Weir"\nthread a #16425b\nthread b #d98e4a\nstrands ${strands / 2} a ${strands / 2} b\nsets ${sets}\nset {\n  rows {\n${Array.from({ length: rows }, (_, at) => `    ${row(at)}`).join("\n")}\n  }\n}\n`;
};

/** The language server, asked by hand. */
const server = () => {
  const child = spawn(program, ["serve"], { stdio: ["pipe", "pipe", "inherit"] });
  const waiting = [];
  let [read, last] = [Buffer.alloc(0), 0];
  child.stdout.on("data", (data) => {
    read = Buffer.concat([read, data]);
    for (;;) {
      const end = read.indexOf("\r\n\r\n");
      const length = end < 0 ? 0 : Number(/Content-Length: (\d+)/.exec(read.subarray(0, end))[1]);
      if (end < 0 || read.length < end + 4 + length) return;
      const message = JSON.parse(read.subarray(end + 4, end + 4 + length));
      read = read.subarray(end + 4 + length);
      const at = waiting.findIndex(({ fits }) => fits(message));
      if (at >= 0) waiting.splice(at, 1)[0].go(message);
    }
  });
  const send = (message) => {
    const body = JSON.stringify({ jsonrpc: "2.0", ...message });
    child.stdin.write(`Content-Length: ${Buffer.byteLength(body)}\r\n\r\n${body}`);
  };
  const wait = (fits) => new Promise((go) => waiting.push({ fits, go }));
  const ask = async (method, params) => {
    const id = (last += 1);
    const answer = wait((message) => message.id === id && !message.method);
    send({ id, method, params });
    return (await answer).result;
  };
  return { ask, wait, tell: (method, params) => send({ method, params }), stop: () => child.kill() };
};

const median = (of) => [...of].sort((a, b) => a - b)[Math.floor(of.length / 2)];
const now = () => performance.timeOrigin + performance.now();

const session = async (strands, rows, sets) => {
  const lsp = server();
  const uri = pathToFileURL(written(`weir-${rows}-${sets}`, "")).href;
  await lsp.ask("initialize", { processId: null, rootUri: null, capabilities: { textDocument: { publishDiagnostics: { versionSupport: true } } } });
  lsp.tell("initialized", {});
  lsp.tell("textDocument/didOpen", { textDocument: { uri, languageId: "knotwright", version: 1, text: text(strands, rows, sets) } });
  await lsp.wait((message) => message.method === "textDocument/publishDiagnostics");
  let version = 1;
  return {
    ...lsp,
    preview: () => lsp.ask("workspace/executeCommand", { command: "knotwright.preview", arguments: [{ uri }] }).then(({ url }) => url),
    /** Changes a row; how long until its findings are there. */
    edit: async () => {
      version += 1;
      const said = lsp.wait((message) => message.method === "textDocument/publishDiagnostics" && message.params.version === version);
      const start = now();
      lsp.tell("textDocument/didChange", { textDocument: { uri, version }, contentChanges: [{ text: text(strands, rows, sets, version % 2) }] });
      await said;
      return { start, findings: now() - start };
    },
  };
};

const painted = (page) => page.evaluate(() => performance.getEntriesByName("painted").at(-1)?.startTime + performance.timeOrigin);

const measure = async (browser, what, size, view = "tied") => {
  const lsp = await session(...size);
  const without = [];
  for (let count = 0; count < 30; count += 1) without.push((await lsp.edit()).findings);
  const page = await browser.newPage();
  await page.goto(await lsp.preview());
  await page.waitForFunction(() => Number(document.getElementById("canvas").dataset.knots) > 0, null, { timeout: 120_000 });
  await page.selectOption("#view", view);
  await page.waitForFunction((view) => document.getElementById("canvas").dataset.view === view, view);
  await page.waitForTimeout(1500);
  const [beside, picture] = [[], []];
  for (let count = 0; count < 30; count += 1) {
    const { start, findings } = await lsp.edit();
    beside.push(findings);
    let end = 0;
    while (!(end > start)) end = await painted(page);
    await page.waitForTimeout(150);
    // If a second painting followed, that is the one that shows the band.
    picture.push((await painted(page)) - start);
  }
  const [before, after] = [median(without), median(beside)];
  console.log(`| ${what} | ${before.toFixed(1)} | ${after.toFixed(1)} | ${(after / before).toFixed(2)} | ${median(picture).toFixed(0)} |`);
  await page.close();
  lsp.stop();
};

const browser = await launch();
console.log("| band | findings without a picture, ms | with one | ratio | keystroke to repainted picture, ms |\n| --- | --- | --- | --- | --- |");
await measure(browser, "24 strands, 40 rows, 8 sets", [24, 40, 8]);
await measure(browser, "24 strands, 40 rows, 220 sets: 101,000 knots", [24, 40, 220]);
await measure(browser, "the first as a working chart", [24, 40, 8], "chart");
await browser.close();
cleanUp();
