// A browser, and sheets written by the real program.

import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { chromium } from "playwright-core";

const here = dirname(fileURLToPath(import.meta.url));
const top = join(here, "..", "..");
export const program = process.env.KNOTWRIGHT ?? join(top, "target", "debug", "knotwright");
/** How long a state may take to come: far longer than ever seen, as the machine may be busy with something else. */
export const PATIENCE_MS = 120_000;
const folder = mkdtempSync(join(tmpdir(), "knotwright-"));

export const pattern = (name) => join(top, "shared", "patterns", `${name}.knot`);

/** Writes a pattern of our own and gives its path. */
export const written = (name, text) => {
  const path = join(folder, `${name}.knot`);
  writeFileSync(path, text);
  return path;
};

/** Writes the sheet of a pattern; its path. */
export const sheetOf = (path, ...options) => {
  const to = join(folder, `sheet-${Math.random().toString(36).slice(2)}.html`);
  execFileSync(program, ["sheet", path, "-o", to, ...options], { stdio: ["ignore", "inherit", "inherit"] });
  return to;
};

/** Hangs patterns in a gallery of their own; the path of its page. */
export const galleryOf = (paths, ...options) => {
  const to = join(folder, `gallery-${Math.random().toString(36).slice(2)}`);
  execFileSync(program, ["gallery", ...paths, "-o", to, ...options], { stdio: ["ignore", "inherit", "ignore"] });
  return join(to, "index.html");
};

export const patterns = join(top, "shared", "patterns");

export const measured = (path, ...options) => JSON.parse(execFileSync(program, ["measure", "--format", "json", path, ...options], { encoding: "utf8" }));

export const kitOf = (path, ...options) => JSON.parse(execFileSync(program, ["kit", "--format", "json", path, ...options], { encoding: "utf8" }));

export const exported = (path) => JSON.parse(execFileSync(program, ["export", path], { encoding: "utf8" }));

export const launch = () =>
  chromium.launch({ executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium", args: ["--no-sandbox"] });

/** A page that shows a sheet, or a live picture at its address. `said` collects what the browser complains of, `asked` what it asked a network for. */
export const open = async (context, path) => {
  const page = await context.newPage();
  page.setDefaultTimeout(PATIENCE_MS);
  page.said = [];
  page.asked = [];
  page.on("console", (message) => page.said.push(message.text()));
  page.on("pageerror", (error) => page.said.push(String(error)));
  page.on("request", (request) => page.asked.push(request.url()));
  await page.goto(path.startsWith("http:") ? path : pathToFileURL(path).href);
  return page;
};

export const axe = readFileSync(join(here, "node_modules", "axe-core", "axe.min.js"), "utf8");

export const cleanUp = () => rmSync(folder, { recursive: true, force: true });
