// The sheet in a real browser: what someone at a table with threads sees, hears and presses.

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { after, before, test } from "node:test";
import { Follower } from "./follower.js";
import { until } from "./live.js";
import { axe, cleanUp, exported, kitOf, launch, open, pattern, sheetOf, written } from "./stage.js";

let browser;
before(async () => {
  browser = await launch();
});
after(async () => {
  await browser.close();
  cleanUp();
});

/** A browser as someone has set it up, for one test. */
const context = (options = {}) => browser.newContext({ viewport: { width: 1200, height: 900 }, ...options });

/** The names of the strands that hang there, as they are heard. */
const chips = (page, list) =>
  page.locator(`#${list} li`).evaluateAll((all) => all.map((chip) => chip.title));

const text = (page, name) => page.locator(`#${name}`).textContent();

test("goes through the band step by step, and the strands hang as the program says", async () => {
  const path = pattern("lamp-moth");
  const band = exported(path);
  const label = new Map(band.threads.map((thread) => [thread.name, thread.label ?? thread.name]));
  const page = await open(await context(), sheetOf(path));
  assert.deepEqual(await chips(page, "now"), band.strands.map((name) => label.get(name)));
  assert.match(await text(page, "where"), /^Set 1 of 6 · step 1 of 73 · fore wings$/);
  assert.match(await text(page, "text"), /^Take the second strand from the left \(night blue\): tie a backward knot/);
  assert.equal(await page.locator("#now .hand small").textContent(), "2");
  for (let step = 0; step < 73; step += 1) {
    const then = await chips(page, "then");
    await page.locator("#next").click();
    assert.deepEqual(await chips(page, "now"), then, `after step ${step + 1}`);
  }
  assert.match(await text(page, "where"), /^Set 2 of 6 · step 1 of 73/);
  const order = band.order.map((strand) => label.get(band.strands[strand - 1]));
  assert.deepEqual(await chips(page, "now"), order);
  assert.ok(await page.locator('[data-tick="set-0"]').isChecked(), "the first set is ticked off");
});

test("frames the strands that tie in both rows, brackets every pair, and draws where each goes", async () => {
  const path = written(
    "pairs",
    `pattern "Pairs"\nthread kelp #1f5d50\nthread sand #e3c888\nstrands kelp sand kelp kelp sand kelp\nsets 2\n` +
      `set {\n  take left 1: forward 2\n  take right 2: forward-backward 1\n}\n`,
  );
  const page = await open(await context(), sheetOf(path));
  const framed = (list) => page.locator(`#${list} .hand small`).allTextContents();
  assert.deepEqual([await framed("now"), await framed("then")], [["1"], ["3"]]);
  // One bracket from the first strand to the third.
  assert.match(await page.locator("#brackets path").getAttribute("d"), /^M10 9V3H50V9/);
  // Kelp goes under kelp: the two have numbers, the third kelp has none.
  const numbered = (list) => page.locator(`#${list} li`).evaluateAll((all) => all.map((chip) => chip.querySelector("sub")?.textContent ?? ""));
  assert.deepEqual(await numbered("now"), ["1", "", "2", "", "", ""]);
  assert.deepEqual(await numbered("then"), ["", "2", "1", "", "", ""]);
  const lines = await page.locator("#ways path[stroke]").evaluateAll((all) => all.map((line) => line.getAttribute("d")));
  assert.equal(lines.length, 6);
  assert.ok(lines.some((line) => line.startsWith("M10 0") && line.endsWith("L50 48")), "the first strand comes to the third place");
  await page.locator("#next").click();
  assert.deepEqual([await framed("now"), await framed("then")], [["5"], ["5"]]);
});

test("a row of a chart has a bracket for each of its pairs", async () => {
  const page = await open(await context(), sheetOf(written(
    "rows",
    `pattern "Rows"\nthread kelp #1f5d50\nthread sand #e3c888\nstrands kelp sand kelp sand\nsets 2\n` +
      `set {\n  rows {\n    \\ /\n  }\n}\n`,
  )));
  assert.equal(await page.locator("#brackets path").count(), 2);
  assert.deepEqual(await page.locator("#now .hand small").allTextContents(), ["1", "4"]);
  assert.deepEqual(await page.locator("#then .hand small").allTextContents(), ["2", "3"]);
});

test("rings in the strip what is tied now, and only that", async () => {
  const page = await open(await context(), sheetOf(pattern("lamp-moth")));
  const count = (state) => page.locator(`#strip use.${state}`).count();
  assert.deepEqual([await count("now"), await count("done")], [1, 0]);
  assert.equal(await page.locator("#strip circle").count(), 2, "a dark ring and a light one in it");
  const pale = await page.locator("#strip use.later").evaluateAll((all) => [all.length, ...new Set(all.map((use) => [getComputedStyle(use), getComputedStyle(use.parentNode)].map(({ opacity }) => opacity).join()))]);
  assert.ok(pale[0] > 20 && pale.length === 2 && pale[1] === "1,0.3", `pale together, as they overlap: ${pale}`);
  await page.locator("#next").click();
  assert.deepEqual([await count("now"), await count("done")], [2, 1], "the fourth strand over two");
  await page.locator("#jump").click();
  assert.equal(await count("now"), 1);
  const seen = await page.locator("#strip use.now").evaluate((use) => {
    const [knot, frame] = [use, document.getElementById("strip")].map((of) => of.getBoundingClientRect());
    return knot.top >= frame.top && knot.bottom <= frame.bottom;
  });
  assert.ok(seen, "the strip shows the knot");
  const led = await open(await context(), sheetOf(pattern("ahoy")));
  const frames = [await led.locator("#strip rect").count(), await led.locator("#strip circle").count()];
  assert.deepEqual(frames, [2, 0], "the row of a leader has one frame around it");
});

test("the strip shows the knots where the picture has them, in their colors, in every set", async () => {
  const page = await open(await context(), sheetOf(pattern("headland-path"), "--sets", "3"));
  for (let set = 0; set < 3; set += 1) {
    const differ = await page.evaluate(() => {
      // A knot of the picture: its form and thread in its name, and its place from the first knot's.
      const picture = [...document.querySelectorAll('#scroll use[href^="#band-"]')].filter((use) => use.closest("defs") === null && /#band-[fbrlhv]\d/.test(use.getAttribute("href")));
      const fills = new Map([...document.querySelectorAll('#scroll g[id^="band-"][fill]')].map((group) => [`#${group.id}`, group.getAttribute("fill")]));
      const known = new Set(picture.map((use) => {
        const name = use.getAttribute("href");
        return [name.at(6), fills.get(name), Math.round(use.x.baseVal.value), Math.round(use.y.baseVal.value)].join();
      }));
      const strip = [...document.querySelectorAll("#strip use")];
      const moves = new Set();
      for (const one of picture) for (const other of strip.slice(0, 1)) moves.add([one.x.baseVal.value - other.x.baseVal.value, one.y.baseVal.value - other.y.baseVal.value].join());
      const of = (use, [x, y]) => [use.getAttribute("href").at(6), use.getAttribute("fill"), Math.round(use.x.baseVal.value + x), Math.round(use.y.baseVal.value + y)].join();
      const least = [...moves].map((move) => strip.filter((use) => !known.has(of(use, move.split(",").map(Number)))).length);
      return { knots: strip.length, differ: Math.min(...least) };
    });
    assert.ok(differ.knots > 20, `${differ.knots} knots`);
    assert.equal(differ.differ, 0, `set ${set + 1}`);
    await page.locator("#jump").click();
  }
});

test("who is lost clicks the strands together, and the page says which step that is", async () => {
  const page = await open(await context(), sheetOf(pattern("sailcloth")));
  for (let step = 0; step < 3; step += 1) await page.locator("#next").click();
  const hang = await chips(page, "now");
  const where = await text(page, "where");
  await page.locator("#next").click();
  const pick = async (names) => {
    await page.locator("#lost").evaluate((fold) => { fold.open = true; });
    while (await page.locator("#unpick").isEnabled()) await page.locator("#unpick").click();
    for (const name of names) await page.locator("#picks button", { hasText: name }).first().click();
  };
  await pick(hang);
  assert.match(await text(page, "found"), /This is how they hang before step/);
  await page.locator("#found button").first().click();
  assert.deepEqual(await chips(page, "now"), hang);
  assert.match(await text(page, "where"), /^Set 1 of 8/);
  assert.ok(where.length > 0);
});

test("one knot tied the wrong way is found, and which knots to untie is said", async () => {
  const path = written(
    "slip",
    `pattern "Slip"\nthread kelp #1f5d50\nthread sand #e3c888\nthread foam #ffffff\nthread rock #555555\n` +
      `strands kelp sand foam rock\nsets 1\nset {\n  take left 1: forward 1\n  take right 1: backward 1\n  take left 2: forward 1\n}\n`,
  );
  const page = await open(await context(), sheetOf(path));
  // As the pattern says: sand kelp foam rock, sand kelp rock foam, sand rock kelp foam. If kelp turns back in the first
  // step, kelp rock sand foam hang there at the end: of all steps, only the end differs in two places.
  const pick = async (names) => {
    await page.locator("#lost").evaluate((fold) => { fold.open = true; });
    while (await page.locator("#unpick").isEnabled()) await page.locator("#unpick").click();
    for (const name of names) await page.locator("#picks button", { hasText: name }).click();
    return page.locator("#found p").allTextContents();
  };
  const lines = await pick(["kelp", "rock", "sand", "foam"]);
  assert.deepEqual(lines.slice(0, 3).map((line) => line.replace(/ Go there$/, "")), [
    "They hang like this at no step. ",
    "Close to this: when everything is tied (swaps of two neighbors to get there: 3).",
    "Only kelp at place 1 and sand at place 3 hang swapped there. These two were last tied together in step 1 of Set 1 of 1. " +
      "If that knot is the wrong one, untie back to it and tie it again.",
  ]);
  // The others are as near, but no one knot leads from there.
  assert.ok(lines.slice(3).every((line) => /^Close to this: before step [13] of Set 1 of 1 \(.*: 2\)/.test(line)), lines.join("\n"));
  assert.equal(lines.length, 5, lines.join("\n"));
  await page.locator("#found button").nth(1).click();
  assert.match(await text(page, "where"), /^Set 1 of 1 · step 1 of 3/, "the button leads to the knot to tie again");
  // In the middle of the band: rock turned back in the second step, and nothing was tied after it.
  const early = await pick(["sand", "kelp", "foam", "rock"]);
  assert.match(early[0], /^This is how they hang before step 2/, "as if the step were still to come");
});

test("who follows 40 steps with the sheet alone ties the band: steps, a chart, a leader", async () => {
  for (const name of ["lamp-moth", "beehive", "ahoy"]) {
    const path = pattern(name);
    const band = exported(path);
    const label = new Map(band.threads.map((thread) => [thread.name, thread.label ?? thread.name]));
    const page = await open(await context(), sheetOf(path));
    const follower = new Follower(await chips(page, "now"));
    assert.deepEqual(follower.names(), band.strands.map((strand) => label.get(strand)), name);
    const places = (strands) => follower.hang.flatMap(({ strand }, at) => (strands.has(strand) ? [String(at + 1)] : []));
    const framed = (list) => page.locator(`#${list} .hand small`).allTextContents();
    const all = [...(band.opening?.knots ?? []), ...Array(8).fill(band.knots).flat()];
    let tied = 0;
    for (let step = 1; step <= 40; step += 1) {
      const [before, words] = [[...follower.hang], await text(page, "text")];
      const { knots, working } = follower.follow(words);
      const said = `${name}, step ${step}: ${words}`;
      const simulated = all.slice(tied, tied + knots.length).map(({ gap, kind }) => ({ gap, kind }));
      assert.deepEqual(knots.map(({ gap, kind }) => ({ gap, kind })), simulated, said);
      const framedBefore = before.flatMap(({ strand }, at) => (working.has(strand) ? [String(at + 1)] : []));
      assert.deepEqual([await framed("now"), await framed("then")], [framedBefore, places(working)], said);
      assert.deepEqual(await chips(page, "then"), follower.names(), said);
      tied += knots.length;
      await page.locator("#next").click();
      assert.deepEqual(await chips(page, "now"), follower.names(), said);
    }
    assert.ok(tied >= 40, `${name}: ${tied} knots`);
    await page.close();
  }
});

test("keeps the place and the ticks, for this band only", async () => {
  const browsing = await context();
  const path = sheetOf(pattern("sailcloth"));
  const page = await open(browsing, path);
  await page.locator("#next").click();
  await page.locator("#next").click();
  await page.locator('[data-tick="cut-0"]').check();
  const where = await text(page, "where");
  assert.match(where, /step 3 of 6/);
  // What one page keeps comes to the next by way of the browser, which takes a moment.
  const again = await until(async () => {
    const next = await open(browsing, path);
    const isKept = (await text(next, "where")) === where && (await next.locator('[data-tick="cut-0"]').isChecked());
    return isKept ? next : next.close();
  });
  const other = await open(browsing, sheetOf(pattern("sailcloth"), "--sets", "3"));
  assert.match(await text(other, "where"), /^Set 1 of 3 · step 1 of 6/);
  again.on("dialog", (dialog) => dialog.accept());
  await again.locator("#begin").click();
  assert.match(await text(again, "where"), /^Set 1 of 8 · step 1 of 6/);
  assert.ok(!(await again.locator('[data-tick="cut-0"]').isChecked()));
});

test("times what is tied from one Done to the next, but no break, and a kit can use the times", async () => {
  const path = written(
    "times",
    `pattern "Times"\nthread kelp #1f5d50\nthread sand #e3c888\nstrands 2 kelp 2 sand\nsets 4\nset {\n` +
      `  take left 1: forward 2, backward-forward 1\n  take left 3: backward 2\n  take left 1: forward-backward 2\n` +
      `  take left 2: forward 1\n  take right 1: backward 3\n}\n`,
  );
  const page = await open(await context({ acceptDownloads: true }), sheetOf(path));
  const set = exported(path).knots;
  const after = async (seconds) => {
    await page.evaluate((seconds) => {
      const now = Date.now() + seconds * 1000;
      Date.now = () => now;
    }, seconds);
    await page.locator("#next").click();
  };
  // Nobody knows when the first step was begun. Then each step of a set takes 50 seconds, and one more a day.
  await after(30);
  for (let step = 0; step < 5; step += 1) await after(50);
  assert.ok(await page.locator("#times-line").isVisible());
  await after(86_400);
  await page.locator("#back").click();
  await after(5);
  assert.equal(await text(page, "times"), `You have tied ${set.length} knots here in 4 min, breaks not counted.`);
  const [download] = await Promise.all([page.waitForEvent("download"), page.locator("#save-times").click()]);
  assert.equal(download.suggestedFilename(), "knotwright-times.csv");
  const file = await download.path();
  const lines = readFileSync(file, "utf8").trimEnd().split("\n");
  assert.equal(lines.shift(), "knots,turning_knots,pick_ups,seconds");
  const sums = lines.map((line) => line.split(",").map(Number)).reduce((all, line) => all.map((sum, at) => sum + line[at]));
  const turning = set.filter((knot) => /forward-backward|backward-forward/.test(knot.kind)).length;
  const taken = set.filter((knot, at) => at === 0 || knot.working !== set[at - 1].working).length;
  assert.deepEqual(sums, [set.length, turning, taken, 250]);
  const [usual, timed] = [kitOf(path), kitOf(path, "--times", file)].map((kit) => kit.bands[0].time.likely_s);
  assert.ok(timed > usual, `50 seconds a step are slow: ${timed} s, and ${usual} s without the times`);
  // They are kept with the place.
  await page.reload();
  assert.ok(await page.locator("#times-line").isVisible());
});

test("what was kept by something else is not believed", async () => {
  const browsing = await context();
  const path = sheetOf(pattern("sailcloth"));
  for (const kept of ["{", '{"part":-1,"step":"x"}', '{"part":99999999,"step":0}', '{"part":0,"step":99999,"ticks":7,"times":[[1,2]]}', "null"]) {
    const page = await open(browsing, path);
    const key = await page.evaluate(() => `knotwright:${document.documentElement.dataset.band}`);
    await page.evaluate(([key, kept]) => localStorage.setItem(key, kept), [key, kept]);
    await page.reload();
    assert.match(await text(page, "where"), /^Set [12] of 8 · step 1 of 6/, kept);
    assert.deepEqual(page.said, []);
    await page.close();
  }
});

test("is worked by keys alone, to the end and back", async () => {
  const page = await open(await context(), sheetOf(pattern("three-reeds"), "--sets", "2"));
  assert.ok(await page.locator("#back").isDisabled());
  await page.keyboard.press("ArrowRight");
  await page.keyboard.press("Enter");
  assert.match(await text(page, "where"), /step 3 of 6/);
  await page.keyboard.press("ArrowLeft");
  assert.match(await text(page, "where"), /step 2 of 6/);
  for (let step = 0; step < 20; step += 1) await page.keyboard.press("ArrowRight");
  assert.equal(await text(page, "text"), "Everything is tied. Now finish the ends.");
  assert.ok(await page.locator("#next").isDisabled());
  assert.equal(await page.locator("#progress").evaluate((bar) => bar.value), 1);
  await page.keyboard.press("ArrowLeft");
  assert.match(await text(page, "where"), /^Set 2 of 2 · step 6 of 6/);
  await page.locator("#next").focus();
  await page.keyboard.press("Enter");
  assert.equal(await text(page, "text"), "Everything is tied. Now finish the ends.");
});

test("an opening and a closing have their turn, and other colors in later sets", async () => {
  const path = written(
    "turns",
    `pattern "Turns"\nthread kelp #1f5d50\nthread sand #e3c888\nthread foam #fff\nstrands kelp sand foam\nsets 4\n` +
      `opening {\n  take left 1: forward 1\n}\nset {\n  note "Pull it tight."\n  take left 1: forward 2\n}\n` +
      `closing {\n  take right 1: backward 1\n}\n`,
  );
  const page = await open(await context(), sheetOf(path));
  const seen = [];
  for (let step = 0; step < 6; step += 1) {
    const color = /\((\w+)\)/.exec(await text(page, "text"))[1];
    seen.push(`${(await text(page, "where")).split(" · ")[0]}: ${color}`);
    await page.locator("#next").click();
  }
  // kelp goes over sand; then in turn sand, kelp, foam, sand go to the right edge; kelp foam sand hang there at last.
  assert.deepEqual(seen, [
    "Opening: kelp", "Set 1 of 4: sand", "Set 2 of 4: kelp", "Set 3 of 4: foam", "Set 4 of 4: sand", "Closing: sand",
  ]);
  await page.locator("#back").click();
  await page.locator("#back").click();
  assert.equal(await text(page, "notes"), "Note: Pull it tight.");
});

test("nothing of a pattern runs, and nothing is asked of a network", async () => {
  const nasty = `</script><script>document.title='owned'</script><img src=x onerror=document.title='owned'>&<!--`;
  const path = written(
    "nasty",
    `pattern "${nasty}"\nabout "<svg onload=document.title='owned'>"\nauthor "${nasty}"\n` +
      `thread kelp #1f5d50 "${nasty}"\nthread sand #e3c888\nstrands kelp sand\nsets 2\n` +
      `set {\n  section "${nasty}" {\n    note "${nasty}"\n    take left 1: forward 1\n    take right 1: backward 1\n  }\n}\n`,
  );
  const page = await open(await context(), sheetOf(path));
  await page.locator("#next").click();
  assert.equal(await page.title(), nasty);
  assert.equal(await page.locator("h1").textContent(), nasty);
  assert.ok((await text(page, "text")).includes(nasty));
  assert.equal(await page.locator("img").count(), 0);
  assert.equal(page.asked.length, 1, `only the sheet itself: ${page.asked}`);
  assert.deepEqual(page.said, []);
  // The policy holds: a script that is put in later does not run.
  await page.evaluate(() => {
    const script = document.createElement("script");
    script.textContent = "document.title = 'owned'";
    document.body.append(script);
  });
  assert.equal(await page.title(), nasty);
  assert.ok(page.said.some((said) => said.includes("Content Security Policy")));
});

test("without scripts all steps can be read", async () => {
  const page = await open(await context({ javaScriptEnabled: false }), sheetOf(pattern("lamp-moth")));
  assert.ok(await page.getByText("Scripts are off").isVisible());
  assert.ok(!(await page.locator("#follow").isVisible()));
  assert.ok(await page.locator("#all li").first().isVisible());
});

for (const [name, set] of Object.entries({
  upright: { viewport: { width: 390, height: 664 }, isMobile: true, hasTouch: true },
  sideways: { viewport: { width: 844, height: 390 }, isMobile: true, hasTouch: true },
})) {
  test(`one screen of a phone holds all that a step needs: ${name}`, async () => {
    for (const band of ["lamp-moth", "harbor-quilt", "ahoy"]) {
      const page = await open(await context(set), sheetOf(pattern(band)));
      await page.locator("#next").click();
      for (const part of ["#text", "#now", "#then", "#strip", "#next"]) {
        const { top, bottom } = await page.locator(part).evaluate((of) => of.getBoundingClientRect().toJSON());
        assert.ok(top >= 0 && bottom <= set.viewport.height + 1, `${band}: ${part} from ${top} to ${bottom}`);
      }
      assert.ok(!(await page.locator("#keys").isVisible()), "no line about keys");
      assert.ok(await page.locator("h1").isVisible());
      assert.ok(!(await page.locator("header p").first().isVisible()), "what the author says is folded");
      await page.close();
    }
  });
}

for (const [name, set] of Object.entries({
  light: { colorScheme: "light" },
  dark: { colorScheme: "dark" },
  phone: { viewport: { width: 360, height: 740 }, isMobile: true, hasTouch: true },
})) {
  test(`axe-core finds nothing: ${name}`, async () => {
    // The page's policy lets nothing in from elsewhere, axe-core neither; for this test it is lifted.
    const browsing = await context({ ...set, bypassCSP: true, reducedMotion: "reduce" });
    for (const band of ["lamp-moth", "breakwater", "ahoy"]) {
      const page = await open(browsing, sheetOf(pattern(band), "--language", band === "ahoy" ? "de" : "en"));
      await page.locator("#next").click();
      await page.addScriptTag({ content: axe });
      const found = await page.evaluate(() => window.axe.run(document, { resultTypes: ["violations"] }));
      const told = found.violations.map((of) => `${of.id}: ${of.nodes.map((node) => node.html.slice(0, 120)).join("; ")}`);
      assert.deepEqual(told, [], band);
      const sideways = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
      assert.ok(sideways <= 0, `${band}: ${sideways} pixels to scroll sideways`);
      await page.close();
    }
  });
}

test("on a narrow screen many strands scroll on their own, and the page does not", async () => {
  const page = await open(await context({ viewport: { width: 375, height: 740 } }), sheetOf(pattern("kelp-forest")));
  await page.locator("#now li").last().waitFor();
  const widths = (of) => page.locator(of).evaluate((element) => [element.scrollWidth, element.clientWidth]);
  const [[wide, seen], [pageWide, pageSeen]] = [await widths("#hands"), await widths("html")];
  assert.ok(wide > seen, `${wide} in ${seen}`);
  assert.ok(pageWide <= pageSeen, `${pageWide - pageSeen} pixels to scroll sideways`);
});

test("on a narrow screen the strands scroll with the one in hand", async () => {
  const page = await open(await context({ viewport: { width: 375, height: 740 } }), sheetOf(pattern("kelp-forest")));
  const seen = () => page.locator("#now .hand").first().evaluate((chip) => {
    const [at, row] = [chip, document.getElementById("hands")].map((of) => of.getBoundingClientRect());
    return at.left >= row.left && at.right <= row.right;
  });
  const scrolled = new Set();
  for (let step = 1; step <= 30; step += 1) {
    assert.ok(await seen(), `step ${step}`);
    scrolled.add(await page.locator("#hands").evaluate(({ scrollLeft }) => scrollLeft > 0));
    await page.locator("#next").click();
  }
  assert.equal(scrolled.size, 2, "to the right and back");
});

test("beads at the edges are whole in the strip, and the strand in hand has a frame", async () => {
  const page = await open(await context({ viewport: { width: 375, height: 740 } }), sheetOf(written(
    "wrack",
    `pattern "Wrack"\nthread kelp #1f5d50\nbead shell #d98e4a 8 mm hole 3 mm\nstrands 4 kelp\nsets 2\n` +
      `set {\n  both {\n    bead shell on left 1\n    take left 1: forward to center left\n  }\n  meet center\n}\n`,
  )));
  const cut = await page.evaluate(() => {
    const strip = document.getElementById("strip").getBoundingClientRect();
    const shapes = [...document.querySelectorAll("#strip circle")].map((of) => of.getBoundingClientRect());
    return shapes.filter(({ left, right, top }) => left < strip.left || right > strip.right || top < strip.top).length;
  });
  assert.equal(cut, 0);
  assert.deepEqual(await page.locator("#now .hand small").allTextContents(), ["1"]);
});

test("how to tie it says how ends are made, and is gone where there is nothing to say", async () => {
  const page = await open(await context(), sheetOf(written(
    "moorings",
    `pattern "Moorings"\nthread kelp #1f5d50\nstrands 4 kelp\nsets 1\nbegin {\n  tassel 2 cm\n  knot\n}\n` +
      `set { take left 1: forward to edge }\n`,
  )));
  const said = async () => (await page.locator("#how .drawings > :not([hidden])").allTextContents()).map((how) => how.trim().split(":")[0]);
  const steps = [];
  for (let step = 0; step < 4; step += 1) {
    steps.push((await page.locator("#how").isVisible()) ? await said() : null);
    await page.locator("#next").click();
  }
  assert.deepEqual(steps, [null, ["Tassel"], ["Overhand knot"], ["Forward knot"]]);
  assert.ok(!(await page.locator("#how").isVisible()), "everything is tied");
});

test("printed, it is black on white, with the chart and boxes to tick", async () => {
  const page = await open(await context({ colorScheme: "dark" }), sheetOf(pattern("lamp-moth")));
  await page.emulateMedia({ media: "print", colorScheme: "dark" });
  assert.ok(!(await page.locator("#follow").isVisible()));
  assert.ok(await page.locator("#scroll svg").isVisible());
  assert.deepEqual(await page.locator(".swatch").allTextContents(), ["N", "M", "O"]);
  assert.ok(await page.locator("#chart svg").first().isVisible());
  const letters = await page.locator("#chart svg").first().evaluate((svg) => {
    const scale = svg.getBoundingClientRect().width / svg.viewBox.baseVal.width;
    return Math.min(...[...svg.querySelectorAll("text")].map((of) => parseFloat(getComputedStyle(of).fontSize))) * scale * 0.75;
  });
  assert.ok(letters >= 8, `letters of ${letters} points`);
  assert.equal(await page.locator(".boxes.sets input").count(), 6);
  const colors = await page.evaluate(() => {
    const style = (of) => getComputedStyle(document.querySelector(of));
    return [style("html").backgroundColor, style("html").color, style("#all li").color];
  });
  assert.deepEqual(colors, ["rgb(255, 255, 255)", "rgb(0, 0, 0)", "rgb(0, 0, 0)"]);
  const gray = await page.locator("#chart svg").first().evaluate((svg) => {
    const colors = [...svg.querySelectorAll("[fill],[stroke]")].flatMap((of) => [of.getAttribute("fill"), of.getAttribute("stroke")]);
    return colors.filter((color) => color && /^#/.test(color)).every((color) => {
      const digits = color.length === 4 ? [...color.slice(1)].map((digit) => digit + digit) : color.slice(1).match(/../g);
      const [red, green, blue] = digits.map((pair) => parseInt(pair, 16));
      return Math.max(red, green, blue) - Math.min(red, green, blue) <= 10;
    });
  });
  assert.ok(gray, "no color in the chart");
  const pdf = await page.pdf({ format: "A4" });
  assert.ok(pdf.length > 10_000);
});
