// Bundles the extension, and copies what it shares with the rest of the repository.

import { build } from "esbuild";
import { copyFileSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";

const here = (path) => fileURLToPath(new URL(path, import.meta.url));

copyFileSync(here("../../grammar/textmate/knotwright.tmLanguage.json"), here("grammars/knotwright.tmLanguage.json"));
copyFileSync(here("../../LICENSE-MIT"), here("LICENSE.txt"));

// The page of an installed extension shows pictures from the web alone, none from the package and none written into it. As long
// as the repository has no public address, they are left out rather than seen as broken.
const { repository } = JSON.parse(readFileSync(here("package.json"), "utf8"));
const isPublic = !new URL(repository.url).hostname.endsWith(".invalid");
const picture = (_, words, path) => (isPublic ? `![${words}](${repository.url}/raw/HEAD/editors/vscode/${path})\n` : "");
mkdirSync(here("dist"), { recursive: true });
writeFileSync(here("dist/README.md"), readFileSync(here("README.md"), "utf8").replace(/!\[([^\]]*)\]\(([^)]+\.png)\)\n\n?/g, picture));

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
