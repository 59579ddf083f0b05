// VS Code in a browser, with the extension installed and a folder of patterns open.

import { execFile, spawn } from "node:child_process";
import { cpSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createServer } from "node:net";
import { join } from "node:path";
import { after, before } from "node:test";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";
import { chromium } from "playwright-core";
import { isSeen, until } from "./hands.mjs";

const here = fileURLToPath(new URL(".", import.meta.url));
const { VSIX, CODE_SERVER, FOLDER } = process.env;
const [work, home, data, extensions] = ["bands", "home", "data", "extensions"].map((name) => join(FOLDER, name));
/** How long a state may take to come: far longer than ever seen, as the machine may be busy with something else. */
export const PATIENCE_MS = 120_000;

const settings = {
  ...JSON.parse(process.env.SETTINGS ?? "{}"),
  "workbench.startupEditor": "none",
  "workbench.tips.enabled": false,
  "workbench.secondarySideBar.defaultVisibility": "hidden",
  "workbench.colorTheme": "Default Light Modern",
  "telemetry.telemetryLevel": "off",
  "update.mode": "none",
  "extensions.autoCheckUpdates": false,
  "extensions.autoUpdate": false,
  "files.autoSave": "off",
  "git.enabled": false,
  "chat.disableAIFeatures": true,
  "editor.accessibilitySupport": "off",
  "editor.hover.delay": 100,
  "editor.minimap.enabled": false,
  // Words can be read by a test; chips have one of their own.
  "knotwright.hints.orders": "words",
  "[knot]": { "editor.formatOnSave": true },
  // VS Code finds #rrggbb by itself: what is seen must be ours.
  "editor.defaultColorDecorators": "never",
};

const flags = () => ["--user-data-dir", data, "--extensions-dir", extensions];
const environment = { ...process.env, HOME: home, EXTENSIONS_GALLERY: '{"serviceUrl":""}' };

let stage;
before(async () => (stage = await start()));
after(() => stage?.close());

/** One VS Code for the tests of all files, from the first test on. */
export const onStage = () => stage;

/** Lays out the folders, installs the extension, starts VS Code and a browser. */
async function start() {
  rmSync(FOLDER, { recursive: true, force: true });
  [home, join(data, "User")].forEach((folder) => mkdirSync(folder, { recursive: true }));
  cpSync(join(here, "bands"), work, { recursive: true });
  writeFileSync(join(data, "User", "settings.json"), JSON.stringify(settings));
  await promisify(execFile)(process.execPath, [CODE_SERVER, ...flags(), "--install-extension", VSIX], { env: environment });
  const port = await freePort();
  const server = serve(port);
  const browser = await chromium.launch({
    executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
    args: ["--no-sandbox", "--disable-gpu"],
  });
  try {
    await Promise.race([answers(`http://127.0.0.1:${port}/healthz`), server.ended]);
    const page = await browser.newPage({ viewport: { width: 1280, height: 760 } });
    page.setDefaultTimeout(PATIENCE_MS);
    return { page, port, close: () => close(browser, server) };
  } catch (error) {
    await close(browser, server);
    throw error;
  }
}

/** A file of the open folder, as it is on the disk. */
export const read = (name) => readFileSync(join(work, name), "utf8");

/** Sets what holds in the open folder, as by hand. */
export function setInFolder(settings) {
  mkdirSync(join(work, ".vscode"), { recursive: true });
  writeFileSync(join(work, ".vscode", "settings.json"), JSON.stringify(settings));
}

/** Shows a file of the open folder in a fresh window, from its first line on. */
export async function enter(name) {
  const { page, port } = stage;
  const file = `vscode-remote://127.0.0.1:${port}${join(work, name)}`;
  const asked = new URLSearchParams({ folder: work, payload: JSON.stringify([["openFile", file]]) });
  await page.goto(`http://127.0.0.1:${port}/?${asked}`, { waitUntil: "domcontentloaded" });
  const tab = page.locator(".tab.active", { hasText: name });
  const first = page.locator(".editor-group-container.active .view-line", { hasText: "pattern" });
  // Where it was looked at last is where it opens; and what stood beside it may come back, and take the focus.
  await until(async () => {
    await tab.click();
    await page.keyboard.press("Control+Home");
    return isSeen(first);
  }, `the first line of ${name}`);
  await first.first().click();
}

function serve(port) {
  const open = ["--auth", "none", "--bind-addr", `127.0.0.1:${port}`, "--disable-telemetry", "--disable-update-check"];
  const quiet = ["--disable-workspace-trust", "--disable-getting-started-override"];
  const line = [CODE_SERVER, ...open, ...quiet, ...flags(), work];
  const child = spawn(process.execPath, line, { env: environment, stdio: ["ignore", "pipe", "pipe"] });
  let said = "";
  [child.stdout, child.stderr].forEach((stream) => stream.on("data", (text) => (said += text)));
  const over = new Promise((resolve) => child.once("exit", resolve));
  const ended = over.then(() => Promise.reject(new Error(`VS Code ended:\n${said}`)));
  ended.catch(() => {});
  return { ended, stop: () => (child.kill(), over) };
}

async function close(browser, server) {
  await browser.close();
  await server.stop();
}

async function answers(url) {
  const end = Date.now() + PATIENCE_MS;
  while (!(await fetch(url).then(({ ok }) => ok, () => false))) {
    if (Date.now() > end) throw new Error(`${url} does not answer`);
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
}

function freePort() {
  return new Promise((resolve) => {
    const probe = createServer().listen(0, "127.0.0.1", () => {
      const { port } = probe.address();
      probe.close(() => resolve(port));
    });
  });
}
