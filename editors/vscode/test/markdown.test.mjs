// Patterns within Markdown: what VS Code shows there, and what it leaves as it is.

import assert from "node:assert/strict";
import { readdirSync, readFileSync } from "node:fs";
import { before, describe } from "node:test";
import { command, cursorAfter, line, open, openAlone, plain, see, until, within } from "./hands.mjs";
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

/** Has the text formatted; whether VS Code knows somebody who does that. */
async function format(page) {
  await command(page, "Format Document");
  const nobody = page.locator(".monaco-dialog-box", { hasText: "There is no formatter for 'markdown' files installed." });
  const refused = await nobody.waitFor({ timeout: 1500 }).then(() => true, () => false);
  if (refused) await nobody.getByText("Cancel").click();
  return !refused;
}

describe("patterns within Markdown", () => {
  before(() => enter("plain.md"));

  see("Markdown without a pattern starts no server, and with the first one it is there", async (page) => {
    await line(page, "No pattern is fenced here").waitFor();
    await page.keyboard.press("Control+End");
    await page.keyboard.type("More words.\n");
    await until(async () => (await page.locator(".statusbar-item", { hasText: "Markdown" }).count()) > 0, "the language");
    await page.waitForTimeout(1000);
    assert.equal(serving(), 0);
    await page.keyboard.insertText("\n```knot\npattern \"Begun\"\nknot\n```\n");
    await page.locator(".squiggly-error").first().waitFor({ state: "attached" });
    assert.equal(serving(), 1);
    await command(page, "File: Revert File");
    await page.locator(".squiggly-error").waitFor({ state: "detached" });
  });

  see("a slip in a block is underlined, and the hover says why", async (page) => {
    await open(page, "page.md", "Two bands");
    const squiggle = page.locator(".squiggly-error");
    await squiggle.first().waitFor({ state: "attached" });
    assert.equal(await squiggle.count(), 1);
    const hover = page.locator(".monaco-hover", { hasText: "The second strand from the left is grass, but night was promised." });
    await until(async () => {
      const place = await squiggle.boundingBox();
      await page.mouse.move(place.x + 4, place.y + place.height / 2);
      await page.mouse.move(place.x + 14, place.y + place.height / 2, { steps: 4 });
      return hover.first().waitFor({ timeout: 2000 }).then(() => true, () => false);
    }, "the reason");
    await page.mouse.move(0, 0);
  });

  see("behind a step in a block stands how the strands hang, and above the set how long it becomes", async (page) => {
    await line(page, "→ heron 2 reed").waitFor();
    const lens = page.locator(".codelens-decoration").first();
    assert.match(await plain(lens), /^closes · /);
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
    await command(page, "File: Revert File");
  });

  see("Markdown is not ours to format", async (page) => {
    await openAlone(page, "page.md", "Two bands");
    assert.ok(!(await format(page)), "somebody formats it");
  });

  see("where it is wanted, patterns in Markdown are formatted and nothing else", async (page) => {
    setInFolder({ "knotwright.formatMarkdown": true });
    await openAlone(page, "page.md", "Two bands");
    await until(() => format(page), "somebody who formats it");
    await line(page, "    both { take left 1: forward 1").waitFor();
    await page.keyboard.press("Control+s");
    await until(() => read("page.md").includes("    both { take left 1: forward 1 }\n"), "the form");
    assert.match(read("page.md"), /Two bands, {2}one of them/);
    setInFolder({});
  });
});
