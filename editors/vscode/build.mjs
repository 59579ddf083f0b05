// Bundles the extension, and copies what it shares with the rest of the repository.

import { build } from "esbuild";
import { copyFileSync } from "node:fs";
import { fileURLToPath } from "node:url";

const here = (path) => fileURLToPath(new URL(path, import.meta.url));

copyFileSync(here("../../grammar/textmate/knotwright.tmLanguage.json"), here("grammars/knotwright.tmLanguage.json"));
copyFileSync(here("../../LICENSE-MIT"), here("LICENSE.txt"));

await build({
  entryPoints: [here("src/extension.ts")],
  outfile: here("dist/extension.cjs"),
  bundle: true,
  platform: "node",
  format: "cjs",
  target: "node20",
  external: ["vscode"],
  minify: true,
  sourcemap: false,
});
