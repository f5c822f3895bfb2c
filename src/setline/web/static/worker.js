// The worker of a secure page: the network first, what was kept after. It keeps the pages of an opened job and
// the files they name; each file's address holds its hash, so a page only ever finds its own scripts.
const PAGES = "setline-pages-1";
const FILES = "setline-files-1";
const MOST_PAGES = 120;
const MOST_FILES = 160;
const kept = new Map(); // job -> revision whose pages were fetched

addEventListener("install", () => skipWaiting());
addEventListener("activate", (event) => event.waitUntil(clients.claim()));

addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== location.origin) return;
  if (url.pathname.startsWith("/static/")) event.respondWith(file(request));
  else if (request.mode === "navigate") event.respondWith(page(request));
});

addEventListener("message", (event) => {
  const { job, revision, pages } = event.data || {};
  if (!job || kept.get(job) === revision) return;
  kept.set(job, revision);
  event.waitUntil(keepPages(pages));
});

async function file(request) {
  const files = await caches.open(FILES);
  const found = await files.match(request);
  if (found) return found;
  const answer = await fetch(request);
  if (answer.ok) {
    await files.put(request, answer.clone());
    await trim(files, MOST_FILES);
  }
  return answer;
}

async function page(request) {
  try {
    const answer = await fetch(request);
    if (isPage(answer)) await put(request.url, answer.clone());
    return answer;
  } catch (away) {
    const pages = await caches.open(PAGES);
    const found = (await pages.match(request.url)) || (await pages.match(request.url, { ignoreSearch: true }));
    return found || notKept(pages);
  }
}

function isPage(answer) {
  return answer.ok && !answer.redirected && (answer.headers.get("content-type") || "").startsWith("text/html");
}

async function put(address, answer) {
  const pages = await caches.open(PAGES);
  await pages.delete(address);
  await pages.put(address, answer);
  await trim(pages, MOST_PAGES);
}

async function trim(cache, most) {
  const names = await cache.keys();
  for (const name of names.slice(0, Math.max(0, names.length - most))) await cache.delete(name);
}

// One after the other, with rests, so that a phone that reads and a small server are not held up.
async function keepPages(addresses) {
  for (const address of ["/not-on-phone", ...addresses]) {
    try {
      const answer = await fetch(address, { headers: { accept: "text/html" } });
      if (isPage(answer)) {
        const text = await answer.clone().text();
        await put(address, answer);
        const files = text.match(/\/static\/[0-9a-f]+\/[a-z.-]+/g) || [];
        for (const name of new Set(files)) await keepFile(name);
      }
    } catch {
      return;
    }
    await new Promise((done) => setTimeout(done, 150));
  }
}

async function keepFile(name) {
  const answer = await file(new Request(new URL(name, location.origin)));
  if (!/\.(js|css)$/.test(name)) return;
  const inner = (await answer.clone().text()).match(/\/static\/[0-9a-z]+\/[a-z-]+\.(js|woff)/g) || [];
  for (const other of new Set(inner)) if (other !== name) await keepFile(other);
}

// A page that was never opened on this phone: the server's own words, with what is kept.
async function notKept(pages) {
  const shell = await pages.match(new URL("/not-on-phone", location.origin).href);
  const names = (await pages.keys()).map((each) => new URL(each.url).pathname).filter((path) => path.startsWith("/j/"));
  const list = [...new Set(names)].sort().map((path) => `<li><a href="${path}">${path}</a></li>`).join("");
  const html = shell ? await shell.text() : "<!doctype html><title>Setline</title><ul><!-- kept --></ul>";
  return new Response(html.replace("<!-- kept -->", () => list), {
    status: 503,
    headers: { "content-type": "text/html; charset=utf-8", "content-security-policy": "default-src 'self'" },
  });
}
