// Those who hold the text of a live picture: the program alone, and a real editor.

import { execFileSync, spawn } from "node:child_process";
import { once } from "node:events";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { program } from "./stage.js";

const here = dirname(fileURLToPath(import.meta.url));
const neovim = process.env.NEOVIM ?? join(here, "..", "..", "target", "editors", "neovim");

/** `knotwright preview` of a file: where its page is, and its end. */
export const alone = async (path) => {
  const child = spawn(program, ["preview", path, "--no-open"], { stdio: ["ignore", "pipe", "ignore"] });
  const [first] = await once(child.stdout, "data");
  return { address: String(first).trim(), stop: () => child.kill() };
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

/** Waits until something holds. */
export const until = async (holds, patience = 20_000) => {
  for (const end = Date.now() + patience; ; ) {
    try {
      if (await holds()) return;
    } catch (error) {
      if (Date.now() > end) throw error;
    }
    if (Date.now() > end) throw new Error(`it never came: ${holds}`);
    await new Promise((go) => setTimeout(go, 25));
  }
};
