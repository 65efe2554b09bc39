const workers = navigator.serviceWorker;
const page = document.documentElement;
const fresh = new URLSearchParams(location.search).has("fresh");

if (fresh) {
  // The way out, should a kept version ever be broken: this page came from the host, and what was kept of an
  // older one is forgotten. Plans stay.
  const here = new URL("./", location.href);
  for (const worker of await workers?.getRegistrations() ?? []) {
    if (worker.scope === here.href) await worker.unregister();
  }
  for (const name of await self.caches?.keys() ?? []) {
    if (name.startsWith("bathbook " + here.pathname + " ")) await caches.delete(name);
  }
  history.replaceState(null, "", "./" + location.hash);
} else if (workers?.controller) {
  // What came from the kept copy is kept: the page tells so at once.
  page.dataset.offline = "";
}

// Starts the program. A file of its own, since the page allows no script within itself.
const say = (text) => {
  const status = document.getElementById("shell-status");
  if (status) status.textContent = text;
};
const slow = setTimeout(() => say("Still opening. If this stays so, check the connection and reload the page. "
  + "Plans kept on this device are untouched."), 10000);
try {
  const { default: start } = await import("./{JS}");
  await start({ module_or_path: new URL("./{WASM}", import.meta.url) });
} catch (error) {
  say("Bathbook did not open. Check the connection and reload the page; if it stays so, this browser may be too old: "
    + "update it or use another. Plans kept on this device are untouched.");
  throw error;
} finally {
  clearTimeout(slow);
}

// Keeps the app itself on the device, so that it opens without a network. It works without this too: a
// browser that refuses (private windows, plain http) only needs the network at each start.
/** A newer version lies ready beside the one that runs: the page offers it, and says when to change over. */
function ready(worker) {
  page.dataset.newVersion = "";
  dispatchEvent(new Event("bathbook:new-version"));
  addEventListener("bathbook:change-over", () => {
    workers.addEventListener("controllerchange", () => location.reload(), { once: true });
    worker.postMessage("change over");
  }, { once: true });
}

function watch(worker) {
  const look = () => {
    if (worker.state === "installed" && workers.controller) ready(worker);
    if (worker.state === "activated") page.dataset.offline = "";
  };
  worker.addEventListener("statechange", look);
  look();
}

if (workers && !fresh) {
  try {
    const kept = await workers.register("./sw.js", { updateViaCache: "none" });
    for (const worker of [kept.waiting, kept.installing, kept.active]) if (worker) watch(worker);
    kept.addEventListener("updatefound", () => watch(kept.installing));
    // A tablet stays open for weeks: look again when it is taken up.
    addEventListener("visibilitychange", () => {
      if (!document.hidden) kept.update().catch(() => {});
    });
  } catch {
    // Refused: nothing else depends on it.
  }
}
