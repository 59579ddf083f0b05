// While a pattern is written: what VS Code shows in and around the text.

import assert from "node:assert/strict";
import { before, describe } from "node:test";
import { command, cursorAfter, line, open, plain, see, until } from "./hands.mjs";
import { enter, read } from "./stage.mjs";

/** Between two keys. */
const TYPIST_MS = 80;
/** The same in haste; the next key often comes while proposals are looked for. */
const HASTE_MS = [0, 12, 15, 20, 12, 15];

describe("while a pattern is written", () => {
  before(() => enter("dune-path.knot"));

  see("every thread has a swatch of its color", async (page) => {
    const swatches = page.locator(".view-lines .colorpicker-color-decoration");
    await until(async () => (await swatches.count()) === 3, "three swatches");
    const colors = await swatches.evaluateAll((all) => all.map((one) => getComputedStyle(one).backgroundColor));
    assert.deepEqual(colors, ["rgb(31, 47, 70)", "rgb(111, 143, 78)", "rgb(227, 196, 141)"]);
  });

  see("behind a step stands how the strands hang after it", async (page) => {
    await line(page, "→ grass dune night | mirror").waitFor();
  });

  see("above the set stands that it closes, and how long the band becomes", async (page) => {
    const lens = page.locator(".codelens-decoration");
    await lens.waitFor();
    assert.match(await plain(lens), /^closes · 15 knots · .*14\.6 cm$/);
  });

  see("a hover shows the band up to there", async (page) => {
    await line(page, "meet center").getByText("meet", { exact: true }).hover();
    const picture = page.locator(".monaco-hover img").first();
    await picture.waitFor();
    const size = await until(() => picture.evaluate((img) => img.complete && img.naturalWidth), "a picture");
    assert.ok(size > 20, `${size} pixels wide`);
  });

  see("a completion is offered, and accepted", async (page) => {
    await cursorAfter(page, "meet center");
    await page.keyboard.press("Enter");
    await page.keyboard.type("take left 1: forw", { delay: TYPIST_MS });
    await page.locator(".suggest-widget.visible .monaco-list-row", { hasText: "forward to center left" }).click();
    await line(page, "take left 1: forward to center left").waitFor();
    await command(page, "File: Revert File");
  });

  see("whoever types without a pause sees what may come next all the same", async (page) => {
    for (const pause of HASTE_MS) {
      await cursorAfter(page, "meet center");
      await page.keyboard.press("Enter");
      await page.keyboard.type("take left 1: forw", { delay: pause });
      // However long it takes: nothing more is typed, so nothing more is asked.
      await page.locator(".suggest-widget.visible .monaco-list-row", { hasText: "forward to center left" }).waitFor();
      await page.keyboard.press("Escape");
      await command(page, "File: Revert File");
    }
  });

  see("a thread gets another name everywhere", async (page) => {
    await cursorAfter(page, "strands night");
    await page.keyboard.press("F2");
    const box = page.locator(".rename-box input");
    await box.waitFor();
    await box.fill("midnight");
    await page.keyboard.press("Enter");
    await line(page, "thread midnight").waitFor();
    await line(page, "strands midnight grass dune").waitFor();
    await line(page, "→ grass dune midnight | mirror").waitFor();
  });

  see("a promise that does not hold is underlined, and the hover says why", async (page) => {
    await open(page, "slip.knot", "Slip");
    const squiggle = page.locator(".squiggly-error");
    await squiggle.first().waitFor({ state: "attached" });
    assert.equal(await squiggle.count(), 1);
    const hover = page.locator(".monaco-hover", { hasText: "The second strand from the left is grass, but night was promised." });
    // Lines that are put above a statement move the text, and what rests is not asked about again.
    await until(async () => {
      const place = await squiggle.boundingBox();
      await page.mouse.move(place.x + 4, place.y + place.height / 2);
      await page.mouse.move(place.x + 14, place.y + place.height / 2, { steps: 4 });
      return hover.first().waitFor({ timeout: 2000 }).then(() => true, () => false);
    }, "the reason");
  });

  see("a quick fix mends it", async (page) => {
    await page.mouse.move(0, 0);
    await cursorAfter(page, "both { take left 2 (ni");
    await page.locator("[class*=lightBulb], [class*=lightbulb]").first().waitFor();
    await page.keyboard.press("Control+.");
    await page.locator(".action-widget .monaco-list-row", { hasText: "every promise holds then" }).first().click();
    await line(page, "take left 1 (night): forward 1").waitFor();
    await page.locator(".squiggly-error").waitFor({ state: "detached" });
    await command(page, "File: Revert File");
  });

  see("saving puts the text into its usual form", async (page) => {
    await open(page, "messy.knot", "Messy");
    await page.locator(".codelens-decoration").waitFor();
    await cursorAfter(page, "repeat 2 {");
    await page.keyboard.type(" ");
    await page.keyboard.press("Control+s");
    await until(() => read("messy.knot").includes("\n    both { take left 1: forward to center left }\n    meet center\n"), "the form");
    assert.match(read("messy.knot"), /strands night grass \| mirror\n/);
  });

  see("a fenced pattern in Markdown is colored like one", async (page) => {
    await open(page, "notes.md", "Notes");
    const color = (text) => line(page, text).locator("span > span").first().evaluate((word) => getComputedStyle(word).color);
    await until(async () => (await color("strands reed")) !== (await color("The shortest band")), "colors");
  });
});
