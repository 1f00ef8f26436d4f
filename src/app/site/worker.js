// Keeps the site on the phone, whole, and answers from there.
//
// Every build has a cache of its own, filled at once or not at all: each file is compared with the
// checksum that the build gave it. Which build is in use is written in a cache beside them, and
// only the page changes that, when the person says so. So a build that has come in meanwhile
// waits, however often the app is closed and opened, and never mixes with the one in use.
//
// The build fills in the two values below.
const BUILD = "";
const FILES = {};

const PREFIX = "pailwise-site-";
const IN_USE = new URL("in-use", self.registration.scope).href;

/** Which build is in use, if any is. */
async function inUse() {
  const at = await (await caches.open("pailwise-use")).match(IN_USE);
  return at ? at.text() : null;
}

async function use(build) {
  await (await caches.open("pailwise-use")).put(IN_USE, new Response(build));
  for (const name of await caches.keys()) {
    if (name.startsWith(PREFIX) && name !== PREFIX + build) await caches.delete(name);
  }
}

async function checksum(bytes) {
  const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  return btoa(String.fromCharCode(...digest));
}

/** A file as this build has it: one that an earlier build left here, or from the network. */
async function fetched(path, wanted) {
  const here = await caches.match(new URL(path, self.registration.scope));
  if (here && (await checksum(await here.clone().arrayBuffer())) === wanted) return here;
  const answer = await fetch(new Request(path, { cache: "no-cache" }));
  if (!answer.ok) throw new Error(`${path}: ${answer.status}`);
  const bytes = await answer.arrayBuffer();
  if ((await checksum(bytes)) !== wanted) throw new Error(`${path} is of another build`);
  return new Response(bytes, { headers: { "Content-Type": answer.headers.get("Content-Type") ?? "" } });
}

async function keep() {
  const name = PREFIX + BUILD;
  try {
    const cache = await caches.open(name);
    for (const [path, wanted] of Object.entries(FILES)) {
      await cache.put(new URL(path, self.registration.scope), await fetched(path, wanted));
    }
  } catch (error) {
    if ((await inUse()) !== BUILD) await caches.delete(name);
    throw error;
  }
  if ((await inUse()) === null) await use(BUILD);
  await self.skipWaiting();
}

async function answer(request) {
  const url = new URL(request.url);
  url.search = "";
  url.hash = "";
  if (url.href === new URL("index.html", self.registration.scope).href) {
    url.href = self.registration.scope;
  }
  const build = await inUse();
  const kept = build && (await (await caches.open(PREFIX + build)).match(url));
  return kept || fetch(request);
}

self.addEventListener("install", (event) => event.waitUntil(keep()));
self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim()));
self.addEventListener("fetch", (event) => {
  const here = event.request.url.startsWith(self.registration.scope);
  if (event.request.method === "GET" && here) event.respondWith(answer(event.request));
});
/** A tap on a notification leads to the clock. */
async function toTheClock() {
  const [page] = await self.clients.matchAll({ type: "window" });
  const clock = `${self.registration.scope}#clock`;
  return page ? page.navigate(clock).then((there) => there.focus()) : self.clients.openWindow(clock);
}

self.addEventListener("notificationclick", (event) => {
  event.notification.close();
  event.waitUntil(toTheClock());
});
self.addEventListener("message", (event) => {
  const said = async () => {
    if (event.data === "use") await use(BUILD);
    event.source.postMessage({ build: BUILD, inUse: await inUse() });
  };
  event.waitUntil(said());
});
