// What a person does in VS Code, and what they see.

import assert from "node:assert/strict";
import { join } from "node:path";
import { test } from "node:test";
import { onStage } from "./stage.mjs";

const shots = join(process.env.FOLDER, "shots");

/** A test that ends with a screenshot, also where it fails. */
export const see = (name, act) =>
  test(name, async () => {
    const { page } = onStage();
    const shot = (how) =>
      page.screenshot({ path: join(shots, `${how}${name.replace(/\W+/g, "-")}.png`), animations: "disabled" });
    try {
      await act(page);
      await shot("");
    } catch (error) {
      await shot("FAILED-");
      throw error;
    }
  });

/** Waits until a question is answered with something true, and gives that. */
export async function until(ask, what) {
  const end = Date.now() + 30_000;
  for (;;) {
    const answer = await ask();
    if (answer) return answer;
    assert.ok(Date.now() < end, `waited in vain for ${what}`);
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
}

/** A line of the text, by a piece of it. */
export const line = (page, piece) => page.locator(".view-line", { hasText: piece }).first();

/** Opens a file of the folder from the explorer, and waits for its text. */
export async function open(page, name, piece) {
  const entry = page.locator(".explorer-folders-view .monaco-list-row", { hasText: name });
  await entry.dblclick();
  await page.locator(`.tab.active[data-resource-name="${name}"]`).waitFor();
  await page.locator(".editor-group-container.active .monaco-editor.focused").first().waitFor();
  // Where it was looked at last is where it opens.
  await page.keyboard.press("Control+Home");
  await line(page, piece).waitFor();
}

/** Opens a file alone, as it is on the disk. */
export async function openAlone(page, name, piece) {
  await command(page, "View: Close All Editors");
  const forget = page.locator(".monaco-dialog-box .monaco-button", { hasText: "Don't Save" });
  const tabs = page.locator(".tab");
  await until(async () => {
    if (await forget.isVisible()) await forget.click();
    return (await tabs.count()) === 0;
  }, "closed editors");
  await open(page, name, piece);
  await line(page, piece).click();
}

/** Runs a command from the palette, as it is called there. */
export async function command(page, title) {
  const input = page.locator(".quick-input-widget input.input");
  await page.keyboard.press("F1");
  await input.waitFor();
  await input.fill(`>${title}`);
  // The one that is called just so, whatever else is alike.
  await page.locator(`.quick-input-list .monaco-list-row[aria-label^="${title}"]`).first().click();
  await page.locator(".quick-input-widget").waitFor({ state: "hidden" });
}

/** Puts the cursor behind a piece of a line. */
export async function cursorAfter(page, piece) {
  await line(page, piece).click();
  await page.keyboard.press("Home");
  const text = await plain(line(page, piece));
  for (let i = text.trimStart().indexOf(piece) + piece.length; i > 0; i--) await page.keyboard.press("ArrowRight");
}

/** Text as it is meant: VS Code writes hard spaces. */
export const plain = async (locator) => (await locator.innerText()).replace(/\u00a0/g, " ");

/** The page within a webview. */
export const within = (page, piece) =>
  page.frameLocator(`iframe.webview${piece ?? ""}`).last().frameLocator("iframe#active-frame");
