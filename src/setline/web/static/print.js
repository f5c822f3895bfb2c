// A PDF that is being made: the page is told when it is ready, and shows how far it is meanwhile.
const making = document.getElementById("making");
const sections = making ? [...making.querySelectorAll("[data-key]")] : [];

async function look() {
  const answer = await fetch(making.dataset.state, { cache: "no-store" });
  if (!answer.ok) return;
  const { made } = await answer.json();
  let done = false;
  for (const section of sections) {
    const now = made.find((each) => each.key === section.dataset.key);
    if (!now || now.state !== "working") done = true;
    else section.querySelector("progress").value = now.step;
  }
  if (done) location.reload();
}

if (sections.length && "EventSource" in window) {
  const feed = new EventSource(`/j/${document.body.dataset.job}/feed`);
  feed.addEventListener("revision", look);
  addEventListener("pagehide", () => feed.close());
}
