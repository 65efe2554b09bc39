// Keeps the whole app on the device as one set of files: a version is there whole, or not at all.
// The page asks for the change to a newer one; until then the version that was opened stays.
const VERSION = "{VERSION}";
/** Every file of the site with its SHA-256. */
const FILES = {FILES};
// Sites in other folders of the same host have caches of their own.
const OURS = "bathbook " + new URL("./", location.href).pathname + " ";
const CACHE = OURS + VERSION;

async function keep() {
  const cache = await caches.open(CACHE);
  await Promise.all(Object.entries(FILES).map(async ([name, wanted]) => {
    // What is named after its content may come from the browser's own cache, where the page has just put it.
    // The rest goes past that cache: to wait there for the page to be done with an icon can take 20 s.
    const answer = await fetch("./" + name, { cache: /-[0-9a-f]{16}\./.test(name) ? "default" : "no-store" });
    const body = await answer.arrayBuffer();
    const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", body));
    const found = Array.from(digest, (byte) => byte.toString(16).padStart(2, "0")).join("");
    // A host in the midst of an update, or a login page in place of a file: this version is tried again later.
    if (!answer.ok || found !== wanted) throw new Error(name + " is not the file of this version");
    const headers = { "Content-Type": answer.headers.get("Content-Type") ?? "" };
    await cache.put("./" + name, new Response(body, { headers }));
  }));
}

async function dropOlder() {
  const names = await caches.keys();
  await Promise.all(names.filter((name) => name.startsWith(OURS) && name !== CACHE).map((name) => caches.delete(name)));
}

addEventListener("install", (event) => event.waitUntil(keep()));
addEventListener("activate", (event) => event.waitUntil(dropOlder()));
addEventListener("message", (event) => {
  if (event.data === "change over") skipWaiting();
});
addEventListener("fetch", (event) => {
  const { request } = event;
  const [address, here] = [new URL(request.url), new URL("./", location.href)];
  if (request.method !== "GET" || address.origin !== here.origin || address.searchParams.has("fresh")) return;
  if (!address.pathname.startsWith(here.pathname)) return;
  const name = address.pathname.slice(here.pathname.length) || "index.html";
  if (!Object.hasOwn(FILES, name)) return;
  event.respondWith(
    caches.open(CACHE).then((cache) => cache.match("./" + name)).then((kept) => kept ?? fetch(request)),
  );
});
