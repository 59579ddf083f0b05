// The extension as a stranger meets it: its page, and the walkthrough.

import assert from "node:assert/strict";
import { before, describe } from "node:test";
import { ask, isClicked, isSeen, line, see, until, within } from "./hands.mjs";
import { enter } from "./stage.mjs";

describe("what a stranger sees", () => {
  before(() => enter("breakwater.knot"));

  see("the page of the extension says what it does, and nothing on it is broken", async (page) => {
    await until(async () => {
      await page.keyboard.press("Escape");
      await page.keyboard.press("Control+Shift+x");
      return isSeen(page.locator(".extensions-list .monaco-list-row", { hasText: "Knotwright" }));
    }, "the list of extensions");
    await page.locator(".extensions-list .monaco-list-row", { hasText: "Knotwright" }).first().click();
    const header = page.locator(".extension-editor .header");
    await header.locator(".name", { hasText: "Knotwright" }).waitFor();
    await until(() => header.locator("img.icon").evaluate((img) => img.naturalWidth > 100), "the icon");
    const readme = within(page);
    await readme.getByRole("heading", { name: "Three steps" }).waitFor();
    for (const heading of ["Settings", "Cautions", "License"]) await readme.getByRole("heading", { name: heading }).waitFor();
    const broken = () => readme.locator("img").evaluateAll((all) => all.filter((img) => !img.complete || !img.naturalWidth).length);
    assert.equal(await broken(), 0, "a picture that is not to be had is not there");
  });

  see("the walkthrough leads from the sample to the thread", async (page) => {
    // Beside the side bar there is no room for what a step shows.
    await page.keyboard.press("Control+b");
    const first = page.locator(".quick-input-list .monaco-list-row", { hasText: "Write your first band" });
    await until(async () => {
      await ask(page, "Welcome: Open Walkthrough");
      return isClicked(first);
    }, "the walkthrough in the list");
    const walk = page.locator(".gettingStartedContainer");
    await walk.locator("h2", { hasText: "Write your first band" }).waitFor();
    for (const [title, shown] of [
      ["Make a mistake, and fix it", "Every number is checked"],
      ["Tie it", "From the screen to the cord"],
      ["Open a pattern", "A pattern is text"],
    ]) {
      await walk.locator(".getting-started-step .step-title", { hasText: title }).click();
      await within(page).getByRole("heading", { name: shown }).waitFor();
      await page.screenshot({ path: `${process.env.FOLDER}/shots/walkthrough-${title.replace(/\W+/g, "-")}.png` });
    }
    await walk.locator(".getting-started-step .step-title", { hasText: "See the band" }).click();
    const band = walk.locator(".getting-started-media img");
    await until(() => band.evaluate((img) => img.complete && img.naturalWidth > 20), "the picture of the sample");
    await page.screenshot({ path: `${process.env.FOLDER}/shots/walkthrough-See-the-band.png` });
    await walk.locator(".getting-started-step .step-title", { hasText: "Open a pattern" }).click();
    await walk.locator(".monaco-button", { hasText: "Open the sample" }).click();
    await line(page, "Dune path").waitFor();
    // Whoever comes next finds the side bar as it was.
    await page.keyboard.press("Control+Shift+e");
    await page.locator(".explorer-folders-view").waitFor();
  });
});
