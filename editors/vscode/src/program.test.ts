import assert from "node:assert/strict";
import { chmodSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { delimiter, join } from "node:path";
import { after, test } from "node:test";
import { search, told } from "./program.ts";

const folder = mkdtempSync(join(tmpdir(), "knotwright-"));
after(() => rmSync(folder, { recursive: true, force: true }));

/** A program that says what the test wants. */
const program = (place: string, says: string, mode = 0o755): string => {
  const path = join(folder, place, "knotwright");
  mkdirSync(join(folder, place), { recursive: true });
  writeFileSync(path, `#!/bin/sh\n${says}\n`);
  chmodSync(path, mode);
  return path;
};

const places = (wish: object) => ({ setting: "", home: folder, path: "", extensionFolder: join(folder, "none"), ...wish });
const ours = "echo knotwright 1.2.3";

test("the program of the settings comes before that on the path, and that before the bundled one", async () => {
  const [set, onPath, bundled] = [program("set", ours), program("path", ours), program("extension/bin", ours)];
  const all = { setting: "~/set/knotwright", path: join(folder, "path"), extensionFolder: join(folder, "extension") };
  assert.equal((await search(places(all))).serving?.path, set);
  assert.equal((await search(places({ ...all, setting: "" }))).serving?.path, onPath);
  assert.equal((await search(places({ ...all, setting: "", path: "" }))).serving?.path, bundled);
});

test("a program that does not start is passed over and reported", async () => {
  const broken = program("broken", "echo no such library >&2; exit 127");
  const found = await search(places({ setting: broken, path: join(folder, "path") }));
  assert.equal(found.serving?.version, "1.2.3");
  assert.match(told(found.refused), /^The setting knotwright.serverPath \(.*\) does not start: no such library\.$/);
});

test("another program of the same name does not serve", async () => {
  const other = program("other", "echo something else 9");
  assert.match(told((await search(places({ setting: other }))).refused), /is a different program/);
});

test("where nothing starts, every place is named", async () => {
  const { serving, refused } = await search(places({ setting: "/nowhere/knotwright" }));
  assert.equal(serving, undefined);
  assert.deepEqual(refused.map(({ why }) => why), ["cannot be found", "cannot be found", "cannot be found"]);
  assert.match(told(refused), /serverPath.*on the PATH.*in the extension/);
});

test("an entry of the path that leads into the open folder is not followed", async () => {
  const { serving } = await search(places({ path: [".", "path", ""].join(delimiter) }));
  assert.equal(serving, undefined);
});
