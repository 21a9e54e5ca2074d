// @ts-check
/*
 * What a device keeps of a handbook on a web host: all of it, without the host, and one release at a time. A small
 * handbook is in BAYBOOK_SMALL, the release after it in BAYBOOK_NEXT.
 */
"use strict";

const assert = require("node:assert/strict");
const crypto = require("node:crypto");
const fs = require("node:fs");
const os = require("node:os");
const path = require("node:path");
const { after, afterEach, before, beforeEach, test } = require("node:test");
const { pathToFileURL } = require("node:url");
const { tree } = require("./tree.js");
const { device, kindOf, launch, other } = require("./opened.js");
const { Host } = require("./hosted.js");

const [small, next] = [other("BAYBOOK_SMALL").folder, other("BAYBOOK_NEXT").folder];

/** Every file of a handbook but those of its bundle. @param {string} from */
function filesOf(from) {
  const entries = fs.readdirSync(from, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile());
  const files = entries.map((entry) => path.relative(from, path.join(entry.parentPath, entry.name)).split(path.sep).join("/"));
  return files.filter((file) => !file.startsWith("bundle/")).sort();
}

const sheets = filesOf(small).filter((file) => file.endsWith(".html"));
const samples = [...new Map(sheets.map((file) => [kindOf(file), file])).values()];
const engine = sheets.find((file) => file.endsWith("/engine.html")) ?? "";
const drawn = /data-drawings="([^"]+)"/.exec(fs.readFileSync(path.join(small, engine), "utf8"))?.[1] ?? "";
const group = `section.group[data-drawings="${drawn}"]`;

/** @param {string} from */
function listed(from) {
  const [, json = "{}"] = /^globalThis\.baybookRelease=(.*);$/m.exec(fs.readFileSync(path.join(from, "offline.js"), "utf8")) ?? [];
  /** @type {{ release: string, content: string, list: string, digest: string }} */
  const release = JSON.parse(json);
  /** @type {[string, string][]} */
  const files = JSON.parse(fs.readFileSync(path.join(from, release.list), "utf8"));
  return { ...release, files };
}

const [first, second] = [listed(small), listed(next)];
const kept = (/** @type {{ release: string }} */ { release }) => `Kept on this device: release ${release}.`;
const sha256 = (/** @type {string} */ file) => crypto.createHash("sha256").update(fs.readFileSync(file)).digest("base64");

/** @type {import("playwright-core").Browser} */
let browser;
/** @type {import("playwright-core").BrowserContext} */
let context;
/** @type {InstanceType<typeof Host>} */
let host;
/** What no test may meet. @type {string[]} */
let complaints;

/** @param {import("playwright-core").BrowserContext} of @param {string} inside */
function watch(of, inside) {
  of.on("weberror", (error) => complaints.push(`script error: ${error.error().message}`));
  of.on("console", (message) => {
    // A host that is away, lacks a file or is slow is what is tested; the browser tells of it too.
    if (["error", "warning"].includes(message.type()) && !/Failed to load resource/.test(message.text())) {
      complaints.push(`console: ${message.text()}`);
    }
  });
  of.on("request", (request) => {
    if (!request.url().startsWith(inside) && !request.url().startsWith("data:")) {
      complaints.push(`leaves the handbook: ${request.url()}`);
    }
  });
}

before(async () => {
  browser = await launch();
});
after(() => browser?.close());
beforeEach(async () => {
  complaints = [];
  host = new Host(small);
  await host.open();
  context = await browser.newContext({ viewport: { width: 360, height: 740 } });
  watch(context, host.at(""));
});
afterEach(async () => {
  await context.close();
  await host.close();
  assert.deepEqual(complaints, []);
});

/** Opens a page and waits until the foot says so. @param {string} name @param {string} words */
async function open(name, words, within = context) {
  const page = await within.newPage();
  await page.goto(host.at(name));
  await says(page, words);
  return page;
}

/** @param {import("playwright-core").Page} page @param {string} words */
const says = (page, words) => page.locator(".kept", { hasText: words }).waitFor({ timeout: 20_000 });

/** @param {import("playwright-core").Page} page */
const shown = (page) => page.locator("body").getAttribute("data-release");

/** @param {import("playwright-core").Page} page */
const releasesKept = (page) => page.evaluate(async () => (await caches.keys()).length);

/** Has the browser look for a newer release. @param {import("playwright-core").Page} page */
const look = (page) => page.evaluate(async () => void (await (await navigator.serviceWorker.ready).update()));

/** Has the drawings of a group come to their rows. @param {import("playwright-core").Page} page */
async function draw(page) {
  await page.locator(`${group.replace(/="[^"]*"/, "")} .row`).last().scrollIntoViewIfNeeded();
  await page.locator(".row > .drawing.dimension, .row > .drawing.curve").first().waitFor({ state: "attached" });
}

/** Finds a value by words. @param {import("playwright-core").Page} page */
async function find(page) {
  await page.locator("[data-find]").fill("exhaust lash");
  await page.locator("[data-result]").first().waitFor();
}

test("a name that stands for other content in the next release is a sheet's, or one of the two that begin", () => {
  assert.ok(first.release !== second.release && first.digest !== second.digest && first.content !== second.content);
  const both = filesOf(small).filter((file) => fs.existsSync(path.join(next, file)));
  const changed = both.filter((file) => sha256(path.join(small, file)) !== sha256(path.join(next, file)));
  assert.deepEqual(changed.filter((file) => !file.endsWith(".html")), ["offline.js"]);
  assert.ok(changed.includes(engine) && !fs.existsSync(path.join(next, path.posix.dirname(engine), `${drawn}-0.js`)), "the drawings changed, and their name");
});

test("the list names every file of the handbook with its SHA-256", () => {
  for (const [from, release] of /** @type {const} */ ([[small, first], [next, second]])) {
    assert.deepEqual(release.files.map(([file]) => file).sort(), filesOf(from).filter((file) => ![release.list, "offline.js"].includes(file)));
    for (const [file, digest] of [...release.files, [release.list, release.digest]]) {
      assert.equal(sha256(path.join(from, file ?? "")), digest, file);
    }
  }
});

test("slimming changes nothing that the worker does", () => {
  const [, written = ""] = /^globalThis\.baybookRelease=.*?;\n([\s\S]*)$/.exec(fs.readFileSync(path.join(small, "offline.js"), "utf8")) ?? [];
  assert.equal(tree(written), tree(fs.readFileSync(path.join(__dirname, "../../site/offline/worker.js"), "utf8")));
});

test("each icon in pixels is the drawn one", async () => {
  const page = await open("index.html", kept(first));
  const manifest = JSON.parse(fs.readFileSync(path.join(small, "handbook.webmanifest"), "utf8"));
  assert.deepEqual(manifest.icons.map((/** @type {{sizes: string}} */ icon) => icon.sizes), ["any", "192x192", "512x512"]);
  const [drawing, ...pixels] = manifest.icons.map((/** @type {{src: string}} */ icon) => host.at(icon.src));
  const worst = await page.evaluate(async ([svg, ...pngs]) => {
    const load = async (/** @type {string} */ source) => {
      const image = new Image();
      image.src = source;
      await image.decode();
      return image;
    };
    const vector = await load(svg ?? "");
    return Promise.all(pngs.map(async (source) => {
      const png = await load(source);
      const read = (/** @type {HTMLImageElement} */ image) => {
        const canvas = new OffscreenCanvas(png.naturalWidth, png.naturalHeight);
        const to = canvas.getContext("2d");
        to?.drawImage(image, 0, 0, canvas.width, canvas.height);
        return to?.getImageData(0, 0, canvas.width, canvas.height).data ?? new Uint8ClampedArray();
      };
      const [a, b] = [read(vector), read(png)];
      // Edges are smoothed a little differently on a canvas; a pixel counts as another where it is plainly so.
      return { size: png.naturalWidth, other: a.filter((one, at) => Math.abs(one - (b[at] ?? 0)) > 64).length / a.length };
    }));
  }, [drawing, ...pixels]);
  assert.deepEqual(worst.map((one) => one.size), [192, 512]);
  assert.ok(worst.every((one) => one.other < 0.002), JSON.stringify(worst));
});

test("after the first visit every sheet opens without the host, and the one that is open has all it needs", async () => {
  const visit = await context.newPage();
  await visit.goto(host.at(engine));
  await says(visit, kept(first));
  await host.close();
  await draw(visit);
  await find(visit);
  const page = await context.newPage();
  for (const name of ["", "?q=lash", "index.html#sheet", ...samples]) {
    const answer = await page.goto(host.at(name));
    assert.ok(answer?.fromServiceWorker() && answer.status() === 200, name);
  }
  await page.goto(host.at(engine));
  await says(page, kept(first));
  await draw(page);
  await find(page);
  assert.equal(await page.evaluate(async () => (await (await caches.open((await caches.keys())[0] ?? "")).keys()).length), first.files.length);
  // Past its age the kept copy asks for a newer one.
  const [, date = "", days = ""] = /data-date="([^"]+)" data-stale-after="(\d+)"/.exec(fs.readFileSync(path.join(small, engine), "utf8")) ?? [];
  assert.ok(days, "the base says after how many days a copy is stale");
  await page.clock.setFixedTime(Date.parse(`${date}T00:00:00Z`) + (Number(days) + 1) * 86_400_000);
  await page.goto(host.at(engine));
  assert.equal(await page.locator(".age").first().textContent(), `${Number(days) + 1} days old: ask for a newer copy`);
  await host.open();
});

test("how far it is stands at the foot; a screen reader is told only what comes between, and the end", async () => {
  host.gives = 60;
  const page = await context.newPage();
  await page.goto(host.at("index.html"));
  const foot = page.locator(".kept");
  // Twenty and more have come: the sheet itself and its parts take the rest of what is given.
  await page.waitForFunction((of) => new RegExp(`Kept on this device: [2-9]\\d of ${of} files\\.`).test(document.querySelector(".kept")?.textContent ?? ""), first.files.length);
  assert.equal(await foot.getByRole("status").textContent(), "");
  assert.equal(await page.locator("[aria-live], [role=alert]").filter({ hasText: "files" }).count(), 0);
  await host.close();
  await says(page, "It goes on when the network is back.");
  const [, come = ""] = /device: (\d+) of/.exec((await foot.textContent()) ?? "") ?? [];
  host.gives = Infinity;
  host.asked = [];
  await host.open();
  await page.evaluate(() => dispatchEvent(new Event("online")));
  await says(page, kept(first));
  const asked = host.asked.filter((file) => file !== "offline.js" && file !== first.list).length;
  assert.ok(Number(come) >= 20 && asked <= first.files.length - Number(come), `${come} had come, ${asked} were asked for`);
  assert.equal(await foot.getByRole("status").textContent(), kept(first));
});

test("a newer release comes whole, and an open sheet stays what it is until it is shown anew", async () => {
  await open("index.html", kept(first));
  const old = await open(engine, kept(first));
  host.folder = next;
  host.asked = [];
  await look(old);
  await says(old, `Kept on this device: release ${second.release}. This sheet is still of ${first.release}.`);
  assert.equal(await shown(old), first.release);
  // Nothing comes over the network that is at hand already, and all the rest does.
  const had = new Map(first.files);
  const wanted = second.files.filter(([file, digest]) => had.get(file) !== digest).map(([file]) => file);
  const asked = new Set(host.asked.filter((file) => file !== "offline.js" && file !== second.list));
  assert.deepEqual([...asked].sort(), wanted.sort());
  await host.close();
  await draw(old);
  await find(old);
  assert.equal(await releasesKept(old), 2, "the old release is there while a sheet of it is open");
  const other = await open(engine, kept(second));
  assert.equal(await shown(other), second.release);
  await draw(other);
  await old.getByRole("button", { name: `Show release ${second.release}` }).click();
  await says(old, kept(second));
  assert.equal(await shown(old), second.release);
  await context.pages()[0]?.close();
  await old.reload();
  await old.waitForFunction(async () => (await caches.keys()).length === 1);
  await draw(old);
  await host.open();
});

test("a release that has come whole waits until no reading is being typed", async () => {
  const page = await open(engine, kept(first));
  const other = await open("index.html", kept(first));
  await page.bringToFront();
  const field = page.locator("[data-reading]").first();
  await field.focus();
  await page.keyboard.type("0.");
  host.folder = next;
  await look(page);
  const waits = `Release ${second.release} has come whole. It takes over once no reading is being typed.`;
  await says(page, waits);
  await says(other, waits);
  await other.goto(host.at(engine));
  assert.equal(await shown(other), first.release, "what is opened meanwhile is of the old release");
  await page.bringToFront();
  await page.keyboard.type("20");
  assert.equal(await field.inputValue(), "0.20");
  await field.blur();
  await says(page, `This sheet is still of ${first.release}.`);
  assert.equal(await field.inputValue(), "0.20");
  await other.goto(host.at(engine));
  assert.equal(await shown(other), second.release);
});

for (const [fault, file] of /** @type {["lacks" | "spoils", string][]} */ ([["lacks", engine], ["spoils", engine], ["spoils", second.list]])) {
  test(`a release of which the host ${fault} ${file === engine ? "a sheet" : "the list"} is refused by name, and taken once it is whole`, async () => {
    const page = await open("index.html", kept(first));
    host.folder = next;
    host[fault].add(file);
    await look(page);
    await says(page, `Release ${second.release} was refused: ${file} did not come as it was compiled. Release ${first.release} stays.`);
    await page.goto(host.at(engine));
    assert.equal(await shown(page), first.release);
    await draw(page);
    host[fault].clear();
    await look(page);
    await says(page, `This sheet is still of ${first.release}.`);
    await page.reload();
    assert.equal(await shown(page), second.release);
  });
}

test("the first visit to a host that spoils a file keeps nothing, and the handbook is read from the web", async () => {
  host.spoils.add("rules.html");
  const page = await open("index.html", `Release ${first.release} was refused: rules.html did not come as it was compiled. It is read from the web.`);
  await page.goto(host.at(engine));
  await draw(page);
});

test("what was broken off goes on where it was, even after the browser was killed", async () => {
  const profile = fs.mkdtempSync(path.join(os.tmpdir(), "baybook-device-"));
  const begun = await device(profile);
  await open("index.html", kept(first), begun);
  host.folder = next;
  host.gives = 30;
  host.asked = [];
  const page = await begun.newPage();
  await page.goto(host.at("about.html"));
  const far = /is coming: (\d+) of/;
  await page.waitForFunction(() => /is coming: [2-9]\d of/.test(document.querySelector(".kept")?.textContent ?? ""));
  const before = Number(far.exec((await page.locator(".kept").textContent()) ?? "")?.[1]);
  const given = new Set(host.asked);
  await begun.close();
  host.gives = Infinity;
  host.asked = [];
  const again = await device(profile);
  watch(again, host.at(""));
  const sheet = await again.newPage();
  await sheet.goto(host.at(engine));
  assert.equal(await shown(sheet), first.release, "the half that came is not shown");
  await says(sheet, `This sheet is still of ${first.release}.`);
  const twice = new Set(host.asked.filter((file) => given.has(file) && file !== "offline.js" && file !== second.list));
  // Some were under way when it broke off; those that had come are not asked for again.
  assert.ok(before >= 20 && twice.size <= 12, `${before} had come, asked for twice: ${[...twice]}`);
  await host.close();
  for (const name of ["index.html", engine]) {
    await sheet.goto(host.at(name));
    assert.equal(await shown(sheet), second.release, name);
  }
  await again.close();
  await host.open();
  fs.rmSync(profile, { recursive: true, maxRetries: 5 });
});

test("a browser finds nothing that keeps the handbook from being installed", async () => {
  const profile = fs.mkdtempSync(path.join(os.tmpdir(), "baybook-device-"));
  const own = await device(profile);
  watch(own, host.at(""));
  const page = await open("index.html", kept(first), own);
  const cdp = await own.newCDPSession(page);
  const manifest = await cdp.send("Page.getAppManifest");
  assert.equal(manifest.url, host.at("handbook.webmanifest"));
  assert.deepEqual(manifest.errors, []);
  assert.deepEqual((await cdp.send("Page.getInstallabilityErrors")).installabilityErrors, []);
  await own.close();
  fs.rmSync(profile, { recursive: true, maxRetries: 5 });
});

for (const denied of [false, true]) {
  for (const from of ["a host", "a disk"]) {
    test(`from ${from}, in a private window${denied ? " that may store nothing" : ""}, a value is found and its sheet drawn`, async () => {
      const profile = fs.mkdtempSync(path.join(os.tmpdir(), "baybook-device-"));
      if (denied) {
        fs.mkdirSync(path.join(profile, "Default"));
        fs.writeFileSync(path.join(profile, "Default/Preferences"), JSON.stringify({ profile: { default_content_setting_values: { cookies: 2 } } }));
      }
      const own = denied ? await device(profile) : await browser.newContext();
      const inside = from === "a disk" ? `${pathToFileURL(small).href}/` : host.at("");
      watch(own, inside);
      const page = await own.newPage();
      await page.goto(inside + "index.html");
      const stores = await page.evaluate(() => {
        try {
          return localStorage !== null;
        } catch {
          return false;
        }
      });
      assert.equal(stores, !denied);
      await find(page);
      await page.locator("[data-result] a, a[data-result]").first().click();
      await page.goto(inside + engine);
      await draw(page);
      if (from === "a disk") {
        assert.equal(await page.locator(".kept, link[rel=manifest], script[src*='kept-']").count(), 0);
      } else if (!denied) {
        await says(page, kept(first));
      }
      await own.close();
      fs.rmSync(profile, { recursive: true, maxRetries: 5 });
    });
  }
}
