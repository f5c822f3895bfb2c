// What is kept on this phone first: entries wait in the phone's own store and are sent in the order they were
// made. Sending is safe to repeat. Nothing here knows what an entry means.
const { job, device, by } = document.body.dataset;
const STORES = ["queue", "meta", "acts"];
const DEEPEST = 50;
const OLD_DAYS = 2;
const line = document.getElementById("phone-store");
const state = document.getElementById("kept");

let opened = null;
let memory = null; // the queue of a phone that will not keep anything: it lives as long as the page
let since = null; // when the server was last not there
let sending = false;
let again = false;
let patience = 2000;
let told = "";

function store() {
  opened ??= new Promise((done, fail) => {
    const asked = indexedDB.open("setline", 1);
    asked.onupgradeneeded = () => {
      const made = asked.result;
      made.createObjectStore("queue", { keyPath: "order", autoIncrement: true });
      made.createObjectStore("meta");
      made.createObjectStore("acts", { keyPath: "order", autoIncrement: true });
    };
    asked.onsuccess = () => done(asked.result);
    asked.onerror = () => fail(asked.error);
  });
  return opened;
}

// Runs work in one transaction; what it hands to done comes back once it is on the disk.
async function inStore(mode, work) {
  const base = await store();
  return new Promise((done, fail) => {
    const act = base.transaction(STORES, mode, { durability: "strict" });
    let out;
    act.oncomplete = () => done(out);
    act.onabort = () => fail(act.error);
    work(act, (value) => (out = value));
  });
}

function random(bytes) {
  const given = crypto.getRandomValues(new Uint8Array(bytes));
  return Array.from(given, (byte) => byte.toString(16).padStart(2, "0")).join("");
}

function entriesOf(name, parts, n) {
  const at = new Date().toISOString().slice(0, 19) + "+00:00";
  return parts.map((part, index) => ({
    id: `${name}-${index + 1}`,
    job,
    device,
    n: n + index + 1,
    over: (part.over || []).map((old) => (old === "first" ? `${name}-1` : old)),
    by,
    at,
    place: part.place,
    value: part.value ?? null,
    taken_back: part.value === null || part.value === undefined,
  }));
}

function actOf(name, about, parts, entries) {
  return { name, job, about, parts, n: entries[0].n, ids: entries.map((entry) => entry.id) };
}

// Keeps the parts of one act: [{place, value, over, before}], a value of null taking back what it is over.
// Gives the entries once the phone has them. `about` comes back from undo.
export async function keep(parts, about = {}, name = random(10)) {
  const last = Number(document.body.dataset.n || 0);
  const undoing = name.startsWith("undo-");
  const made = (n) => entriesOf(name, parts, Math.max(n, last));
  let entries;
  try {
    if (memory) throw new Error("lost");
    entries = await inStore("readwrite", (act, done) => {
      const meta = act.objectStore("meta");
      meta.get(`n ${device}`).onsuccess = (event) => {
        const found = made(event.target.result || 0);
        meta.put(found[found.length - 1].n, `n ${device}`);
        for (const entry of found) act.objectStore("queue").add({ entry, kept: Date.now() });
        if (!undoing) act.objectStore("acts").add(actOf(name, about, parts, found));
        done(found);
      };
    });
  } catch {
    memory ??= { queue: [], acts: [], n: 0 };
    entries = made(memory.n);
    memory.n = entries[entries.length - 1].n;
    for (const entry of entries) memory.queue.push({ order: entry.n, entry, kept: Date.now() });
    if (!undoing) memory.acts.push({ order: memory.n, ...actOf(name, about, parts, entries) });
  }
  show();
  send();
  return entries;
}

function listed(name) {
  if (memory) return Promise.resolve([...memory[name]]);
  return inStore("readonly", (act, done) => {
    act.objectStore(name).getAll().onsuccess = (event) => done(event.target.result);
  });
}

function forget(name, orders) {
  if (memory) {
    memory[name] = memory[name].filter((each) => !orders.includes(each.order));
    return Promise.resolve();
  }
  return inStore("readwrite", (act) => orders.forEach((order) => act.objectStore(name).delete(order)));
}

// Takes back the last act of this phone on this job; gives its `about` and parts, or null.
export async function undo() {
  const acts = (await listed("acts")).filter((act) => act.job === job);
  const act = acts.pop();
  if (!act) return null;
  const parts = act.parts.map((part, index) => ({
    place: part.place,
    value: part.before ?? null,
    over: [act.ids[index]],
  }));
  const made = await keep(parts, {}, `undo-${act.name}`);
  const deep = acts.length > DEEPEST ? acts.slice(0, acts.length - DEEPEST).map((each) => each.order) : [];
  await forget("acts", [act.order, ...deep]);
  return { ...act, undone: made.map((each) => each.id) };
}

// Waits until everything was sent; false where that cannot be now.
export async function drained() {
  await send();
  while (sending) await new Promise((done) => setTimeout(done, 50));
  return !since && !(await listed("queue")).length;
}

// Acts of this phone that the page it stands on does not know of: it was made before they came to the server.
export async function unknownActs() {
  const known = Number(document.body.dataset.n || 0);
  return (await listed("acts")).filter((act) => act.job === job && act.n > known);
}

export async function canUndo() {
  return (await listed("acts")).some((act) => act.job === job);
}

// Every entry that waits, as text.
async function asText() {
  return JSON.stringify((await listed("queue")).map((each) => each.entry), null, 1);
}

async function post(batch) {
  const stop = new AbortController();
  const clock = setTimeout(() => stop.abort(), 15000);
  try {
    return await fetch(`/j/${batch[0].entry.job}/entries`, {
      method: "POST",
      headers: { "content-type": "application/json", accept: "application/json" },
      body: JSON.stringify(batch.map((each) => each.entry)),
      signal: stop.signal,
    });
  } finally {
    clearTimeout(clock);
  }
}

async function sendAll() {
  let most = 100;
  let sent = 0;
  for (;;) {
    const waiting = (await listed("queue")).filter((each) => !each.refused);
    if (!waiting.length) return sent;
    const first = waiting[0].entry.job;
    const other = waiting.findIndex((each) => each.entry.job !== first);
    const batch = waiting.slice(0, Math.min(most, other < 0 ? waiting.length : other));
    const answer = await post(batch);
    if (answer.ok) {
      await forget("queue", batch.map((each) => each.order));
      sent += batch.length;
      told = "";
      if (first === job) seen(await answer.json());
    } else if (answer.status >= 500 || [401, 403, 408, 429].includes(answer.status)) {
      told = answer.status < 500 ? await sentence(answer) : "";
      throw new Error(String(answer.status));
    } else if (batch.length > 1) {
      most = 1; // one of them is not taken: find out which, and let the others pass
    } else {
      await refuse(batch[0], await sentence(answer));
    }
  }
}

async function sentence(answer) {
  try {
    return (await answer.json()).errors[0].text;
  } catch {
    return String(answer.status);
  }
}

function refuse(waiting, why) {
  waiting.refused = why;
  if (memory) return Promise.resolve();
  return inStore("readwrite", (act) => act.objectStore("queue").put(waiting));
}

// Our own entries are no news to this page.
function seen({ revision, new: fresh }) {
  const body = document.body.dataset;
  if (revision === Number(body.revision) + fresh) body.revision = revision;
}

export async function send() {
  if (sending) {
    again = true;
    return;
  }
  sending = true;
  again = false;
  try {
    const sent = await sendAll();
    if (since && sent && line) told = line.dataset.back.replace("{count}", sent);
    since = null;
    patience = 2000;
    if (sent) document.dispatchEvent(new CustomEvent("entries-sent", { detail: sent }));
  } catch {
    since ??= new Date();
    setTimeout(send, patience);
    patience = Math.min(patience * 2, 20000);
  }
  sending = false;
  await show();
  if (again) send();
}

// Asks whether the server is there, where there is nothing to send.
export async function probe() {
  try {
    const answer = await fetch("/alive", { cache: "no-store" });
    if (!answer.ok) throw new Error(String(answer.status));
    if (since) await send();
    since = null;
  } catch {
    since ??= new Date();
    setTimeout(() => document.hidden || probe(), 20000);
  }
  await show();
}

function clock(date) {
  return date.toLocaleTimeString([], { hour: "numeric", minute: "2-digit" });
}

async function show() {
  let waiting = [];
  try {
    waiting = await listed("queue");
  } catch {
    memory ??= { queue: [], acts: [], n: 0 };
  }
  const count = waiting.length;
  if (state) state.textContent = count ? state.dataset.waiting.replace("{count}", count) : state.dataset.sent;
  if (!line) return;
  const refused = waiting.filter((each) => each.refused);
  const oldest = waiting.length ? (Date.now() - waiting[0].kept) / 86400000 : 0;
  const words = line.dataset;
  let text = told;
  if (memory) text = words.lost;
  else if (refused.length)
    text = words.refused.replace("{count}", refused.length).replace("{why}", refused[0].refused);
  else if (oldest > OLD_DAYS) text = words.old.replace("{count}", count).replace("{days}", Math.floor(oldest));
  else if (since && !told)
    text = words.noServer.replace("{time}", clock(since)).replace("{made}", clock(new Date(words.made || document.body.dataset.made)));
  const said = line.querySelector(".said");
  if (said.textContent !== text) said.textContent = text;
  line.querySelector(".waiting").hidden = !(refused.length || oldest > OLD_DAYS || (memory && count));
  line.hidden = !text;
}

// What waits can be sent by message, where it cannot be sent from here.
function offerText() {
  const box = line.querySelector(".text");
  line.querySelector(".send").addEventListener("click", send);
  line.querySelector(".show").addEventListener("click", async () => {
    box.value = await asText();
    box.hidden = false;
    box.select();
  });
}

addEventListener("online", send);
document.addEventListener("visibilitychange", () => document.hidden || probe());
if (line) offerText();
store().then(show, show);
send().then(probe);
