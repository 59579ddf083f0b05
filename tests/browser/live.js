// Those who hold the text of a live picture: the program alone, and a real editor.

import { execFileSync, spawn } from "node:child_process";
import { once } from "node:events";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { createInterface } from "node:readline";
import { fileURLToPath } from "node:url";
import { PATIENCE_MS, program } from "./stage.js";

// Where the program keeps addresses: nothing is left of a test in the folder of whoever runs it.
const runtime = mkdtempSync(join(tmpdir(), "knotwright-run-"));
process.on("exit", () => rmSync(runtime, { recursive: true, force: true }));

const here = dirname(fileURLToPath(import.meta.url));
const neovim = process.env.NEOVIM ?? join(here, "..", "..", "target", "tools", "neovim");

/** `knotwright preview` of a file: where its page is, and its end, which is waited for. */
export const alone = async (path, ...options) => {
  const child = spawn(program, ["preview", path, "--no-open", ...options], {
    stdio: ["ignore", "pipe", "ignore"],
    env: { ...process.env, XDG_RUNTIME_DIR: runtime },
  });
  const ended = once(child, "exit");
  const [address] = await once(createInterface({ input: child.stdout }), "line");
  const stop = () => {
    child.kill();
    return ended;
  };
  return { address: address.trim(), stop };
};

/** Neovim with a file and the language server. */
export const editor = async (path) => {
  const socket = `${path}.socket`;
  const child = spawn(neovim, ["--headless", "-u", "NONE", "-i", "NONE", "--listen", socket, path, "-S", join(here, "neovim.lua")], {
    stdio: "ignore",
    env: { ...process.env, KNOTWRIGHT: program },
  });
  const ask = (what) => execFileSync(neovim, ["--server", socket, "--remote-expr", what], { encoding: "utf8", stdio: ["ignore", "pipe", "pipe"] });
  const lua = (code) => ask(`luaeval(${JSON.stringify(code)})`);
  await until(() => lua("Address ~= nil") === "true");
  return {
    address: lua("Address()"),
    lua,
    line: (number, text) => lua(`vim.api.nvim_buf_set_lines(0, ${number - 1}, ${number}, false, {${JSON.stringify(text)}})`),
    text: () => lua("table.concat(vim.api.nvim_buf_get_lines(0, 0, -1, false), '\\n')"),
    cursor: () => Number(lua("vim.fn.line('.')")),
    stop: () => child.kill(),
  };
};

/** Waits until something holds, and gives what it is. */
export const until = async (holds) => {
  for (const end = Date.now() + PATIENCE_MS; ; ) {
    try {
      const found = await holds();
      if (found) return found;
    } catch (error) {
      if (Date.now() > end) throw error;
    }
    if (Date.now() > end) throw new Error(`it never came: ${holds}`);
    await new Promise((go) => setTimeout(go, 25));
  }
};
