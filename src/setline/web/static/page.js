// Every page: says when a newer plan is there, and never changes under a thumb; keeps the job's pages for
// reading without signal where the browser lets it.
const body = document.body;
const job = body.dataset.job;

if (localStorageGet("dim")) document.documentElement.dataset.light = "dim";

function localStorageGet(name) {
  try {
    return localStorage.getItem(name);
  } catch {
    return null;
  }
}

if (job && "EventSource" in window) {
  const newer = document.getElementById("newer");
  let feed = null;
  const listen = () => {
    if (feed || document.hidden) return;
    feed = new EventSource(`/j/${job}/feed`);
    feed.addEventListener("revision", (event) => setTimeout(tell, 400, Number(event.data)));
  };
  // After a moment, so that what this phone sent itself has been answered and is no news.
  const tell = (revision) => {
    if (revision <= Number(body.dataset.revision)) return;
    newer.hidden = false;
    newer.querySelector("a").href = location.href;
    document.dispatchEvent(new CustomEvent("newer-revision", { detail: revision }));
  };
  const rest = () => {
    if (feed) feed.close();
    feed = null;
  };
  document.addEventListener("visibilitychange", () => (document.hidden ? rest() : listen()));
  addEventListener("pagehide", rest);
  addEventListener("pageshow", listen);
  listen();
}

// A form pressed twice is sent once; the server would keep it once anyway.
document.addEventListener("submit", (event) => {
  const form = event.target;
  if (form.dataset.sent) event.preventDefault();
  form.dataset.sent = "yes";
  setTimeout(() => delete form.dataset.sent, 2000);
});

// Pages for reading without signal: only a secure page may have a worker. Else the page says what it cannot do.
function cannot(which) {
  const words = document.getElementById(which);
  if (words) words.hidden = false;
}

async function keepPages() {
  if (!window.isSecureContext || !("serviceWorker" in navigator)) return cannot("plain-http");
  try {
    await navigator.serviceWorker.register("/worker.js");
  } catch {
    return cannot("not-trusted");
  }
  const ready = await navigator.serviceWorker.ready;
  if (sessionStorage.getItem(`kept ${job}`) === body.dataset.revision) return;
  sessionStorage.setItem(`kept ${job}`, body.dataset.revision);
  const links = [...document.querySelectorAll(".top .job, .foot a")].map((link) => link.href);
  ready.active.postMessage({ job, revision: body.dataset.revision, pages: [...new Set([location.href, ...links])] });
}

if (job) keepPages();
