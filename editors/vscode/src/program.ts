// Which program serves: the one of the settings, else the one on the path, else the one that came along.

import { execFile } from "node:child_process";
import { accessSync, constants, statSync } from "node:fs";
import { delimiter, isAbsolute, join } from "node:path";

/** Where to look. */
export interface Places {
  /** The setting `knotwright.serverPath`, perhaps empty. */
  setting: string;
  home: string;
  /** What `${workspaceFolder}` stands for, if a folder is open. */
  workspaceFolder?: string;
  /** The variable `PATH`. */
  path: string;
  extensionFolder: string;
}

/** A program that may serve. */
export interface Candidate {
  /** How its place is described to people. */
  origin: string;
  path: string;
}

/** A program that does not serve, and why. */
export interface Refused {
  origin: string;
  why: string;
}

/** What came of the search; `serving` is missing if nothing starts. */
export interface Search {
  serving?: Candidate & { version: string };
  refused: Refused[];
}

const NAME = process.platform === "win32" ? "knotwright.exe" : "knotwright";
/** A program that says nothing for so long does not start. */
const PATIENCE_MS = 10_000;

/** Tries one place after another. */
export async function search(places: Places): Promise<Search> {
  const refused: Refused[] = [];
  for (const { origin, path } of candidates(places)) {
    if (!path) {
      refused.push({ origin, why: "cannot be found" });
      continue;
    }
    const told = await version(path);
    if ("version" in told) return { serving: { origin, path, version: told.version }, refused };
    refused.push({ origin: `${origin} (${path})`, why: told.why });
  }
  return { refused };
}

function candidates(places: Places): { origin: string; path?: string }[] {
  const own = join(places.extensionFolder, "bin", NAME);
  return [
    ...(places.setting ? [{ origin: "the setting knotwright.serverPath", path: written(places) }] : []),
    { origin: "the program on the PATH", path: onPath(places.path) },
    { origin: "the program in the extension", path: isProgram(own) ? own : undefined },
  ];
}

/** The path that the setting means. */
function written({ setting, home, workspaceFolder }: Places): string {
  const path = setting.replace(/^~(?=[\\/])/, home);
  return workspaceFolder ? path.replaceAll("${workspaceFolder}", workspaceFolder) : path;
}

/** The first on the path. An entry that is relative would lead into whatever folder is open, and is passed over. */
function onPath(path: string): string | undefined {
  const folders = path.split(delimiter).filter(isAbsolute);
  return folders.map((folder) => join(folder, NAME)).find(isProgram);
}

function isProgram(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return statSync(path).isFile();
  } catch {
    return false;
  }
}

/** Starts it, to see that it does, and that it is ours. */
function version(path: string): Promise<{ version: string } | { why: string }> {
  if (!isAbsolute(path)) return Promise.resolve({ why: "is not an absolute path" });
  return new Promise((resolve) => {
    execFile(path, ["--version"], { timeout: PATIENCE_MS }, (error, told) => {
      const version = /^knotwright (\S+)/.exec(told)?.[1];
      if (version && !error) return resolve({ version });
      resolve({ why: error ? reason(error) : "is a different program: it does not call itself knotwright" });
    });
  });
}

function reason(error: Error & { code?: unknown; killed?: boolean }): string {
  if (error.code === "ENOENT") return "cannot be found";
  if (error.code === "EACCES") return "may not be run";
  if (error.killed) return "does not answer";
  return `does not start: ${error.message.trim().split("\n").pop()}`;
}

/** What was tried, a sentence each. */
export function told(refused: Refused[]): string {
  return refused.map(({ origin, why }) => `${origin[0]?.toUpperCase()}${origin.slice(1)} ${why}.`).join(" ");
}
