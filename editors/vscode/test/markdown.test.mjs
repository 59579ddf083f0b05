// Patterns within Markdown: what VS Code shows there, and what it leaves as it is.

import assert from "node:assert/strict";
import { readdirSync, readFileSync } from "node:fs";
import { before, describe } from "node:test";
import { command, cursorAfter, hoverUntil, line, open, openAlone, plain, revert, saved, see, soon, until, within } from "./hands.mjs";
import { enter, read, setInFolder } from "./stage.mjs";

/** How many language servers run out of the folder of this test. */
const serving = () => {
  const lines = readdirSync("/proc").filter((name) => /^\d+$/.test(name)).map((id) => {
    try {
      return readFileSync(`/proc/${id}/cmdline`, "utf8").split("\0");
    } catch {
      return []; // It has ended meanwhile.
    }
  });
  return lines.filter(([program, verb]) => program?.startsWith(process.env.FOLDER) && verb === "serve").length;
};

const nobody = (page) => page.locator(".monaco-dialog-box", { hasText: "There is no formatter for 'markdown' files installed." });

describe("patterns within Markdown", () => {
  before(() => enter("plain.md"));

  see("Markdown without a pattern starts no server, and with the first one it is there", async (page) => {
    await line(page, "No pattern is fenced here").waitFor();
    await page.keyboard.press("Control+End");
    await page.keyboard.type("\n# More words\n");
    // Whoever names the headings is told of the text together with us, so by now we have seen it, too.
    await page.locator(".breadcrumbs-control .monaco-breadcrumb-item", { hasText: "More words" }).waitFor();
    assert.equal(serving(), 0);
    await page.keyboard.insertText("\n```knot\npattern \"Begun\"\nknot\n```\n");
    await page.locator(".squiggly-error").first().waitFor({ state: "attached" });
    assert.equal(serving(), 1);
    await revert(page);
    await page.locator(".squiggly-error").waitFor({ state: "detached" });
  });

  see("a slip in a block is underlined, and the hover says why", async (page) => {
    await open(page, "page.md", "Two bands");
    const squiggle = page.locator(".squiggly-error");
    await until(async () => (await squiggle.count()) === 1, "one squiggle");
    const why = "The second strand from the left is grass, but night was promised.";
    await hoverUntil(page, squiggle, page.locator(".monaco-hover", { hasText: why }));
    await page.mouse.move(0, 0);
  });

  see("behind a step in a block stands how the strands hang, and above the set how long it becomes", async (page) => {
    await line(page, "→ heron 2 reed").waitFor();
    const lens = page.locator(".codelens-decoration").first();
    await until(async () => /^closes · /.test(await plain(lens)), "what is said of the set");
  });

  see("the line above a set opens its live picture, and the cursor leads it from one pattern to the other", async (page) => {
    const title = (text) => within(page).frameLocator("#live").locator("#title", { hasText: text });
    await page.locator(".codelens-decoration a", { hasText: "closes after 3 sets" }).click();
    await title("Slips").waitFor();
    await line(page, "strands reed heron reed").click();
    await title("Ties").waitFor();
    await command(page, "View: Close All Editors in Group");
    await open(page, "page.md", "Two bands");
  });

  see("a completion is offered in a block to whoever asks for it", async (page) => {
    await cursorAfter(page, "repeat 3 {");
    await page.keyboard.press("Enter");
    await page.keyboard.type("mee");
    // VS Code proposes nothing by itself in Markdown.
    await page.keyboard.press("Control+Space");
    await page.locator(".suggest-widget.visible .monaco-list-row", { hasText: "meet" }).first().waitFor();
    await page.keyboard.press("Escape");
    await revert(page);
  });

  see("Markdown is not ours to format", async (page) => {
    await openAlone(page, "page.md", "Two bands");
    await command(page, "Format Document");
    await nobody(page).getByText("Cancel").click();
  });

  see("where it is wanted, patterns in Markdown are formatted and nothing else", async (page) => {
    setInFolder({ "knotwright.formatMarkdown": true });
    await openAlone(page, "page.md", "Two bands");
    // To the letter: a locator that looks for a text takes two spaces for one.
    const wanted = "    both { take left 1: forward 1";
    const isFormatted = async () => (await plain(line(page, "take left 1: forward 1"))).startsWith(wanted);
    await until(async () => {
      // VS Code learns only after a while that the setting holds: until then it knows nobody, or asks who is just leaving
      // and is told nothing.
      await command(page, "Format Document");
      await soon(async () => (await isFormatted()) || (await nobody(page).isVisible()));
      if (await nobody(page).isVisible()) await nobody(page).getByText("Cancel").click();
      return isFormatted();
    }, "somebody who formats it");
    await saved(page, "page.md", `\n${wanted} }\n`);
    assert.match(read("page.md"), /Two bands, {2}one of them/);
    setInFolder({});
  });
});
