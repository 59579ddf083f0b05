// The patterns that come with the extension tie, as the program in it says.

import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { test } from "node:test";
import { fileURLToPath } from "node:url";

const file = (path: string) => fileURLToPath(new URL(`../${path}`, import.meta.url));
const knotwright = (line: string[], input = "") =>
  execFileSync(file("bin/knotwright"), line, { input, encoding: "utf8", stdio: "pipe" });

/** What stands there once every place to fill in is left as it was proposed. */
const accepted = (body: string[]): string => {
  const text = body.join("\n").replaceAll("\t", "  ");
  const given = new Map([...text.matchAll(/\$\{(\d+):([^}]*)\}/g)].map(([, place, words]) => [place, words]));
  return text
    .replace(/\$\{(\d+):[^}]*\}|\$(\d+)/g, (_, first, second) => given.get(first ?? second) ?? "")
    .replaceAll("\\\\", "\\");
};

const snippets = Object.entries<{ body: string[] }>(JSON.parse(readFileSync(file("snippets/knot.json"), "utf8")));
const head = 'pattern "Six"\nthread reed #2f6b4f\nstrands 6 reed\n';
/** A whole pattern around a piece of the head, or of the set. */
const around = (text: string): string => {
  if (text.startsWith("pattern")) return text;
  if (text.startsWith("gauge")) return `${head}${text}\nset { take left 1: forward 1 }\n`;
  return `${head}set {\n${text}\n}\n`;
};

for (const [name, { body }] of snippets) {
  test(`the snippet "${name}" ties`, () => {
    knotwright(["check", "-"], around(accepted(body)));
  });
}

test("the sample of the walkthrough is in the usual form, without a warning, and drawn as it ties", () => {
  const sample = file("walkthrough/dune-path.knot");
  knotwright(["check", "--deny", "warnings", sample]);
  knotwright(["format", "--check", sample]);
  const drawn = knotwright(["draw", sample, "--sets", "4", "--format", "svg"]);
  assert.equal(drawn, readFileSync(file("walkthrough/dune-path.svg"), "utf8"));
});
