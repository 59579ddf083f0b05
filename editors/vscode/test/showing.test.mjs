// What the commands show beside a pattern.

import assert from "node:assert/strict";
import { before, describe } from "node:test";
import { answer, command, cursorAfter, line, openAlone, plain, saved, see, until, within } from "./hands.mjs";
import { enter } from "./stage.mjs";

const band = (page) => within(page).locator("#band");
const live = (page) => within(page).frameLocator("#live");
/** How many steps of the live picture are lit. */
const lit = (page) => live(page).locator("#canvas").evaluate((canvas) => Number(canvas.dataset.lit));
const size = (page) => band(page).evaluate((img) => img.complete && [img.naturalWidth, img.naturalHeight].join("x"));

describe("what the commands show", () => {
  before(() => enter("breakwater.knot"));

  see("the picture of the band stands beside its text", async (page) => {
    await command(page, "Knotwright: Show Picture Beside the Text");
    await band(page).waitFor();
    const [width, height] = (await until(() => size(page), "a picture")).split("x").map(Number);
    assert.ok(height > 4 * width, `a band is long: ${width} by ${height}`);
    assert.equal(await band(page).getAttribute("alt"), "Breakwater");
  });

  see("the picture follows the text", async (page) => {
    const before = await band(page).getAttribute("src");
    await cursorAfter(page, "length 15");
    await page.keyboard.press("Backspace");
    await page.keyboard.type("2");
    await until(async () => (await band(page).getAttribute("src")) !== before, "a shorter band");
  });

  see("while the text does not tie, the last band stays, paler, and it says why", async (page) => {
    await cursorAfter(page, "take left 1");
    await page.keyboard.type("1");
    await within(page).locator("#trouble").waitFor();
    await until(() => band(page).evaluate((img) => Number(getComputedStyle(img).opacity) < 1), "a paler band");
    await page.keyboard.press("Backspace");
    await within(page).locator("#trouble").waitFor({ state: "hidden" });
  });

  see("the working chart, and how other eyes see it, are a choice away", async (page) => {
    const before = await band(page).getAttribute("src");
    await within(page).getByLabel("Working chart").check();
    const chart = await until(async () => (await band(page).getAttribute("src")) !== before && band(page).getAttribute("src"), "a chart");
    await within(page).getByRole("radio", { name: "Band" }).check();
    await within(page).getByLabel("as seen by").selectOption("deutan");
    await until(async () => ![before, chart].includes(await band(page).getAttribute("src")), "other colors");
  });

  see("the line above the set opens the live picture, and the cursor lights its step", async (page) => {
    await openAlone(page, "breakwater.knot", "Breakwater");
    await page.locator(".codelens-decoration a", { hasText: "closes" }).click();
    await live(page).locator("#title", { hasText: "Breakwater" }).waitFor();
    await until(async () => (await lit(page)) === 0, "the cursor at no step");
    await cursorAfter(page, "meet center");
    await until(async () => (await lit(page)) > 0, "the step at the cursor");
  });

  see("what is typed is tied in the live picture, and a slip is told there", async (page) => {
    await cursorAfter(page, "take left 1");
    await page.keyboard.type("1");
    await live(page).locator("#found li").first().waitFor();
    await page.keyboard.press("Backspace");
    await live(page).locator("#findings").waitFor({ state: "hidden" });
  });

  see("a step that is looked at in the live picture is found in the text", async (page) => {
    await live(page).locator("#next").click();
    await live(page).locator("#lead").click();
    await until(async () => /Ln 25,/.test(await page.locator("#status\\.editor\\.selection").innerText()), "the cursor on the step");
    assert.equal(await page.locator(".tab", { hasText: "breakwater.knot" }).count(), 2, "the text and its picture, each in its place");
  });

  see("the written instructions are a page", async (page) => {
    await openAlone(page, "breakwater.knot", "Breakwater");
    await command(page, "Knotwright: Show Written Instructions");
    await within(page).getByRole("heading", { name: "Breakwater" }).first().waitFor();
  });

  see("the thread to cut is a page that follows the pattern", async (page) => {
    await openAlone(page, "breakwater.knot", "Breakwater");
    await command(page, "Knotwright: Show Thread to Cut");
    const body = within(page).locator("body");
    const before = await until(async () => /foam/.test(await plain(body)) && plain(body), "the threads");
    await cursorAfter(page, "length 15");
    await page.keyboard.press("Backspace");
    await page.keyboard.type("2");
    await until(async () => (await plain(body)) !== before, "other lengths");
  });

  see("the fewest pick-ups are shown as a change, and applied", async (page) => {
    await openAlone(page, "breakwater.knot", "Breakwater");
    await command(page, "Knotwright: Tie with the Fewest Pick-Ups…");
    await page.locator(".monaco-diff-editor .line-insert").first().waitFor();
    await page.screenshot({ path: `${process.env.FOLDER}/shots/the-change.png` });
    await answer(page, "Apply");
    await page.locator(".monaco-diff-editor").waitFor({ state: "detached" });
    await line(page, "take right 1").click();
    await saved(page, "breakwater.knot", "take right 1");
  });

  see("the sample opens, and ties", async (page) => {
    await command(page, "Knotwright: Open a Sample Pattern");
    await line(page, "Dune path").waitFor();
    await page.locator(".codelens-decoration", { hasText: "closes" }).waitFor();
  });
});
