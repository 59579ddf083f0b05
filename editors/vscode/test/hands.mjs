// What a person does in VS Code, and what they see.

import assert from "node:assert/strict";
import { join } from "node:path";
import { test } from "node:test";
import { onStage, PATIENCE_MS, read, setInFolder } from "./stage.mjs";

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
  const answer = await soon(ask, PATIENCE_MS);
  assert.ok(answer, `waited in vain for ${what}`);
  return answer;
}

/** The same, but not for long: for what has to be tried again where it is in vain. */
export async function soon(ask, patience = 10_000) {
  const end = Date.now() + patience;
  for (;;) {
    const answer = await ask();
    if (answer || Date.now() > end) return answer;
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
}

/**
 * Sets what holds in the open folder, until it is seen that it does. A window that was just opened may not yet watch the
 * files of its folder: what is written then is written in vain.
 */
export const setUntil = (settings, ask, what) =>
  until(() => {
    setInFolder(settings);
    return soon(ask);
  }, what);

/** How long is waited for what has to be tried again where it is in vain. */
const SOON = { timeout: 3000 };

/** Whether something could be done. */
const isDone = (work) => work.then(() => true, () => false);

/** Whether something could be clicked before long. */
export const isClicked = (locator) => isDone(locator.first().click(SOON));

/** Whether something is seen before long: for what has to be tried again where it is not. */
export const isSeen = (locator) => isDone(locator.first().waitFor(SOON));

/** A line of the text, by a piece of it. */
export const line = (page, piece) => page.locator(".view-line", { hasText: piece }).first();

/** Opens a file of the folder from the explorer, and waits for its text. */
export async function open(page, name, piece) {
  const entry = page.locator(".explorer-folders-view .monaco-list-row", { hasText: name });
  // A fresh window shows at its side what the one before it may have left there: the extensions, say.
  if (!(await isSeen(entry))) await command(page, "View: Show Explorer");
  // While the explorer is still being filled, its rows may move away from under the mouse.
  const tab = page.locator(`.tab.active[data-resource-name="${name}"]`);
  await until(async () => {
    await entry.dblclick();
    return isSeen(tab);
  }, `${name} in a tab of its own`);
  await page.locator(".editor-group-container.active .monaco-editor.focused").first().waitFor();
  // Where it was looked at last is where it opens.
  await page.keyboard.press("Control+Home");
  await line(page, piece).waitFor();
}

/** Opens a file alone, as it is on the disk. */
export async function openAlone(page, name, piece) {
  const forget = page.locator(".monaco-dialog-box .monaco-button", { hasText: "Don't Save" });
  const tabs = page.locator(".tab");
  await until(async () => {
    await command(page, "View: Close All Editors");
    return soon(async () => {
      if (await forget.isVisible()) await isClicked(forget);
      return (await tabs.count()) === 0;
    });
  }, "closed editors");
  await open(page, name, piece);
  await line(page, piece).click();
}

/** Runs a command from the palette, as it is called there. */
export async function command(page, title) {
  await ask(page, title);
  await page.locator(".quick-input-widget").waitFor({ state: "hidden" });
}

/** The same with one that asks for more where it was chosen. */
export async function ask(page, title) {
  const input = page.locator(".quick-input-widget input.input");
  // The one that is called just so, whatever else is alike.
  const entry = page.locator(`.quick-input-list .monaco-list-row[aria-label^="${title}"]`);
  await until(async () => {
    await page.keyboard.press("F1");
    // What opens at this moment may take the focus, and with it the palette, away.
    return (await isDone(input.fill(`>${title}`, SOON))) && isClicked(entry);
  }, `a command ${title}`);
}

/** Gives the text up for the one on the disk. */
export async function revert(page) {
  await command(page, "File: Revert File");
  await page.locator(".editor-group-container.active .tab.active:not(.dirty)").waitFor();
}

/** Presses a button of a notification, also of one that has hidden itself meanwhile. */
export async function answer(page, label) {
  const button = page.locator(".notification-list-item .monaco-button", { hasText: label }).first();
  await until(async () => {
    if (await isClicked(button)) return true;
    await command(page, "Notifications: Show Notifications");
    return false;
  }, `a notification with ${label}`);
}

/** The number and the text of the first line with a piece of text in it, both as they stand at one moment. */
async function numbered(page, piece) {
  const lines = await page.locator(".editor-group-container.active .monaco-editor .view-line").evaluateAll((lines) =>
    lines.map((line) => {
      // A line that has just been taken away is in no editor any more.
      const rows = line.closest(".monaco-editor")?.querySelectorAll(".line-numbers") ?? [];
      const row = [...rows].find((row) => row.parentElement.style.top === line.style.top);
      return { number: Number(row?.textContent), text: line.textContent.replace(/\u00a0/g, " ") };
    }),
  );
  // A page may hold its lines in any order.
  lines.sort((one, other) => one.number - other.number);
  return lines.find(({ number, text }) => number && text.includes(piece));
}

/**
 * Puts the cursor behind a piece of a line. A click alone would not do: lines that come above a statement while the
 * mouse is on its way push the text down.
 */
export async function cursorAfter(page, piece) {
  // A click that goes astray leaves another group of editors active.
  const { number, text } = await until(
    async () => (await isClicked(line(page, piece))) && numbered(page, piece),
    `a line with ${piece}`,
  );
  const column = text.indexOf(piece) + piece.length + 1;
  const input = page.locator(".quick-input-widget input.input");
  await until(async () => {
    await page.keyboard.press("Control+g");
    return (await isDone(input.fill(`:${number}:${column}`, SOON))) && isDone(input.press("Enter", SOON));
  }, "a place to go to");
  await page.locator(".quick-input-widget").waitFor({ state: "hidden" });
  await page.locator(".editor-group-container.active .monaco-editor.focused").first().waitFor();
  const status = page.locator("#status\\.editor\\.selection");
  await until(async () => (await plain(status)) === `Ln ${number}, Col ${column}`, `the cursor behind ${piece}`);
}

/** Rests the mouse on a place until something is shown for it. What moves meanwhile is looked for again. */
export async function hoverUntil(page, locator, shown) {
  await until(async () => {
    const place = await locator.boundingBox();
    if (!place) return false;
    await page.mouse.move(place.x + 4, place.y + place.height / 2);
    await page.mouse.move(place.x + 14, place.y + place.height / 2, { steps: 4 });
    return isSeen(shown);
  }, "a hover");
}

/** Saves the file, and waits until it holds a text. */
export async function saved(page, name, text) {
  await until(async () => {
    await page.keyboard.press("Control+s");
    return soon(() => read(name).includes(text));
  }, `${JSON.stringify(text)} in ${name}`);
}

/** Text as it is meant: VS Code writes hard spaces. */
export const plain = async (locator) => (await locator.innerText()).replace(/\u00a0/g, " ");

/** The page within a webview. */
export const within = (page, piece) =>
  page.frameLocator(`iframe.webview${piece ?? ""}`).last().frameLocator("iframe#active-frame");
