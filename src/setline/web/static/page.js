// Every page: says when a newer plan is there, and never changes under a thumb.
const body = document.body;
const job = body.dataset.job;

if (job && "EventSource" in window) {
  const seen = Number(body.dataset.revision);
  const newer = document.getElementById("newer");
  let feed = null;
  const listen = () => {
    if (feed || document.hidden) return;
    feed = new EventSource(`/j/${job}/feed`);
    feed.addEventListener("revision", (event) => {
      if (Number(event.data) === seen) return;
      newer.hidden = false;
      newer.querySelector("a").href = location.href;
      document.dispatchEvent(new CustomEvent("newer-revision", { detail: Number(event.data) }));
    });
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
